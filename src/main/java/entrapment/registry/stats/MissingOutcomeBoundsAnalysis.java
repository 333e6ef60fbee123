package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Between which values must the proportion lie, whatever the unknown outcomes were?
 *
 * @param completeCase the proportion among known outcomes
 * @param lowestPossible if no unknown outcome was an event; {@code null} without any outcome
 * @param highestPossible if all of them were
 * @param proportionMissing share of unknown outcomes
 * @param envelope from the lower limit of the lowest to the upper limit of the highest possible
 * @param notes why a figure is missing, or that the unknown outcomes matter more than chance
 */
public record MissingOutcomeBoundsAnalysis(
        CompleteCase completeCase,
        @Nullable Double lowestPossible,
        @Nullable Double highestPossible,
        @Nullable Double proportionMissing,
        Interval envelope,
        List<Note> notes) {

    /**
     * Known outcomes alone, as if the unknown were like them.
     *
     * @param estimate e/k; {@code null} if none is known
     * @param wilson its interval
     */
    public record CompleteCase(@Nullable Double estimate, Interval wilson) {}

    /**
     * Worst-case bounds for m unknown outcomes.
     *
     * <p>Valid whatever the reason that outcomes are unknown. With e events among k known: lowest e/(k+m), highest
     * (e+m)/(k+m) [1]; the envelope runs from Wilson's lower limit of e in k+m to his upper limit of e+m in k+m. Nothing is
     * imputed.
     *
     * <p>Edges: k+m = 0: all {@code null}, note {@code NO_EXPOSURE}. k = 0: the bounds are 0 and 1. m &gt; e: note
     * {@code MISSING_OUTCOMES}, and the bounds are to be printed.
     *
     * <p><b>Same as</b> R {@code prop.test(e, k + m, correct = FALSE)} and {@code prop.test(e + m, k + m, correct = FALSE)}.
     * Accuracy: as {@link Proportion#interval}.
     *
     * <p>[1] Manski CF, Partial Identification of Probability Distributions, Springer 2003.
     *
     * @param known events among known outcomes
     * @param missingOutcome m in [0, 2³¹−1−k]
     * @throws IllegalArgumentException if m is out of its range
     */
    public static MissingOutcomeBoundsAnalysis of(Proportion known, long missingOutcome, Confidence confidence) {
        Counts.require("missingOutcome", missingOutcome, 0, Counts.LARGEST - known.of());
        long all = known.of() + missingOutcome;
        Proportion lowest = new Proportion(known.events(), all);
        Proportion highest = new Proportion(known.events() + missingOutcome, all);
        return new MissingOutcomeBoundsAnalysis(
                new CompleteCase(known.estimate(), known.interval(IntervalMethod.WILSON, confidence)),
                lowest.estimate(),
                highest.estimate(),
                new Proportion(missingOutcome, all).estimate(),
                new Interval(
                        lowest.interval(IntervalMethod.WILSON, confidence).lower(),
                        highest.interval(IntervalMethod.WILSON, confidence).upper()),
                notes(known, missingOutcome));
    }

    private static List<Note> notes(Proportion known, long missing) {
        if (known.of() + missing == 0) {
            return List.of(new Note(NoteCode.NO_EXPOSURE, "Nothing was observed, so nothing can be estimated."));
        }
        List<Note> notes = new ArrayList<>();
        if (known.of() == 0) {
            notes.add(new Note(NoteCode.NO_EXPOSURE, "No outcome is known, so any proportion is possible."));
        } else if (known.events() == 0) {
            notes.add(new Note(
                    NoteCode.NO_EVENT,
                    "No event does not mean no risk: the upper limit says how high the true frequency may still be."));
        }
        if (missing > known.events()) {
            notes.add(new Note(
                    NoteCode.MISSING_OUTCOMES,
                    "More outcomes are unknown than events are known: read the bounds, not the single figure."));
        }
        return List.copyOf(notes);
    }
}
