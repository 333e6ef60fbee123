package entrapment.registry.stats;

import static entrapment.registry.stats.Logit.proportion;
import static entrapment.registry.stats.Logit.softplus;

import org.apache.commons.math3.special.Beta;
import org.apache.commons.math3.util.ContinuedFraction;
import org.apache.commons.math3.util.FastMath;

/**
 * Quantiles of the beta distribution on the logit scale, with relative accuracy in both tails.
 *
 * <p>{@code BetaDistribution.inverseCumulativeProbability} of Commons Math stops at an absolute 1e-9, and its incomplete
 * beta function takes p alone, so that 1−p loses its digits with millions of uses. Here both come from the logit.
 *
 * <p><b>Same as</b> R {@code qlogis(qbeta(exp(logTail), a, b))}. Accuracy: relative 1e-12 in p for up to 100,000
 * events, 1e-11 beyond, tested up to a+b = 2³¹ against closed forms, the binomial sum and a 50-digit series.
 */
final class BetaQuantile {

    private static final double FRACTION_ACCURACY = 1e-15;

    /** The fraction needs some √(a+b) terms, 50,000 at the largest counts allowed; this is a stop, not a limit met. */
    private static final int MOST_TERMS = 5_000_000;

    private BetaQuantile() {}

    /** The logit of the point below which the distribution Beta(a, b) has probability e^logTail. */
    static double logit(double logTail, double a, double b) {
        return MonotoneRoot.of(t -> logLowerTail(t, a, b) - logTail, FastMath.log(a / b), FastMath.sqrt(1 / a + 1 / b));
    }

    /** The point below which the distribution Beta(a, b) has probability e^logTail. */
    static double lower(double logTail, double a, double b) {
        return proportion(logit(logTail, a, b));
    }

    /** The point above which the distribution Beta(a, b) has probability e^logTail. */
    static double upper(double logTail, double a, double b) {
        return proportion(-logit(logTail, b, a));
    }

    /** log I_p(a, b) at p = 1/(1+e^−t), from whichever side of the mean converges. */
    static double logLowerTail(double t, double a, double b) {
        return proportion(t) > (a + 1) / (a + b + 2)
                ? FastMath.log1p(-FastMath.exp(logFraction(-t, b, a)))
                : logFraction(t, a, b);
    }

    /**
     * I_x(a, b) = x^a y^b / B(a, b) / (β₀ + α₁/(β₁ + α₂/(β₂ + …))) with y = 1−x [1, eq. 9]. The usual fraction takes x
     * alone and loses as many digits as 1−x has zeros.
     *
     * <p>[1] DiDonato AR, Morris AH, ACM Trans Math Softw 1992;18:360, doi:10.1145/131766.131776.
     */
    private static double logFraction(double t, double a, double b) {
        double x = proportion(t);
        double y = proportion(-t);
        ContinuedFraction fraction = new ContinuedFraction() {
            @Override
            protected double getA(int m, double unused) {
                double first = m == 0 ? 0 : m + m * (b - m) * x / (a + 2.0 * m - 1);
                return first + (a + m) * (a * y - b * x + 1 + m * (2 - x)) / (a + 2.0 * m + 1);
            }

            @Override
            protected double getB(int m, double unused) {
                double denominator = a + 2.0 * m - 1;
                return (a + m - 1) / denominator * (a + b + m - 1) / denominator * m * (b - m) * x * x;
            }
        };
        return -a * softplus(-t)
                - b * softplus(t)
                - Beta.logBeta(a, b)
                - FastMath.log(fraction.evaluate(0, FRACTION_ACCURACY, MOST_TERMS));
    }
}
