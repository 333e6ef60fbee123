package entrapment.registry.stats;

import org.apache.commons.math3.special.Gamma;

/**
 * Upper tail of the χ² distribution, never as one minus something: <b>same as</b> R {@code pchisq(x, df, lower.tail = FALSE)}, but
 * held above 0, which no p-value is.
 */
final class ChiSquared {

    private ChiSquared() {}

    static double upperTail(double x, int df) {
        return Math.max(Double.MIN_NORMAL, Gamma.regularizedGammaQ(df / 2.0, x / 2));
    }
}
