package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * So many events in so many uses (or cases, or attempts), each of which can have at most one event.
 *
 * @param events x in [0, n]
 * @param of n in [0, 2³¹−1]
 */
public record Proportion(long events, long of) {

    /** @throws IllegalArgumentException if a count is negative or too large, or there are more events than uses */
    public Proportion {
        Counts.require("of", of);
        Counts.require("events", events, 0, of);
    }

    /** x/n, or {@code null} for n = 0. */
    public @Nullable Double estimate() {
        return of == 0 ? null : (double) events / of;
    }

    /**
     * Limits of the true proportion.
     *
     * <p>Valid for independent uses with one underlying proportion. With z = Φ⁻¹(1−α/2) and p = x/n:
     *
     * <ul>
     *   <li>{@code WILSON}: centre (x+z²/2)/(n+z²), half-width z/(n+z²)·√(x(1−p)+z²/4) [1]
     *   <li>{@code WILSON_CONTINUITY}: Wilson's lower limit at x−½, upper at x+½ [2, method 4]
     *   <li>{@code CLOPPER_PEARSON}: Beta⁻¹(α/2; x, n−x+1), Beta⁻¹(1−α/2; x+1, n−x) [3]
     *   <li>{@code JEFFREYS}: Beta⁻¹(α/2 and 1−α/2; x+½, n−x+½) [4]
     * </ul>
     *
     * <p>Edges: n = 0 gives {@link Interval#NOT_ESTIMABLE}; x = 0 a lower limit of exactly 0 and x = n an upper limit of
     * exactly 1, with every method.
     *
     * <p><b>Same as</b> R {@code prop.test(x, n, correct = FALSE)}, {@code binom.test(x, n)},
     * {@code DescTools::BinomCI(x, n, method = "wilsoncc")}, {@code qbeta}. <b>Not the same as</b>
     * {@code prop.test(x, n)} when |x−n/2| &lt; ½, where R shrinks the correction.
     *
     * <p>Accuracy: relative 1e-14 for the two Wilson intervals, 1e-12 for the other two up to 100,000
     * events and 1e-11 beyond, tested up to n = 2³¹−1.
     *
     * <p>[1] Wilson EB, J Am Stat Assoc 1927;22:209. [2] Newcombe RG, Stat Med 1998;17:857. [3] Clopper CJ, Pearson ES,
     * Biometrika 1934;26:404. [4] Brown LD, Cai TT, DasGupta A, Stat Sci 2001;16:101.
     */
    public Interval interval(IntervalMethod method, Confidence confidence) {
        if (of == 0) {
            return Interval.NOT_ESTIMABLE;
        }
        double x = events;
        double n = of;
        return switch (method) {
            case WILSON -> WilsonScore.of(x, n, confidence.z());
            case WILSON_CONTINUITY -> WilsonScore.continuityCorrected(x, n, confidence.z());
            case CLOPPER_PEARSON -> clopperPearson(confidence.logTail());
            case JEFFREYS -> jeffreys(confidence.logTail());
        };
    }

    /** Both together. */
    public Proportion plus(Proportion other) {
        return new Proportion(events + other.events, of + other.of);
    }

    private Interval clopperPearson(double logTail) {
        double x = events;
        double n = of;
        double lower = x == 0 ? 0 : x == n ? FastMath.exp(logTail / n) : BetaQuantile.lower(logTail, x, n - x + 1);
        double upper = x == n ? 1 : x == 0 ? -FastMath.expm1(logTail / n) : BetaQuantile.upper(logTail, x + 1, n - x);
        return new Interval(lower, upper);
    }

    private Interval jeffreys(double logTail) {
        double a = events + 0.5;
        double b = of - events + 0.5;
        return new Interval(
                events == 0 ? 0 : BetaQuantile.lower(logTail, a, b),
                events == of ? 1 : BetaQuantile.upper(logTail, a, b));
    }
}
