package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Which of several groups differ in their proportions, and by how much? For groups that do not share cases, such as first
 * attempts; techniques are never ranked by it.
 *
 * @param comparisons the number of pairs that could be tested, which the adjusted p-values allow for
 * @param pairs every two groups, in the order given
 * @param notes why a figure is missing
 */
public record PairwiseDifferencesAnalysis(int comparisons, List<Pair> pairs, List<Note> notes) {

    private static final int MOST_GROUPS = 100;

    /**
     * Two groups. All figures are {@code null} if one of them is empty.
     *
     * @param first name of the first group
     * @param second name of the second group
     * @param difference first proportion less second
     * @param newcombe hybrid score interval of the difference, of this pair alone
     * @param fisherPValue Fisher's p by probability ordering
     * @param midPValue mid-P of the same table, the default
     * @param fisherHolm Fisher's p, adjusted by Holm
     * @param fisherBenjaminiHochberg Fisher's p, adjusted by Benjamini and Hochberg
     * @param midPHolm mid-P, adjusted by Holm: the default for a handful of planned pairs
     * @param midPBenjaminiHochberg mid-P, adjusted by Benjamini and Hochberg: for screening
     */
    public record Pair(
            String first,
            String second,
            @Nullable Double difference,
            Interval newcombe,
            @Nullable Double fisherPValue,
            @Nullable Double midPValue,
            @Nullable Double fisherHolm,
            @Nullable Double fisherBenjaminiHochberg,
            @Nullable Double midPHolm,
            @Nullable Double midPBenjaminiHochberg) {}

    private record Tested(
            Group first,
            Group second,
            @Nullable Double fisher,
            @Nullable Double midP) {

        private static Tested of(Group first, Group second) {
            if (first.proportion().of() == 0 || second.proportion().of() == 0) {
                return new Tested(first, second, null, null);
            }
            TwoByTwo table = TwoByTwo.of(first.proportion(), second.proportion());
            if (!table.estimable()) {
                return new Tested(first, second, 1.0, 1.0);
            }
            ConditionalDistribution distribution = ConditionalDistribution.of(table);
            return new Tested(
                    first,
                    second,
                    ExactOddsRatio.minlikePValue(distribution, table.a()),
                    ExactOddsRatio.midPValue(distribution, table.a()));
        }
    }

    /**
     * The difference, its interval and the exact p-values of every pair, plain and adjusted.
     *
     * <p>Formula, validity, accuracy and references: {@link DifferenceAnalysis#of}, {@link OddsRatioAnalysis#of},
     * {@link AdjustedPValuesAnalysis#of}. The intervals are not adjusted.
     *
     * <p>Edges: a pair with an empty group has {@code null} figures and is no comparison, note {@code NO_EXPOSURE}; a pair
     * in which everybody or nobody succeeded has p = 1 and is one.
     *
     * <p><b>Same as</b> R {@code DescTools::BinomDiffCI(method = "score")} and {@code fisher.test} pair by pair, then
     * {@code p.adjust}. <b>Not the same as</b> {@code pairwise.prop.test}, which tests by χ².
     *
     * @param groups two to a hundred, with different names
     * @throws IllegalArgumentException if there are fewer or more, or a name occurs twice
     */
    public static PairwiseDifferencesAnalysis of(List<Group> groups, Confidence confidence) {
        Counts.require("number of groups", groups.size(), 2, MOST_GROUPS);
        Counts.requireDifferent("groups", groups.stream().map(Group::name));
        List<Tested> tested = new ArrayList<>();
        for (int i = 0; i < groups.size(); i++) {
            for (int j = i + 1; j < groups.size(); j++) {
                tested.add(Tested.of(groups.get(i), groups.get(j)));
            }
        }
        AdjustedPValuesAnalysis fisher =
                AdjustedPValuesAnalysis.of(tested.stream().map(Tested::fisher).toList());
        AdjustedPValuesAnalysis midP =
                AdjustedPValuesAnalysis.of(tested.stream().map(Tested::midP).toList());
        List<Pair> pairs = new ArrayList<>();
        for (int i = 0; i < tested.size(); i++) {
            pairs.add(pair(tested.get(i), i, fisher, midP, confidence));
        }
        return new PairwiseDifferencesAnalysis(fisher.comparisons(), List.copyOf(pairs), notes(groups));
    }

    private static Pair pair(
            Tested tested, int i, AdjustedPValuesAnalysis fisher, AdjustedPValuesAnalysis midP, Confidence confidence) {
        DifferenceAnalysis difference = DifferenceAnalysis.of(
                tested.first().proportion(), tested.second().proportion(), confidence);
        return new Pair(
                tested.first().name(),
                tested.second().name(),
                difference.difference(),
                difference.newcombe(),
                tested.fisher(),
                tested.midP(),
                fisher.holm().get(i),
                fisher.benjaminiHochberg().get(i),
                midP.holm().get(i),
                midP.benjaminiHochberg().get(i));
    }

    private static List<Note> notes(List<Group> groups) {
        List<String> empty = groups.stream()
                .filter(group -> group.proportion().of() == 0)
                .map(Group::name)
                .toList();
        return empty.isEmpty()
                ? List.of()
                : List.of(new Note(
                        NoteCode.NO_EXPOSURE,
                        "Nothing was observed in " + String.join(", ", empty) + ", so no pair with it is tested."));
    }
}
