package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * How much higher are the odds of the event with a factor than without it, like compared with like: within centres,
 * periods or classes of lesion? An association in recorded cases, not proof of cause.
 *
 * @param informativeStrata K, the strata with four positive margins; all figures rest on them alone
 * @param droppedStrata names of the others, in the order given
 * @param oddsRatio the Mantel–Haenszel odds ratio; 0 or infinite at an edge, {@code null} if K = 0
 * @param rbg its interval; {@code null} limits unless the ratio is positive and finite
 * @param logStandardError standard error of its logarithm
 * @param cmh the test that belongs to it
 * @param cmhContinuity the corrected test, for readers of older reports
 * @param breslowDay test of one common ratio; {@code null} if K &lt; 2 or the ratio is 0 or infinite
 * @param tarone the same with Tarone's correction, the one to read
 * @param exact conditional analysis of all strata together
 * @param exactFirst whether the mid-P line of {@code exact} is the one to show in front: fewer than five events in an
 *     exposure group over the informative strata
 * @param notes why a figure is missing, infinite or to be read with care
 */
public record StratifiedOddsRatioAnalysis(
        int informativeStrata,
        List<String> droppedStrata,
        @Nullable Double oddsRatio,
        Interval rbg,
        @Nullable Double logStandardError,
        ChiSquaredTest cmh,
        ChiSquaredTest cmhContinuity,
        ChiSquaredTest breslowDay,
        ChiSquaredTest tarone,
        ExactOddsRatio exact,
        boolean exactFirst,
        List<Note> notes) {

    private static final long FEWEST_EVENTS = 5;
    private static final double SMALL_HOMOGENEITY_P = 0.10;
    private static final int MOST_STRATA = 10_000;

    /**
     * The Mantel–Haenszel and the exact conditional analysis of one odds ratio common to all strata.
     *
     * <p>Valid for independent strata that share a ratio; sparse strata are welcome. Formulas, accuracy and references:
     * {@link MantelHaenszel#of}, {@link HomogeneityTest#of}; the exact part is the distribution of Σa given every margin, a
     * convolution of the strata's own laws [1], then as {@link OddsRatioAnalysis#of}.
     *
     * <p>Edges: a stratum with an empty margin carries no information and is left out of everything, note
     * {@code EMPTY_MARGIN}. ΣS = 0: ratio infinite, read the exact lower limit; ΣR = 0: the mirror image; both note
     * {@code ZERO_CELL}. K = 0: all {@code null}, exact intervals (0, ∞), every exact p = 1. K = 1: the exact part equals
     * the analysis of that table, note {@code ONE_STRATUM}.
     *
     * <p><b>Same as</b> R {@code mantelhaen.test(x, correct = FALSE)}, {@code DescTools::BreslowDayTest(x)}, and in the
     * exact part {@code mantelhaen.test(x, exact = TRUE)}, <b>but not</b> its limits, whose root-finder is loose.
     * Accuracy: relative 1e-10 in the exact part.
     *
     * <p>[1] Mehta CR, Patel NR, Gray R, J Am Stat Assoc 1985;80:969.
     *
     * @param strata one to 10,000, with different names
     * @throws IllegalArgumentException if there are none or too many, a name occurs twice, or there are so many events
     *     (200,000 in the smallest margins) that an exact analysis has no purpose
     */
    public static StratifiedOddsRatioAnalysis of(List<Stratum> strata, Confidence confidence) {
        Counts.require("number of strata", strata.size(), 1, MOST_STRATA);
        Counts.requireDifferent("strata", strata.stream().map(Stratum::name));
        List<TwoByTwo> tables =
                strata.stream().map(Stratum::table).filter(TwoByTwo::estimable).toList();
        List<String> dropped = strata.stream()
                .filter(stratum -> !stratum.table().estimable())
                .map(Stratum::name)
                .toList();
        MantelHaenszel mh = tables.isEmpty() ? MantelHaenszel.NOT_ESTIMABLE : MantelHaenszel.of(tables, confidence.z());
        HomogeneityTest homogeneity = tables.size() < 2 || mh.logStandardError() == null || mh.oddsRatio() == null
                ? HomogeneityTest.notEstimable(Math.max(0, tables.size() - 1))
                : HomogeneityTest.of(tables, mh.oddsRatio());
        long exposedEvents = tables.stream().mapToLong(TwoByTwo::a).sum();
        long referenceEvents = tables.stream().mapToLong(TwoByTwo::c).sum();
        boolean few = Math.min(exposedEvents, referenceEvents) < FEWEST_EVENTS;
        return new StratifiedOddsRatioAnalysis(
                tables.size(),
                dropped,
                mh.oddsRatio(),
                mh.rbg(),
                mh.logStandardError(),
                mh.cmh(),
                mh.cmhContinuity(),
                homogeneity.breslowDay(),
                homogeneity.tarone(),
                exact(tables, mh, exposedEvents, confidence),
                few,
                notes(strata.size(), tables.size(), mh, homogeneity, few));
    }

    private static ExactOddsRatio exact(
            List<TwoByTwo> tables, MantelHaenszel mh, long exposedEvents, Confidence confidence) {
        if (tables.isEmpty()) {
            return ExactOddsRatio.NOT_ESTIMABLE;
        }
        double start = mh.logStandardError() == null || mh.oddsRatio() == null ? 0 : FastMath.log(mh.oddsRatio());
        return ExactOddsRatio.of(ConditionalDistribution.ofSum(tables), exposedEvents, start, confidence);
    }

    private static List<Note> notes(
            int strata, int informative, MantelHaenszel mh, HomogeneityTest homogeneity, boolean few) {
        List<Note> notes = new ArrayList<>();
        if (informative < strata) {
            notes.add(new Note(
                    NoteCode.EMPTY_MARGIN,
                    strata - informative + " of " + strata + " strata had no information: a row or column is empty."));
        }
        if (informative == 1) {
            notes.add(new Note(NoteCode.ONE_STRATUM, "Only one stratum has information, so nothing was combined."));
        }
        if (informative > 0 && mh.logStandardError() == null) {
            notes.add(
                    new Note(
                            NoteCode.ZERO_CELL,
                            "The combined odds ratio is 0 or infinite: only the finite limit of the exact line says anything."));
        } else if (informative > 0 && few) {
            notes.add(new Note(
                    NoteCode.APPROXIMATE,
                    "Fewer than " + FEWEST_EVENTS + " events in an exposure group: read the exact mid-P line."));
        }
        Double p = homogeneity.tarone().pValue();
        if (p != null && p < SMALL_HOMOGENEITY_P) {
            notes.add(new Note(
                    NoteCode.HETEROGENEITY, "The ratio may differ between strata: read the strata, not the summary."));
        }
        return List.copyOf(notes);
    }
}
