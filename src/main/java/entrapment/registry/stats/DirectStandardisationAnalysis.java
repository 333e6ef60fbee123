package entrapment.registry.stats;

import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * What would the rate have been with the standard's mix of cases?
 *
 * @param rate Σw·e/n; {@code null} if a weighted stratum has no data
 * @param standardError √Σ(w/n)²e
 * @param fayFeuer the default interval
 * @param dobson an alternative; {@code null} limits without an event
 * @param strataWithoutData number of strata that have a weight but no uses
 * @param notes why a figure is missing
 */
public record DirectStandardisationAnalysis(
        @Nullable Double rate,
        @Nullable Double standardError,
        Interval fayFeuer,
        Interval dobson,
        int strataWithoutData,
        List<Note> notes) {

    /**
     * A directly standardised rate.
     *
     * <p>Valid for Poisson counts in each stratum. With shares w summing to 1: r = Σw·e/n, v = Σ(w/n)²e, k = max(w/n).
     * Fay–Feuer: v/(2r)·χ²⁻¹(α/2; 2r²/v) and (v+k²)/(2(r+k))·χ²⁻¹(1−α/2; 2(r+k)²/(v+k²)) [1]. Dobson: r+√(v/x)·(limit−x)
     * with Garwood's limits of the total x [2], the lower held at 0.
     *
     * <p>Edges: strata without weight do not count. A stratum with a weight and no uses: everything {@code null}, and the note
     * names it. No event: rate and lower limit exactly 0, Dobson's limits {@code null}.
     *
     * <p><b>Same as</b> R {@code epitools::ageadjust.direct} (Fay–Feuer). Accuracy: relative 1e-10.
     *
     * <p>[1] Fay MP, Feuer EJ, Stat Med 1997;16:791. [2] Dobson AJ et al., Stat Med 1991;10:457.
     *
     * @throws IllegalArgumentException if no stratum has a weight, or the events exceed 2³¹−1
     */
    public static DirectStandardisationAnalysis of(List<WeightedStratum> strata, Confidence confidence) {
        double total = strata.stream().mapToDouble(WeightedStratum::weight).sum();
        if (!(total > 0)) {
            throw new IllegalArgumentException("the sum of weights must be above 0, got " + total);
        }
        List<WeightedStratum> used =
                strata.stream().filter(stratum -> stratum.weight() > 0).toList();
        List<Integer> empty = IntStream.range(0, strata.size())
                .filter(i ->
                        strata.get(i).weight() > 0 && strata.get(i).proportion().of() == 0)
                .mapToObj(i -> i + 1)
                .toList();
        if (!empty.isEmpty()) {
            return new DirectStandardisationAnalysis(
                    null, null, Interval.NOT_ESTIMABLE, Interval.NOT_ESTIMABLE, empty.size(), List.of(noData(empty)));
        }
        long x = used.stream()
                .mapToLong(stratum -> stratum.proportion().events())
                .sum();
        Counts.require("sum of events", x);
        double r = 0;
        double v = 0;
        double k = 0;
        for (WeightedStratum stratum : used) {
            double share = stratum.weight() / total / stratum.proportion().of();
            r += share * stratum.proportion().events();
            v += share * share * stratum.proportion().events();
            k = Math.max(k, share);
        }
        return new DirectStandardisationAnalysis(
                r,
                FastMath.sqrt(v),
                fayFeuer(r, v, k, confidence.logTail()),
                x == 0 ? Interval.NOT_ESTIMABLE : dobson(r, v, x, confidence),
                0,
                x == 0 ? List.of(noEvent()) : List.of());
    }

    /** χ²⁻¹ with 2a degrees of freedom is twice Gamma⁻¹ with shape a. */
    private static Interval fayFeuer(double r, double v, double k, double logTail) {
        return new Interval(
                r == 0 ? 0 : v / r * GammaQuantile.lower(logTail, r * r / v),
                (v + k * k) / (r + k) * GammaQuantile.upper(logTail, (r + k) * (r + k) / (v + k * k)));
    }

    private static Interval dobson(double r, double v, long x, Confidence confidence) {
        double logTail = confidence.logTail();
        double scale = FastMath.sqrt(v / x);
        return new Interval(
                Math.max(0, r + scale * (GammaQuantile.lower(logTail, (double) x) - x)),
                r + scale * (GammaQuantile.upper(logTail, x + 1.0) - x));
    }

    private static Note noData(List<Integer> empty) {
        return new Note(
                NoteCode.NO_EXPOSURE,
                "No use in stratum "
                        + String.join(", ", empty.stream().map(String::valueOf).toList())
                        + ", which has a weight in the standard, so no rate can be standardised to it.");
    }

    private static Note noEvent() {
        return new Note(
                NoteCode.NO_EVENT,
                "No event does not mean no risk: the upper limit says how high the true rate may still be.");
    }
}
