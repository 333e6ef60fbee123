package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Adjusted p-values and pairs of groups: definitions by another route, laws, edges and messages. */
class ComparisonsTests {

    private static final Confidence LEVEL = Confidence.DEFAULT;

    @Test
    void holmRejectsWhatItsStepDownProcedureRejects() {
        randomLists((p, answer) -> {
            for (double level = 0.005; level < 1; level += 0.045) {
                boolean[] rejected = stepDown(p, level);
                for (int i = 0; i < p.size(); i++) {
                    assertThat(Objects.requireNonNull(answer.holm().get(i)) <= level)
                            .isEqualTo(rejected[i]);
                }
            }
        });
    }

    @Test
    void benjaminiHochbergRejectsWhatItsStepUpProcedureRejects() {
        randomLists((p, answer) -> {
            for (double level = 0.005; level < 1; level += 0.045) {
                boolean[] rejected = stepUp(p, level);
                for (int i = 0; i < p.size(); i++) {
                    assertThat(Objects.requireNonNull(answer.benjaminiHochberg().get(i)) <= level)
                            .isEqualTo(rejected[i]);
                }
            }
        });
    }

    @Test
    void adjustedValuesKeepTheOrderOfThePlainOnesAndLieInOrderThemselves() {
        randomLists((p, answer) -> {
            for (int i = 0; i < p.size(); i++) {
                double holm = Objects.requireNonNull(answer.holm().get(i));
                double hochberg =
                        Objects.requireNonNull(answer.benjaminiHochberg().get(i));
                double bonferroni = Objects.requireNonNull(answer.bonferroni().get(i));
                assertThat(hochberg).isBetween(p.get(i), holm);
                assertThat(holm).isLessThanOrEqualTo(bonferroni);
                assertThat(bonferroni).isLessThanOrEqualTo(1);
                for (int j = 0; j < p.size(); j++) {
                    if (p.get(i) <= p.get(j)) {
                        assertThat(holm)
                                .isLessThanOrEqualTo(
                                        Objects.requireNonNull(answer.holm().get(j)));
                    }
                }
            }
        });
    }

    @Test
    void tiesStayTiesAndTheOrderOfTheListDoesNotMatter() {
        AdjustedPValuesAnalysis answer = AdjustedPValuesAnalysis.of(List.of(0.02, 0.01, 0.02, 0.5));
        AdjustedPValuesAnalysis shuffled = AdjustedPValuesAnalysis.of(List.of(0.5, 0.02, 0.02, 0.01));

        assertThat(answer.holm()).containsExactly(0.06, 0.04, 0.06, 0.5);
        assertThat(shuffled.holm()).containsExactly(0.5, 0.06, 0.06, 0.04);
        assertThat(answer.benjaminiHochberg().get(0))
                .isEqualTo(answer.benjaminiHochberg().get(2));
    }

    @Test
    void aMissingPValueStaysMissingAndIsNoComparison() {
        AdjustedPValuesAnalysis answer = AdjustedPValuesAnalysis.of(Arrays.asList(null, 0.02, null, 0.03));

        assertThat(answer.comparisons()).isEqualTo(2);
        assertThat(answer.holm()).containsExactly(null, 0.04, null, 0.04);
        assertThat(answer.benjaminiHochberg()).containsExactly(null, 0.03, null, 0.03);
        assertThat(answer.bonferroni()).containsExactly(null, 0.04, null, 0.06);
        assertThat(answer.notes()).extracting(Note::code).containsExactly(NoteCode.LEFT_OUT);
    }

    @Test
    void noPValueOrOneNeedsNoAdjustment() {
        assertThat(AdjustedPValuesAnalysis.of(List.of()).holm()).isEmpty();
        AdjustedPValuesAnalysis one = AdjustedPValuesAnalysis.of(List.of(0.3));
        assertThat(one.holm()).containsExactly(0.3);
        assertThat(one.benjaminiHochberg()).containsExactly(0.3);
        assertThat(AdjustedPValuesAnalysis.of(List.of(0.0, 1.0)).holm()).containsExactly(0.0, 1.0);
    }

    @Test
    void refusesWhatIsNoPValue() {
        for (double wrong : new double[] {-1e-9, 1 + 1e-9, Double.NaN, Double.POSITIVE_INFINITY}) {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> AdjustedPValuesAnalysis.of(List.of(0.5, wrong)))
                    .withMessage("a p-value must be in [0, 1] or missing, got " + wrong);
        }
    }

    @Test
    void everyPairEqualsItsOwnAnalyses() {
        List<Group> groups = List.of(group("a", 0, 7), group("b", 3, 9), group("c", 12, 12), group("d", 40, 4000));

        PairwiseDifferencesAnalysis answer = PairwiseDifferencesAnalysis.of(groups, LEVEL);

        assertThat(answer.comparisons()).isEqualTo(6);
        int at = 0;
        for (int i = 0; i < groups.size(); i++) {
            for (int j = i + 1; j < groups.size(); j++) {
                Proportion first = groups.get(i).proportion();
                Proportion second = groups.get(j).proportion();
                OddsRatioAnalysis table = OddsRatioAnalysis.of(TwoByTwo.of(first, second), LEVEL);
                PairwiseDifferencesAnalysis.Pair pair = answer.pairs().get(at++);
                assertThat(pair.first() + pair.second())
                        .isEqualTo(groups.get(i).name() + groups.get(j).name());
                assertThat(pair.newcombe())
                        .isEqualTo(DifferenceAnalysis.of(first, second, LEVEL).newcombe());
                assertThat(pair.fisherPValue()).isEqualTo(table.fisherPValue());
                assertThat(pair.midPValue()).isEqualTo(table.midPValue());
            }
        }
        assertThat(answer.pairs())
                .extracting(PairwiseDifferencesAnalysis.Pair::midPHolm)
                .isEqualTo(AdjustedPValuesAnalysis.of(answer.pairs().stream()
                                .map(PairwiseDifferencesAnalysis.Pair::midPValue)
                                .toList())
                        .holm());
    }

    @Test
    void anEmptyGroupIsNoComparisonButUnanimousGroupsAreOne() {
        PairwiseDifferencesAnalysis answer =
                PairwiseDifferencesAnalysis.of(List.of(group("a", 5, 5), group("b", 0, 0), group("c", 7, 7)), LEVEL);

        assertThat(answer.comparisons()).isEqualTo(1);
        assertThat(answer.pairs().get(0))
                .returns(null, PairwiseDifferencesAnalysis.Pair::difference)
                .returns(Interval.NOT_ESTIMABLE, PairwiseDifferencesAnalysis.Pair::newcombe)
                .returns(null, PairwiseDifferencesAnalysis.Pair::fisherPValue)
                .returns(null, PairwiseDifferencesAnalysis.Pair::midPHolm);
        assertThat(answer.pairs().get(1))
                .returns(0.0, PairwiseDifferencesAnalysis.Pair::difference)
                .returns(1.0, PairwiseDifferencesAnalysis.Pair::fisherPValue)
                .returns(1.0, PairwiseDifferencesAnalysis.Pair::midPHolm);
        assertThat(answer.notes())
                .containsExactly(
                        new Note(NoteCode.NO_EXPOSURE, "Nothing was observed in b, so no pair with it is tested."));
    }

    @Test
    void refusesOneGroupAHundredAndOneOrTwoOfOneName() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> PairwiseDifferencesAnalysis.of(List.of(group("a", 1, 2)), LEVEL))
                .withMessage("number of groups must be in [2, 100], got 1");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> PairwiseDifferencesAnalysis.of(Collections.nCopies(101, group("a", 1, 2)), LEVEL))
                .withMessage("number of groups must be in [2, 100], got 101");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> PairwiseDifferencesAnalysis.of(List.of(group("a", 1, 2), group("a", 1, 3)), LEVEL))
                .withMessage("groups must have different names");
    }

    private interface Check {
        void accept(List<Double> p, AdjustedPValuesAnalysis answer);
    }

    private static void randomLists(Check check) {
        Random random = new Random(20310402);
        for (int list = 0; list < 200; list++) {
            List<@Nullable Double> p = new ArrayList<>();
            List<Double> plain = new ArrayList<>();
            for (int i = random.nextInt(9); i >= 0; i--) {
                double value = Math.pow(random.nextDouble(), 1 + random.nextInt(4));
                p.add(value);
                plain.add(value);
            }
            check.accept(plain, AdjustedPValuesAnalysis.of(p));
        }
    }

    /** Rejects from the smallest p on, as long as the j-th is within level/(m−j+1). */
    private static boolean[] stepDown(List<Double> p, double level) {
        boolean[] rejected = new boolean[p.size()];
        List<Integer> order = ascending(p);
        for (int j = 0; j < order.size() && p.get(order.get(j)) * (p.size() - j) <= level; j++) {
            rejected[order.get(j)] = true;
        }
        return rejected;
    }

    /** Rejects the largest j p-values for which the j-th is within level·j/m. */
    private static boolean[] stepUp(List<Double> p, double level) {
        boolean[] rejected = new boolean[p.size()];
        List<Integer> order = ascending(p);
        for (int j = order.size(); j >= 1; j--) {
            if (p.get(order.get(j - 1)) * p.size() / j <= level) {
                order.subList(0, j).forEach(i -> rejected[i] = true);
                return rejected;
            }
        }
        return rejected;
    }

    private static List<Integer> ascending(List<Double> p) {
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < p.size(); i++) {
            order.add(i);
        }
        order.sort((i, j) -> Double.compare(p.get(i), p.get(j)));
        return order;
    }

    private static Group group(String name, long events, long of) {
        return new Group(name, new Proportion(events, of));
    }

    @Test
    void theDifferenceOfAPairIsFirstLessSecond() {
        PairwiseDifferencesAnalysis answer =
                PairwiseDifferencesAnalysis.of(List.of(group("a", 1, 10), group("b", 4, 10)), LEVEL);

        assertThat(Objects.requireNonNull(answer.pairs().get(0).difference())).isCloseTo(-0.3, within(1e-15));
    }
}
