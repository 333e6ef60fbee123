package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;

class StratifiedOddsRatioEdgeTests {

    private static final Confidence LEVEL = Confidence.DEFAULT;

    @Test
    void noInformativeStratumGivesNoFigureAndAnyRatio() {
        StratifiedOddsRatioAnalysis answer = StratifiedOddsRatioAnalysis.of(
                List.of(stratum("a", 0, 5, 0, 6), stratum("b", 3, 3, 4, 4), stratum("c", 0, 0, 1, 4)), LEVEL);

        assertThat(answer.informativeStrata()).isZero();
        assertThat(answer.droppedStrata()).containsExactly("a", "b", "c");
        assertThat(answer.oddsRatio()).isNull();
        assertThat(answer.rbg()).isEqualTo(Interval.NOT_ESTIMABLE);
        assertThat(answer.cmh().pValue()).isNull();
        assertThat(answer.exact()).isEqualTo(ExactOddsRatio.NOT_ESTIMABLE);
        assertThat(codes(answer)).containsExactly(NoteCode.EMPTY_MARGIN);
    }

    @Test
    void saysHowManyStrataHadNoInformation() {
        assertThat(StratifiedOddsRatioAnalysis.of(
                                List.of(
                                        stratum("a", 9, 50, 6, 60),
                                        stratum("b", 8, 40, 5, 70),
                                        stratum("c", 0, 9, 0, 9)),
                                LEVEL)
                        .notes())
                .singleElement()
                .extracting(Note::text)
                .isEqualTo("1 of 3 strata had no information: a row or column is empty.");
    }

    @Test
    void noEventWithoutTheFactorGivesInfinityAndAnExactLowerLimit() {
        StratifiedOddsRatioAnalysis answer =
                StratifiedOddsRatioAnalysis.of(List.of(stratum("a", 3, 9, 0, 9), stratum("b", 2, 8, 0, 9)), LEVEL);

        assertThat(answer.oddsRatio()).isInfinite().isPositive();
        assertThat(answer.rbg()).isEqualTo(Interval.NOT_ESTIMABLE);
        assertThat(answer.breslowDay()).isEqualTo(ChiSquaredTest.notEstimable(1));
        assertThat(answer.exact().conditionalMle()).isInfinite();
        assertThat(answer.exact().midP().lower()).isPositive();
        assertThat(answer.exact().midP().upper()).isInfinite();
        assertThat(answer.exactFirst()).isTrue();
        assertThat(codes(answer)).containsExactly(NoteCode.ZERO_CELL);
    }

    @Test
    void noEventWithTheFactorIsTheMirrorImage() {
        StratifiedOddsRatioAnalysis answer =
                StratifiedOddsRatioAnalysis.of(List.of(stratum("a", 0, 9, 3, 9), stratum("b", 0, 9, 2, 8)), LEVEL);

        assertThat(answer.oddsRatio()).isZero();
        assertThat(answer.logStandardError()).isNull();
        assertThat(answer.exact().midP().lower()).isZero();
        assertThat(answer.exact().midP().upper()).isLessThan(1);
    }

    @Test
    void theExactLineComesFirstBelowFiveEventsInAGroup() {
        assertThat(StratifiedOddsRatioAnalysis.of(
                                List.of(stratum("a", 5, 50, 2, 50), stratum("b", 3, 50, 2, 50)), LEVEL)
                        .exactFirst())
                .isTrue();
        assertThat(StratifiedOddsRatioAnalysis.of(
                                List.of(stratum("a", 5, 50, 2, 50), stratum("b", 3, 50, 3, 50)), LEVEL)
                        .exactFirst())
                .isFalse();
    }

    @Test
    void ratiosThatDifferAreToldAndEqualOnesAreNot() {
        StratifiedOddsRatioAnalysis differ = StratifiedOddsRatioAnalysis.of(
                List.of(stratum("a", 40, 100, 10, 100), stratum("b", 10, 100, 40, 100)), LEVEL);
        StratifiedOddsRatioAnalysis same = StratifiedOddsRatioAnalysis.of(
                List.of(stratum("a", 40, 100, 10, 100), stratum("b", 40, 100, 10, 100)), LEVEL);

        assertThat(codes(differ)).containsExactly(NoteCode.HETEROGENEITY);
        assertThat(same.notes()).isEmpty();
        assertThat(Objects.requireNonNull(same.breslowDay().statistic())).isCloseTo(0, within(1e-20));
        assertThat(same.tarone().statistic()).isNotNegative();
    }

    @Test
    void tensOfMillionsOfUsesAnswer() {
        StratifiedOddsRatioAnalysis answer = StratifiedOddsRatioAnalysis.of(
                List.of(stratum("a", 12, 10_000_000, 5, 10_000_000), stratum("b", 7, 10_000_000, 3, 10_000_000)),
                LEVEL);
        RateRatioAnalysis poisson = RateRatioAnalysis.of(new Rate(19, 2e7), new Rate(8, 2e7), LEVEL);

        assertThat(Objects.requireNonNull(answer.exact().midP().lower()))
                .isCloseTo(Objects.requireNonNull(poisson.midP().lower()), within(1e-4));
        assertThat(answer.exact().midPValue()).isCloseTo(poisson.midPValue(), within(1e-5));
    }

    @Test
    void combinesTwoHundredStrata() {
        Random random = new Random(20310101);
        List<Stratum> strata = new ArrayList<>();
        for (int i = 0; i < 200; i++) {
            strata.add(stratum("s" + i, random.nextInt(60), 1000, random.nextInt(40), 900));
        }

        StratifiedOddsRatioAnalysis answer = StratifiedOddsRatioAnalysis.of(strata, LEVEL);

        assertThat(answer.exact().midP().lower())
                .isCloseTo(Objects.requireNonNull(answer.rbg().lower()), within(0.01));
    }

    @Test
    void refusesNoStrataTwoOfOneNameAndMoreEventsThanAnExactAnalysisCanUse() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> StratifiedOddsRatioAnalysis.of(List.of(), LEVEL))
                .withMessage("number of strata must be in [1, 10000], got 0");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> StratifiedOddsRatioAnalysis.of(
                        List.of(stratum("a", 1, 2, 1, 2), stratum("a", 1, 2, 1, 2)), LEVEL))
                .withMessage("strata must have different names");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> StratifiedOddsRatioAnalysis.of(
                        List.of(stratum("a", 100_000, 900_000, 1, 900_000), stratum("b", 99_998, 900_000, 1, 900_000)),
                        LEVEL))
                .withMessage(
                        "the smallest margins of all strata together must be below 200000 for an exact analysis, got"
                                + " 200000");
    }

    @Test
    void oneStratumMayHaveAsManyEventsAsATable() {
        assertThat(StratifiedOddsRatioAnalysis.of(List.of(stratum("a", 150_000, 900_000, 150_000, 900_000)), LEVEL)
                        .exact()
                        .conditionalMle())
                .isCloseTo(1, within(1e-9));
    }

    @Test
    void sumsOfLawsEqualSumsInWholeNumbers() {
        Random random = new Random(7);
        for (int repeat = 0; repeat < 200; repeat++) {
            List<double[]> laws = new ArrayList<>();
            BigInteger[] exact = {BigInteger.ONE};
            for (int i = random.nextInt(5); i >= 0; i--) {
                int n = 1 + random.nextInt(80);
                BigInteger[] row = binomials(n, 1 + random.nextInt(1000));
                laws.add(Arrays.stream(row)
                        .mapToDouble(StratifiedOddsRatioEdgeTests::log)
                        .toArray());
                exact = product(exact, row);
            }

            double[] sum = LogConcaveSum.of(laws);

            for (int s = 0; s < exact.length; s++) {
                assertThat(sum[s]).isCloseTo(log(exact[s]), within(1e-11));
            }
        }
    }

    private static BigInteger[] binomials(int n, int tilt) {
        BigInteger[] row = new BigInteger[n + 1];
        row[0] = BigInteger.ONE;
        for (int k = 1; k <= n; k++) {
            row[k] = row[k - 1]
                    .multiply(BigInteger.valueOf(n - k + 1L))
                    .multiply(BigInteger.valueOf(tilt))
                    .divide(BigInteger.valueOf(k));
        }
        return row;
    }

    private static BigInteger[] product(BigInteger[] a, BigInteger[] b) {
        BigInteger[] product = new BigInteger[a.length + b.length - 1];
        Arrays.fill(product, BigInteger.ZERO);
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < b.length; j++) {
                product[i + j] = product[i + j].add(a[i].multiply(b[j]));
            }
        }
        return product;
    }

    private static double log(BigInteger value) {
        int shift = Math.max(0, value.bitLength() - 1000);
        return Math.log(value.shiftRight(shift).doubleValue()) + shift * Math.log(2);
    }

    private static List<NoteCode> codes(StratifiedOddsRatioAnalysis answer) {
        return answer.notes().stream().map(Note::code).toList();
    }

    private static Stratum stratum(String name, long a, long m, long c, long n) {
        return new Stratum(name, new Proportion(a, m), new Proportion(c, n));
    }
}
