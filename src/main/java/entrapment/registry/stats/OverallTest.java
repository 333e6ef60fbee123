package entrapment.registry.stats;

import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * Do any of several groups differ in their proportions?
 *
 * @param df groups with somebody in them, less one; 0 if there is none
 * @param pearsonChi2 Pearson's X²
 * @param pearsonPValue its upper tail
 * @param lrChi2 the likelihood-ratio statistic G²
 * @param lrPValue its upper tail
 * @param minExpected the smallest expected count, events and non-events alike
 * @param approximate whether expected counts are so small that the p-values are approximate
 */
public record OverallTest(
        int df,
        @Nullable Double pearsonChi2,
        @Nullable Double pearsonPValue,
        @Nullable Double lrChi2,
        @Nullable Double lrPValue,
        @Nullable Double minExpected,
        boolean approximate) {

    private static final double LEAST_EXPECTED = 1;
    private static final double SMALL_EXPECTED = 5;
    private static final double MOST_SMALL_EXPECTED = 0.2;

    /**
     * Pearson's and the likelihood-ratio test of equal proportions.
     *
     * <p>Valid for independent groups whose expected counts are not small. X² = Σ(O−E)²/E [1], G² = 2ΣO·log(O/E) [2] over
     * events and non-events of every group with n &gt; 0; χ² with one degree of freedom less than groups.
     *
     * <p>Edges: fewer than two groups with somebody in them, no event, or nothing but events: all {@code null}. An
     * expected count below 1, or more than a fifth of them below 5: {@code approximate}.
     *
     * <p><b>Same as</b> R {@code chisq.test(table, correct = FALSE)}, {@code DescTools::GTest(table)}. Accuracy: relative
     * 1e-12 in the statistics, 1e-10 in p-values down to 1e-300.
     *
     * <p>[1] Pearson K, Philos Mag 1900;50:157. [2] Wilks SS, Ann Math Stat 1935;6:190.
     */
    static OverallTest of(List<Proportion> groups) {
        List<Proportion> used = groups.stream().filter(group -> group.of() > 0).toList();
        long events = used.stream().mapToLong(Proportion::events).sum();
        long of = used.stream().mapToLong(Proportion::of).sum();
        int df = Math.max(0, used.size() - 1);
        if (df == 0 || events == 0 || events == of) {
            return new OverallTest(df, null, null, null, null, null, false);
        }
        double pearson = 0;
        double half = 0;
        double smallest = Double.POSITIVE_INFINITY;
        int small = 0;
        for (Proportion group : used) {
            double[] observed = {group.events(), group.of() - group.events()};
            double[] expected = {(double) group.of() / of * events, (double) group.of() / of * (of - events)};
            for (int i = 0; i < observed.length; i++) {
                double distance = observed[i] - expected[i];
                pearson += distance * distance / expected[i];
                half += observed[i] == 0 ? 0 : observed[i] * FastMath.log(observed[i] / expected[i]);
                smallest = Math.min(smallest, expected[i]);
                small += expected[i] < SMALL_EXPECTED ? 1 : 0;
            }
        }
        double g = Math.max(0, 2 * half);
        return new OverallTest(
                df,
                pearson,
                ChiSquaredTest.upperTail(pearson, df),
                g,
                ChiSquaredTest.upperTail(g, df),
                smallest,
                smallest < LEAST_EXPECTED || small > MOST_SMALL_EXPECTED * 2 * used.size());
    }

    /** Why the overall test is missing, or how far it can be trusted. */
    List<Note> notes() {
        if (pearsonChi2 == null) {
            return List.of(new Note(
                    NoteCode.EMPTY_MARGIN,
                    "The overall test needs two levels in use, and both events and non-events among them."));
        }
        if (approximate) {
            return List.of(new Note(
                    NoteCode.APPROXIMATE,
                    "Some expected counts are small, so the p-values of the overall test are approximate."));
        }
        return List.of();
    }
}
