package entrapment.registry.stats;

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
        return new ChiSquaredTest(statistic, df, ChiSquared.upperTail(statistic, df));
    }

    static ChiSquaredTest notEstimable(int df) {
        return new ChiSquaredTest(null, df, null);
    }
}
