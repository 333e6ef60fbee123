package entrapment.registry.stats;

import org.apache.commons.math3.special.Gamma;
import org.jspecify.annotations.Nullable;

/**
 * A statistic that follows a χ² distribution if the hypothesis holds and counts are large.
 *
 * @param statistic at least 0; {@code null} if it cannot be computed
 * @param df degrees of freedom; 0 if there is nothing to test
 * @param pValue its upper tail
 */
public record ChiSquaredTest(
        @Nullable Double statistic, int df, @Nullable Double pValue) {

    static ChiSquaredTest of(double statistic, int df) {
        return new ChiSquaredTest(statistic, df, upperTail(statistic, df));
    }

    static ChiSquaredTest notEstimable(int df) {
        return new ChiSquaredTest(null, df, null);
    }

    /**
     * Upper tail of the χ² distribution, never as one minus something: <b>same as</b> R
     * {@code pchisq(x, df, lower.tail = FALSE)}, but held above 0, which no p-value is.
     */
    static double upperTail(double x, int df) {
        return Math.max(Double.MIN_NORMAL, Gamma.regularizedGammaQ(df / 2.0, x / 2));
    }
}
