package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * How often did it happen, and between which values may the true frequency lie?
 *
 * @param estimate x/n; {@code null} for n = 0
 * @param wilson the default interval
 * @param wilsonContinuity see {@link Proportion#interval}
 * @param clopperPearson see {@link Proportion#interval}
 * @param jeffreys see {@link Proportion#interval}
 * @param zeroEventUpperOneSided only without an event: the one-sided upper bound at the same level
 * @param ruleOfThree only without an event: the bound's rule of thumb, 3/n at 95 %; held at 1, which it passes for tiny n
 * @param per1000 estimate and Wilson limits per 1,000 uses
 * @param notes why a figure is missing or held at an edge
 */
public record ProportionAnalysis(
        @Nullable Double estimate,
        Interval wilson,
        Interval wilsonContinuity,
        Interval clopperPearson,
        Interval jeffreys,
        @Nullable Double zeroEventUpperOneSided,
        @Nullable Double ruleOfThree,
        Estimate per1000,
        List<Note> notes) {

    /**
     * All intervals of one proportion side by side, and for x = 0 the one-sided bound, which is the question asked then.
     *
     * <p>Bound: 1−(1−level)^(1/n); rule of three: −log(1−level)/n [1], held at 1: it is made for large n, and for tiny n
     * it passes what any proportion can be.
     *
     * <p>Edges: n = 0: all {@code null}, note {@code NO_EXPOSURE}. x = 0: note {@code NO_EVENT}. x = n: note
     * {@code BOUNDARY}.
     *
     * <p><b>Same as</b> R {@code 1 - 0.05^(1/n)} for the bound. Accuracy: as {@link Proportion#interval}; the bound
     * relative 1e-15.
     *
     * <p>[1] Hanley JA, Lippman-Hand A, JAMA 1983;249:1743.
     */
    public static ProportionAnalysis of(Proportion proportion, Confidence confidence) {
        Interval wilson = proportion.interval(IntervalMethod.WILSON, confidence);
        boolean none = proportion.events() == 0 && proportion.of() > 0;
        double logMiss = FastMath.log(confidence.alpha());
        return new ProportionAnalysis(
                proportion.estimate(),
                wilson,
                proportion.interval(IntervalMethod.WILSON_CONTINUITY, confidence),
                proportion.interval(IntervalMethod.CLOPPER_PEARSON, confidence),
                proportion.interval(IntervalMethod.JEFFREYS, confidence),
                none ? -FastMath.expm1(logMiss / proportion.of()) : null,
                none ? Math.min(1, -logMiss / proportion.of()) : null,
                Estimate.per1000(proportion.estimate(), wilson),
                notes(proportion));
    }

    private static List<Note> notes(Proportion proportion) {
        List<Note> notes = new ArrayList<>();
        if (proportion.of() == 0) {
            notes.add(new Note(NoteCode.NO_EXPOSURE, "Nothing was observed, so nothing can be estimated."));
        } else if (proportion.events() == 0) {
            notes.add(new Note(
                    NoteCode.NO_EVENT,
                    "No event does not mean no risk: the upper limit says how high the true frequency may still be."));
        } else if (proportion.events() == proportion.of()) {
            notes.add(new Note(
                    NoteCode.BOUNDARY,
                    "Every observation had the event: the lower limit says how low the true frequency may still be."));
        }
        return List.copyOf(notes);
    }
}
