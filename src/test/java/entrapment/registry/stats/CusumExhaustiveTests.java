package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Run lengths against the linear system that defines them, paths against the definition, and the laws of both. */
class CusumExhaustiveTests {

    @ParameterizedTest
    @CsvSource({
        "0.3, 2, 1",
        "0.3, 2, 9",
        "0.01, 3, 17",
        "0.01, 4, 18",
        "0.01, 5, 19",
        "0.01, 20, 19",
        "0.01, 20, 20",
        "0.01, 20, 21",
        "0.02, 7, 40",
        "0.9, 20, 40",
        "0.005, 29, 80",
        "0.5, 29, 80",
        "0.0001, 14, 35",
        "0.2, 3, 40",
        "0.97, 2, 30"
    })
    void runLengthsSolveTheLinearSystem(double p, int m, int threshold) {
        double expected = eliminated(p, m, threshold);

        assertThat(new CusumLattice(p, m, threshold).averageRunLength()).isCloseTo(expected, within(1e-9 * expected));
    }

    /** (I − P)E = 1 by elimination in sixty digits: run lengths up to 1e17 leave none in a double. */
    private static double eliminated(double p, int m, int threshold) {
        MathContext digits = new MathContext(60);
        BigDecimal event = new BigDecimal(p);
        BigDecimal none = BigDecimal.ONE.subtract(event);
        BigDecimal[][] rows = new BigDecimal[threshold][threshold + 1];
        for (int s = 0; s < threshold; s++) {
            Arrays.fill(rows[s], BigDecimal.ZERO);
            rows[s][s] = BigDecimal.ONE;
            rows[s][Math.max(s - 1, 0)] = rows[s][Math.max(s - 1, 0)].subtract(none);
            if (s + m - 1 < threshold) {
                rows[s][s + m - 1] = rows[s][s + m - 1].subtract(event);
            }
            rows[s][threshold] = BigDecimal.ONE;
        }
        for (int pivot = threshold - 1; pivot > 0; pivot--) {
            for (int s = 0; s < pivot; s++) {
                BigDecimal factor = rows[s][pivot].divide(rows[pivot][pivot], digits);
                for (int j = 0; factor.signum() != 0 && j <= threshold; j++) {
                    rows[s][j] = rows[s][j].subtract(factor.multiply(rows[pivot][j], digits), digits);
                }
            }
        }
        return rows[0][threshold].divide(rows[0][0], digits).doubleValue();
    }

    @Test
    void runsGrowWithTheThresholdAndShrinkWithTheRisk() {
        double before = 0;
        for (int threshold = 1; threshold <= 200; threshold++) {
            double run = new CusumLattice(0.01, 40, threshold).averageRunLength();
            assertThat(run).isGreaterThanOrEqualTo(before);
            assertThat(new CusumLattice(0.012, 40, threshold).averageRunLength())
                    .isLessThan(run);
            before = run;
        }
    }

    @Test
    void oneEventIsEnoughForATinyThreshold() {
        assertThat(new CusumLattice(0.004, 30, 1).averageRunLength()).isCloseTo(250, within(1e-10));
    }

    @Test
    void theThresholdForATargetIsTheFirstThatReachesIt() {
        CusumDesign design = new CusumDesign(0.01, 70, 100);
        for (double target : new double[] {1, 100, 101, 500, 3000, 40_000}) {
            CusumDesignAnalysis.ThresholdForTarget found = Objects.requireNonNull(
                    CusumDesignAnalysis.of(design, List.of(), target).thresholdForTarget());

            assertThat(found.arl0()).isGreaterThanOrEqualTo(target);
            assertThat(
                            found.threshold() == 1
                                    ? 0
                                    : new CusumLattice(0.01, 70, found.threshold() - 1).averageRunLength())
                    .isLessThan(target);
        }
    }

    /**
     * The table of the specification: with an odds ratio of 2 and h = 3.5 a false alarm comes about every 121 events, with 3
     * and 2.5 every 16 [computed there in R 4.2.2]. m is chosen here for the implied ratio.
     */
    @ParameterizedTest
    @CsvSource({
        "2, 2.5, 38, 9",
        "2, 3.5, 121, 14",
        "2, 4.5, 352, 20",
        "3, 2.5, 16, 5",
        "3, 4.5, 142, 9",
        "1.5, 3.5, 365, 38"
    })
    void reachesTheRunLengthsInEventsOfTheTable(double oddsRatio, double h, double events0, double events1) {
        double p0 = 0.005;
        double p1 = oddsRatio * p0 / (1 - p0 + oddsRatio * p0);
        double unit = Math.log((1 - p0) / (1 - p1));
        int m = (int) Math.round(Math.log(p1 * (1 - p0) / (p0 * (1 - p1))) / unit);
        CusumDesignAnalysis design =
                CusumDesignAnalysis.of(new CusumDesign(p0, m, (int) Math.round(h / unit)), List.of(p0, p1), null);

        assertThat(design.oddsRatioImplied()).isCloseTo(oddsRatio, within(0.05 * oddsRatio));
        assertThat(design.thresholdInWeights()).isCloseTo(h, within(0.02 * h));
        assertThat(p0 * arl(design, 0)).isCloseTo(events0, within(0.05 * events0 + 0.5));
        assertThat(p1 * arl(design, 1)).isCloseTo(events1, within(0.05 * events1 + 0.5));
    }

    private static double arl(CusumDesignAnalysis design, int i) {
        return Objects.requireNonNull(design.arl().get(i).arl());
    }

    @Test
    void mIsTheRatioOfTheTwoWeightsOfTheImpliedRisk() {
        for (int m : new int[] {25, 50, 99}) {
            CusumDesignAnalysis design = CusumDesignAnalysis.of(new CusumDesign(0.01, m, 50), List.of(), null);
            CusumRule rule = new CusumRule(design.oddsRatioImplied(), 1, true);

            // An event adds m−1 units of what an uneventful use takes.
            assertThat(rule.weight(true, 0.01) / rule.weight(false, 0.01)).isCloseTo(1 - m, within(1e-6 * m));
            assertThat(design.p1Implied()).isGreaterThan(0.01);
        }
    }

    @Test
    void everyPathOfTenUsesFollowsTheDefinition() {
        CusumRule rule = new CusumRule(3, 2, true);
        double risk = 0.1;
        double event = Math.log(3 / (0.9 + 3 * risk));
        double none = Math.log(1 / (0.9 + 3 * risk));
        for (int bits = 0; bits < 1024; bits++) {
            List<Boolean> outcomes = new ArrayList<>();
            List<Long> signals = new ArrayList<>();
            List<Double> path = new ArrayList<>();
            double sum = 0;
            for (int t = 0; t < 10; t++) {
                boolean happened = (bits >> t & 1) == 1;
                outcomes.add(happened);
                sum = sum + (happened ? event : none);
                sum = sum < 0 ? 0 : sum;
                path.add(sum);
                if (sum >= 2) {
                    signals.add(t + 1L);
                    sum = 0;
                }
            }
            CusumAnalysis analysis = CusumAnalysis.of(outcomes, risk, rule);

            assertThat(analysis.signals()).isEqualTo(signals);
            assertThat(analysis.firstSignal()).isEqualTo(signals.isEmpty() ? null : signals.get(0));
            assertThat(analysis.maximum()).isCloseTo(Collections.max(path), within(1e-12));
            for (int t = 0; t < 10; t++) {
                assertThat(analysis.path().get(t)).isCloseTo(path.get(t), within(1e-12));
            }
        }
    }

    @Test
    void equalRisksOneByOneGiveThePathOfOneRisk() {
        List<Boolean> outcomes = List.of(false, true, true, false, true);
        CusumRule rule = new CusumRule(2, 5, true);

        assertThat(CusumAnalysis.of(outcomes, List.of(0.02, 0.02, 0.02, 0.02, 0.02), rule)
                        .path())
                .isEqualTo(CusumAnalysis.of(outcomes, 0.02, rule).path());
    }

    @Test
    void watchingForImprovementGrowsWithUneventfulUses() {
        CusumAnalysis analysis = CusumAnalysis.of(Collections.nCopies(400, false), 0.02, new CusumRule(0.5, 3, true));

        assertThat(analysis.weightEventFirst()).isNegative();
        assertThat(analysis.weightNoEventFirst()).isPositive();
        assertThat(analysis.firstSignal()).isEqualTo(299); // 3 / −log(0.99) = 298.5
    }

    @Test
    void withoutAResetEveryUseAboveTheThresholdIsListed() {
        List<Boolean> outcomes = List.of(true, true, true, false, false);

        assertThat(CusumAnalysis.of(outcomes, 0.01, new CusumRule(3, 2, false)).signals())
                .containsExactly(2L, 3L, 4L, 5L);
        assertThat(CusumAnalysis.of(outcomes, 0.01, new CusumRule(3, 2, true)).signals())
                .containsExactly(2L);
    }

    @Test
    void followsAMillionUses() {
        List<Boolean> outcomes = new ArrayList<>();
        for (int i = 0; i < 1_000_000; i++) {
            outcomes.add(i % 200 == 7);
        }

        CusumAnalysis analysis = CusumAnalysis.of(outcomes, 0.005, new CusumRule(2, 4.5, true));

        assertThat(analysis.path()).hasSize(1_000_000);
        assertThat(analysis.maximum()).isLessThan(4.5);
    }

    @ParameterizedTest
    @ValueSource(ints = {50_000, 1_000_000})
    void solvesForALargeThreshold(int threshold) {
        double run = new CusumLattice(1.4 / threshold * 20, threshold / 20, threshold).averageRunLength();

        assertThat(run).isBetween(threshold * 0.9, threshold * 20.0);
    }
}
