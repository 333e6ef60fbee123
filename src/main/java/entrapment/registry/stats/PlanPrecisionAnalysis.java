package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * How many uses does it take to know a proportion to within so much?
 *
 * @param nWilson smallest n whose Wilson interval has at most the wanted half-width; {@code null} if beyond 2³¹−1
 * @param halfWidthAtN the half-width it has
 * @param nWald the same by the textbook formula, for comparison: too small for rare events; {@code null} for p of 0 or
 *     1
 * @param nForZeroEventsBelow smallest n that, without an event, excludes the given proportion; {@code null} if none is given
 * @param notes why a figure is missing
 */
public record PlanPrecisionAnalysis(
        @Nullable Long nWilson,
        @Nullable Double halfWidthAtN,
        @Nullable Long nWald,
        @Nullable Long nForZeroEventsBelow,
        List<Note> notes) {

    private static final Note NO_WALD = new Note(
            NoteCode.BOUNDARY,
            "At an anticipated proportion of 0 or 1 the textbook formula would ask for no use at all, so it gives no"
                    + " number.");

    /**
     * Sizes for a wanted precision.
     *
     * <p>Valid for independent uses, if the proportion turns out as anticipated. Half-width z/(n+z²)·√(np(1−p)+z²/4) ≤ w, which
     * falls with n; Wald z²p(1−p)/w²; without an event ⌈log(1−level)/log(1−p*)⌉ [1].
     *
     * <p>Edges: p of 0 or 1: half-width z²/(2(n+z²)), and Wald's size, which would be 0, is {@code null}, note
     * {@code BOUNDARY}. Sizes beyond 2³¹−1: {@code null}, note {@code OUT_OF_REACH}.
     *
     * <p>Base R has no such function; the values are checked step by step. Sizes are exact integers.
     *
     * <p>[1] Hanley JA, Lippman-Hand A, JAMA 1983;249:1743.
     *
     * @param anticipatedProportion p in [0, 1]; 0 where no event is expected
     * @param halfWidth w in (0, 0.5)
     * @param zeroEventBound p* in (0, 1), or {@code null}
     * @throws IllegalArgumentException if a value is out of its range or not a number
     */
    public static PlanPrecisionAnalysis of(
            double anticipatedProportion, double halfWidth, @Nullable Double zeroEventBound, Confidence confidence) {
        if (!(anticipatedProportion >= 0 && anticipatedProportion <= 1)) {
            throw new IllegalArgumentException(
                    "anticipated proportion must be in [0, 1], got " + anticipatedProportion);
        }
        if (!(halfWidth > 0 && halfWidth < 0.5)) {
            throw new IllegalArgumentException("half-width must be in (0, 0.5), got " + halfWidth);
        }
        double z = confidence.z();
        double variance = anticipatedProportion * (1 - anticipatedProportion);
        long n = IntegerSearch.first(
                size -> halfWidth((double) size, variance, z) <= halfWidth * (1 + 1e-12), 1, Counts.LARGEST);
        Long wilson = n > Counts.LARGEST ? null : n;
        Long wald = variance == 0 ? null : Plan.count(z * z * variance / (halfWidth * halfWidth));
        Long none = zeroEventBound == null ? null : sizeWithoutEvent(zeroEventBound, confidence);
        List<Note> notes = new ArrayList<>();
        if (variance == 0) {
            notes.add(NO_WALD);
        }
        if (wilson == null || (wald == null && variance > 0) || (none == null && zeroEventBound != null)) {
            notes.add(Plan.OUT_OF_REACH);
        }
        return new PlanPrecisionAnalysis(
                wilson,
                wilson == null ? null : halfWidth(wilson.doubleValue(), variance, z),
                wald,
                none,
                List.copyOf(notes));
    }

    private static double halfWidth(double n, double variance, double z) {
        return z / (n + z * z) * FastMath.sqrt(n * variance + z * z / 4);
    }

    private static @Nullable Long sizeWithoutEvent(double bound, Confidence confidence) {
        Counts.requireInside("zero-event bound", bound);
        return Plan.count(FastMath.log(confidence.alpha()) / FastMath.log1p(-bound));
    }
}
