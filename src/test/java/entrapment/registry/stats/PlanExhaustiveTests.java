package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Planned sizes and changes against the definition, step by step, and figures worked out beforehand in another program. */
class PlanExhaustiveTests {

    @ParameterizedTest
    @CsvSource({"0.005, 0.01", "0.5, 0.75", "0.3, 0.1", "0.02, 0.03"})
    void thePowerAtThePlannedSizeIsThePowerPlanned(double p1, double p2) {
        for (double ratio : new double[] {0.5, 1, 2, 3}) {
            PlanComparison plan = new PlanComparison(p1, p2, 0.05, 0.8, ratio);
            long n1 = some(PlanComparisonAnalysis.of(plan, null).n1());

            assertThat(PlanComparisonAnalysis.of(plan, n1).power()).isGreaterThanOrEqualTo(0.8);
            assertThat(PlanComparisonAnalysis.of(plan, n1 - 1).power()).isLessThan(0.8);
        }
    }

    @Test
    void swappingTheProportionsOfEqualGroupsChangesNoSize() {
        PlanComparisonAnalysis one = PlanComparisonAnalysis.of(new PlanComparison(0.01, 0.03, 0.05, 0.9, 1), null);
        PlanComparisonAnalysis other = PlanComparisonAnalysis.of(new PlanComparison(0.03, 0.01, 0.05, 0.9, 1), null);

        assertThat(some(other.n1Exact())).isCloseTo(some(one.n1Exact()), within(1e-8));
        assertThat(other.n1ContinuityRounded()).isEqualTo(one.n1ContinuityRounded());
    }

    /** R 4.2.2: doubling from 0.5 % to 1 % at 80 % power takes 5,065 in each group with continuity correction. */
    @Test
    void aDoublingOfARareRateTakesThousands() {
        PlanComparisonAnalysis plan = PlanComparisonAnalysis.of(new PlanComparison(0.005, 0.01, 0.05, 0.8, 1), null);

        assertThat(plan.n1ContinuityRounded()).isEqualTo(5065);
        assertThat(some(plan.eventsExpected())).isCloseTo(70, within(2.0));
        assertThat(plan.notes()).extracting(Note::code).containsExactly(NoteCode.APPROXIMATE);
    }

    @ParameterizedTest
    @CsvSource({"0.3, 0.1", "0.05, 0.03", "0.5, 0.2", "0.01, 0.01", "0, 0.02", "1, 0.3"})
    void noSmallerSizeIsPreciseEnough(double p, double width) {
        PlanPrecisionAnalysis plan = PlanPrecisionAnalysis.of(p, width, null, Confidence.DEFAULT);
        long n = 1;
        while (wilsonHalfWidth(p, n) > width) {
            n++;
        }

        assertThat(plan.nWilson()).isEqualTo(n);
        assertThat(some(plan.halfWidthAtN())).isCloseTo(wilsonHalfWidth(p, n), within(1e-14));
    }

    /** From the two roots rather than the half-width. */
    private static double wilsonHalfWidth(double p, long size) {
        double n = size;
        Interval wilson = WilsonScore.of(n * p, n, Confidence.DEFAULT.z());
        return (Limits.upper(wilson) - Limits.lower(wilson)) / 2;
    }

    /** R 4.2.2: 0.5 % ± 0.25 % takes 3,233 uses, ± 0.1 % takes 19,295. */
    @ParameterizedTest
    @CsvSource({"0.0025, 3233", "0.001, 19295"})
    void precisionOfARareRateTakesThousands(double width, long n) {
        assertThat(PlanPrecisionAnalysis.of(0.005, width, null, Confidence.DEFAULT)
                        .nWilson())
                .isEqualTo(n);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.5, 0.3, 0.01, 0.003})
    void withoutAnEventOneUseFewerWouldNotExcludeTheBound(double bound) {
        long n = some(
                PlanPrecisionAnalysis.of(0.1, 0.1, bound, Confidence.DEFAULT).nForZeroEventsBelow());

        assertThat(Math.pow(1 - bound, (double) n)).isLessThanOrEqualTo(0.05);
        assertThat(Math.pow(1 - bound, n - 1.0)).isGreaterThan(0.05);
    }

    /** SciPy 1.17.1: stats.beta.ppf(0.8, c, n - c + 1) / p0 with c from stats.binom.sf. */
    @ParameterizedTest
    @CsvSource({
        "200, 0.002, 10.6", "200, 0.005, 5.5", "200, 0.01, 3.9",
        "1000, 0.002, 3.9", "1000, 0.005, 2.7", "1000, 0.01, 2.1",
        "5000, 0.002, 2.1", "5000, 0.005, 1.6", "5000, 0.01, 1.4"
    })
    void reachesTheRatiosOfTheTable(long volume, double p0, double ratio) {
        assertThat(some(PlanDetectableChangeAnalysis.of(volume, p0, 0.025, 0.8).detectableRatio()))
                .isCloseTo(ratio, within(0.05));
    }

    @Test
    void criticalCountsAreTheFirstInTheirTails() {
        for (int n = 1; n <= 60; n++) {
            PlanDetectableChangeAnalysis plan = PlanDetectableChangeAnalysis.of(n, 0.15, 0.05, 0.8);
            double[] distribution = binomial(n, 0.15);
            int rise = n + 1;
            for (double tail = 0; rise > 0 && tail + distribution[rise - 1] <= 0.05; rise--) {
                tail += distribution[rise - 1];
            }
            int fall = -1;
            for (double tail = distribution[0]; tail <= 0.05; tail += distribution[fall + 1]) {
                fall++;
            }

            assertThat(plan.criticalCount()).isEqualTo(rise > n ? null : Long.valueOf(rise));
            assertThat(plan.decreaseCriticalCount()).isEqualTo(fall < 0 ? null : Long.valueOf(fall));
            if (plan.detectableProportion() != null) {
                assertThat(sum(binomial(n, plan.detectableProportion()), rise, n))
                        .isCloseTo(0.8, within(1e-10));
                assertThat(some(plan.attainedAlpha())).isCloseTo(sum(distribution, rise, n), within(1e-13));
            }
            if (plan.decreaseDetectableProportion() != null) {
                assertThat(sum(binomial(n, plan.decreaseDetectableProportion()), 0, fall))
                        .isCloseTo(0.8, within(1e-10));
            }
        }
    }

    private static <T> T some(@Nullable T value) {
        return Objects.requireNonNull(value);
    }

    private static double[] binomial(int n, double p) {
        double[] distribution = new double[n + 1];
        distribution[0] = 1;
        for (int i = 0; i < n; i++) {
            for (int x = i + 1; x >= 0; x--) {
                distribution[x] = distribution[x] * (1 - p) + (x == 0 ? 0 : distribution[x - 1] * p);
            }
        }
        return distribution;
    }

    private static double sum(double[] distribution, int from, int to) {
        double sum = 0;
        for (int x = to; x >= from; x--) {
            sum += distribution[x];
        }
        return sum;
    }
}
