package entrapment.registry.stats;

import org.apache.commons.math3.special.Erf;
import org.apache.commons.math3.util.FastMath;

/**
 * The level of a two-sided interval.
 *
 * <p>Accuracy: {@link #z()} agrees with R's {@code qnorm(1 - (1 - level) / 2)} to a relative 1e-14 at the levels tested
 * (0.5 to 0.9999); 1.959963984540054 at 0.95, never 1.96.
 *
 * @param level in [0.5, 0.9999]: a lower level is not an interval anyone reports, and above it the normal
 *     approximations behind half of the methods say nothing
 */
public record Confidence(double level) {

    /** 95 per cent, the level of every report that names no other. */
    public static final Confidence DEFAULT = new Confidence(0.95);

    private static final double LOWEST = 0.5;
    private static final double HIGHEST = 0.9999;

    /** @throws IllegalArgumentException if {@code level} is outside [0.5, 0.9999] or not a number */
    public Confidence {
        Counts.requireReal("confidence", level, LOWEST, HIGHEST);
    }

    /** α, the share of intervals that may miss. */
    public double alpha() {
        return 1 - level;
    }

    /** The standard normal deviate Φ⁻¹(1−α/2). */
    public double z() {
        return FastMath.sqrt(2) * Erf.erfInv(level);
    }

    /** log(α/2), the target of every exact limit: tails are compared as logarithms. */
    double logTail() {
        return FastMath.log(alpha() / 2);
    }

    /**
     * t with P(|T| ≤ t) = level: <b>same as</b> R {@code qt(1 - (1 - level) / 2, df)}, relative 1e-12. Through
     * P(|T| &gt; t) = I_x(ν/2, ½) at x = ν/(ν+t²), which keeps digits for any ν.
     */
    double t(double df) {
        double logit = BetaQuantile.logit(FastMath.log(alpha()), df / 2, 0.5);
        return FastMath.sqrt(df) * FastMath.exp(-logit / 2);
    }
}
