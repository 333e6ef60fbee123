package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * By how much do two proportions differ?
 *
 * @param difference p₁−p₂; {@code null} if a group is empty
 * @param newcombe the default interval (method 10)
 * @param newcombeContinuity the same built on continuity-corrected limits (method 11)
 * @param per1000 difference and default limits per 1,000 uses
 * @param notes why a figure is missing or to be read with care
 */
public record DifferenceAnalysis(
        @Nullable Double difference,
        Interval newcombe,
        Interval newcombeContinuity,
        Estimate per1000,
        List<Note> notes) {

    /**
     * The difference of two independent proportions with hybrid score limits.
     *
     * <p>With Wilson limits (l₁,u₁), (l₂,u₂) of each group: L = d−√((p₁−l₁)²+(u₂−p₂)²), U = d+√((u₁−p₁)²+(p₂−l₂)²) [1,
     * methods 10 and 11], held inside [−1, 1].
     *
     * <p>Edges: an empty group: all {@code null}, note {@code NO_EXPOSURE}. No event in either group: difference 0 with
     * limits from the group sizes, note {@code NO_EVENT}.
     *
     * <p><b>Same as</b> R {@code DescTools::BinomDiffCI(x1, n1, x2, n2, method = "score")} and {@code "scorecc"}. <b>Not
     * the same as</b> {@code prop.test(c(x1, x2), c(n1, n2))$conf.int}, a Wald interval. Accuracy: relative 1e-12.
     *
     * <p>[1] Newcombe RG, Stat Med 1998;17:873.
     */
    public static DifferenceAnalysis of(Proportion a, Proportion b, Confidence confidence) {
        Double p1 = a.estimate();
        Double p2 = b.estimate();
        Double difference = p1 == null || p2 == null ? null : p1 - p2;
        Interval newcombe = hybrid(a, b, IntervalMethod.WILSON, confidence);
        return new DifferenceAnalysis(
                difference,
                newcombe,
                hybrid(a, b, IntervalMethod.WILSON_CONTINUITY, confidence),
                Estimate.per1000(difference, newcombe),
                notes(a, b));
    }

    /** The square-and-add limits over the given intervals of the single proportions. */
    private static Interval hybrid(Proportion a, Proportion b, IntervalMethod method, Confidence confidence) {
        Interval first = a.interval(method, confidence);
        Interval second = b.interval(method, confidence);
        Double p1 = a.estimate();
        Double p2 = b.estimate();
        if (p1 == null
                || p2 == null
                || first.lower() == null
                || first.upper() == null
                || second.lower() == null
                || second.upper() == null) {
            return Interval.NOT_ESTIMABLE;
        }
        double down = FastMath.hypot(p1 - first.lower(), second.upper() - p2);
        double up = FastMath.hypot(first.upper() - p1, p2 - second.lower());
        return new Interval(Math.max(-1, p1 - p2 - down), Math.min(1, p1 - p2 + up));
    }

    private static List<Note> notes(Proportion a, Proportion b) {
        List<Note> notes = new ArrayList<>();
        if (a.of() == 0 || b.of() == 0) {
            notes.add(new Note(NoteCode.NO_EXPOSURE, "A group is empty, so there is nothing to compare it with."));
        } else if (a.events() == 0 && b.events() == 0) {
            notes.add(new Note(
                    NoteCode.NO_EVENT,
                    "No event in either group: the limits show what difference these numbers could have missed."));
        }
        return List.copyOf(notes);
    }
}
