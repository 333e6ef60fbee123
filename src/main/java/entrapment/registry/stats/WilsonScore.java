package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;

/**
 * The score interval of a proportion: all θ with (x−nθ)² ≤ z²·nθ(1−θ), the roots of
 * (n+z²)θ² − (2x+z²)θ + x²/n = 0.
 *
 * <p>The counts are real numbers here: an effective sample size is seldom whole, and the continuity correction is the
 * same pair of roots half an event away (lower at x−½, upper at x+½, which is Newcombe's method 4).
 */
final class WilsonScore {

    private WilsonScore() {}

    /** The interval for x of n, 0 ≤ x ≤ n, n &gt; 0; exactly 0 and 1 at the ends. */
    static Interval of(double x, double n, double z) {
        return new Interval(lower(x, n, z), x >= n ? 1 : upper(x, n, z));
    }

    /** The continuity-corrected interval; exactly 0 at x = 0 and 1 at x = n. */
    static Interval continuityCorrected(double x, double n, double z) {
        return new Interval(x <= 0 ? 0 : lower(x - 0.5, n, z), x >= n ? 1 : upper(x + 0.5, n, z));
    }

    /** The lower root as the product of the roots over the upper one: no digits are lost for rare events. */
    private static double lower(double x, double n, double z) {
        return x / (n + z * z) * (x / n) / upper(x, n, z);
    }

    private static double upper(double x, double n, double z) {
        return Math.min(1, (x + z * z / 2 + z * FastMath.sqrt(x * (n - x) / n + z * z / 4)) / (n + z * z));
    }
}
