package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * Events over an exposure that can carry several of them, such as catheter-days. For uses with at most one event each
 * take {@link Proportion}.
 *
 * @param events x in [0, 2³¹−1]
 * @param exposure t, 0 or in [1e-9, 1e15], in any unit
 */
public record Rate(long events, double exposure) {

    private static final double LEAST_EXPOSURE = 1e-9;
    private static final double MOST_EXPOSURE = 1e15;

    /** @throws IllegalArgumentException if a value is out of its range or not a number */
    public Rate {
        Counts.require("events", events);
        if (!(exposure == 0 || (exposure >= LEAST_EXPOSURE && exposure <= MOST_EXPOSURE))) {
            throw new IllegalArgumentException(
                    "exposure must be 0 or in [" + LEAST_EXPOSURE + ", " + MOST_EXPOSURE + "], got " + exposure);
        }
    }

    /** x/t, or {@code null} for t = 0. */
    public @Nullable Double estimate() {
        return exposure == 0 ? null : events / exposure;
    }

    /**
     * Exact limits of the true rate, per unit of exposure.
     *
     * <p>Valid for a Poisson count. Lower Gamma⁻¹(α/2; x)/t, upper Gamma⁻¹(1−α/2; x+1)/t, which is ½χ² with 2x and 2x+2
     * degrees of freedom [1].
     *
     * <p>Edges: x = 0 gives a lower limit of exactly 0; t = 0 gives {@link Interval#NOT_ESTIMABLE}.
     *
     * <p><b>Same as</b> R {@code poisson.test(x, t)$conf.int}. Accuracy: as {@link GammaQuantile}, relative
     * 1e-12 up to a million events.
     *
     * <p>[1] Garwood F, Biometrika 1936;28:437.
     */
    public Interval garwood(Confidence confidence) {
        double logTail = confidence.logTail();
        double x = events;
        return perExposure(x == 0 ? 0 : GammaQuantile.lower(logTail, x), GammaQuantile.upper(logTail, x + 1));
    }

    /**
     * Byar's closed approximation to {@link #garwood}, per unit of exposure.
     *
     * <p>x(1−1/(9x)−z/(3√x))³/t and (x+1)(1−1/(9(x+1))+z/(3√(x+1)))³/t [1].
     *
     * <p>Edges: x = 0, or a negative bracket (one event at 99.8 %), gives a lower limit of exactly 0; t = 0 gives
     * {@link Interval#NOT_ESTIMABLE}.
     *
     * <p><b>Not the same as</b> R {@code epitools::pois.byar}, which takes x+½ in both limits [from memory]. Accuracy
     * against the exact limits from two events on: the upper one within 0.1 %, the lower one at most 10 % too low.
     *
     * <p>[1] Breslow NE, Day NE, Statistical Methods in Cancer Research II, IARC 1987.
     */
    public Interval byar(Confidence confidence) {
        double z = confidence.z();
        double x = events;
        double y = x + 1;
        double bracket = events == 0 ? 0 : Math.max(0, 1 - 1 / (9 * x) - z / (3 * FastMath.sqrt(x)));
        return perExposure(x * cube(bracket), y * cube(1 - 1 / (9 * y) + z / (3 * FastMath.sqrt(y))));
    }

    private Interval perExposure(double lower, double upper) {
        return exposure == 0 ? Interval.NOT_ESTIMABLE : new Interval(lower / exposure, upper / exposure);
    }

    private static double cube(double value) {
        return value * value * value;
    }
}
