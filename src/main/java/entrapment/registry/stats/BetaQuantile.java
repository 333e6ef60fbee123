package entrapment.registry.stats;

import org.apache.commons.math3.special.Beta;
import org.apache.commons.math3.util.ContinuedFraction;
import org.apache.commons.math3.util.FastMath;

/**
 * Quantiles of the beta law on the logit scale, with relative accuracy in both tails.
 *
 * <p>{@code BetaDistribution.inverseCumulativeProbability} of Commons Math stops at an absolute 1e-9, and its incomplete
 * beta function takes p alone, so that 1−p is lost for events in millions. Here both come from the logit.
 *
 * <p><b>Same as</b> R {@code qlogis(qbeta(exp(logTail), a, b))}. Accuracy: relative 1e-11 or better in p, tested from
 * 1 in 2·10⁹ to half of 2·10⁹ against closed forms and against the binomial sum itself.
 */
final class BetaQuantile {

    private static final double FRACTION_ACCURACY = 1e-15;

    /** The fraction needs some √(a+b) terms; the largest counts allowed need less than a tenth of this. */
    private static final int MOST_TERMS = 5_000_000;

    private BetaQuantile() {}

    /** The logit of the point below which the law Beta(a, b) has probability e^logTail. */
    static double logit(double logTail, double a, double b) {
        return MonotoneRoot.of(t -> logLowerTail(t, a, b) - logTail, FastMath.log(a / b), FastMath.sqrt(1 / a + 1 / b));
    }

    /** The point below which the law Beta(a, b) has probability e^logTail. */
    static double lower(double logTail, double a, double b) {
        return proportion(logit(logTail, a, b));
    }

    /** The point above which the law Beta(a, b) has probability e^logTail. */
    static double upper(double logTail, double a, double b) {
        return proportion(-logit(logTail, b, a));
    }

    /** log I_p(a, b) at p = 1/(1+e^−t), from whichever side of the mean converges. */
    static double logLowerTail(double t, double a, double b) {
        return proportion(t) > (a + 1) / (a + b + 2)
                ? FastMath.log1p(-FastMath.exp(logFraction(-t, b, a)))
                : logFraction(t, a, b);
    }

    private static double proportion(double t) {
        return 1 / (1 + FastMath.exp(-t));
    }

    /** log(1+e^t) without overflow. */
    private static double softplus(double t) {
        return Math.max(t, 0) + FastMath.log1p(FastMath.exp(-Math.abs(t)));
    }

    /** Abramowitz and Stegun 26.5.8: I_p(a, b) = p^a q^b / (a B(a, b)) / (1 + d₁/(1 + d₂/(1 + …))). */
    private static double logFraction(double t, double a, double b) {
        ContinuedFraction fraction = new ContinuedFraction() {
            @Override
            protected double getA(int n, double p) {
                return 1;
            }

            @Override
            protected double getB(int n, double p) {
                double m = Math.floor(n / 2.0);
                return n % 2 == 0
                        ? m * (b - m) * p / ((a + 2 * m - 1) * (a + 2 * m))
                        : -(a + m) * (a + b + m) * p / ((a + 2 * m) * (a + 2 * m + 1));
            }
        };
        return -a * softplus(-t)
                - b * softplus(t)
                - FastMath.log(a)
                - Beta.logBeta(a, b)
                - FastMath.log(fraction.evaluate(proportion(t), FRACTION_ACCURACY, MOST_TERMS));
    }
}
