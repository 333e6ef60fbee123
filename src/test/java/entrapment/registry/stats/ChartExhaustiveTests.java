package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Signals and limits of the charts against sums of probabilities written from their definitions. */
class ChartExhaustiveTests {

    private static final double TAIL = 0.00135;

    @ParameterizedTest
    @ValueSource(doubles = {0.005, 0.05, 0.4})
    void aProportionSignalsWhenItsTailIsSmallEnough(double centre) {
        for (int n = 1; n <= 60; n++) {
            double[] distribution = binomial(n, centre);
            for (int x = 0; x <= n; x++) {
                PChartAnalysis.Subgroup period = PChartAnalysis.of(List.of(new Proportion(x, n)), centre, 0.01)
                        .subgroups()
                        .get(0);
                double atLeast = sum(distribution, x, n);
                double atMost = sum(distribution, 0, x);

                assertThat(period.signal())
                        .isEqualTo(
                                atLeast <= 0.01
                                        ? ChartSignal.HIGH
                                        : atMost < 0.01 ? ChartSignal.LOW : ChartSignal.NONE);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.3, 2, 15})
    void aRateSignalsWhenItsTailIsSmallEnough(double centre) {
        double[] distribution = poisson(centre * 1.5, 120);
        for (int x = 0; x <= 60; x++) {
            UChartAnalysis.Subgroup period = UChartAnalysis.of(List.of(new Rate(x, 1.5)), centre, 0.01)
                    .subgroups()
                    .get(0);

            assertThat(period.signal())
                    .isEqualTo(
                            sum(distribution, x, 119) <= 0.01
                                    ? ChartSignal.HIGH
                                    : sum(distribution, 0, x) < 0.01 ? ChartSignal.LOW : ChartSignal.NONE);
        }
    }

    @Test
    void limitsAreCountsOverTheExposure() {
        PChartAnalysis.Subgroup p = PChartAnalysis.of(List.of(new Proportion(30, 500)), 0.05, TAIL)
                .subgroups()
                .get(0);
        UChartAnalysis.Subgroup u = UChartAnalysis.of(List.of(new Rate(30, 12.5)), 2, TAIL)
                .subgroups()
                .get(0);

        assertThat(p.upper()).isEqualTo(Objects.requireNonNull(p.upperCount()) / 500.0);
        assertThat(p.lower()).isEqualTo(Objects.requireNonNull(p.lowerCount()) / 500.0);
        assertThat(u.upper()).isEqualTo(Objects.requireNonNull(u.upperCount()) / 12.5);
        assertThat(u.lower()).isEqualTo(Objects.requireNonNull(u.lowerCount()) / 12.5);
    }

    @Test
    void withoutABaselineTheCentreIsThatOfAllPeriods() {
        List<Proportion> periods = List.of(new Proportion(2, 100), new Proportion(4, 300), new Proportion(0, 0));

        assertThat(PChartAnalysis.of(periods, TAIL).subgroups())
                .isEqualTo(PChartAnalysis.of(periods, 6.0 / 400, TAIL).subgroups());
        assertThat(UChartAnalysis.of(List.of(new Rate(1, 2), new Rate(5, 4)), TAIL))
                .isEqualTo(UChartAnalysis.of(List.of(new Rate(1, 2), new Rate(5, 4)), 1, TAIL));
    }

    @Test
    void aRareEventRateNearlyAgreesOnBothCharts() {
        PChartAnalysis p = PChartAnalysis.of(List.of(new Proportion(0, 2000)), 0.005, TAIL);
        UChartAnalysis u = UChartAnalysis.of(List.of(new Rate(0, 2000)), 0.005, TAIL);

        assertThat(p.subgroups().get(0).upperCount())
                .isEqualTo(u.subgroups().get(0).upperCount());
    }

    /** R 4.2.2 would call these qgeom; here the geometric sum itself. */
    @ParameterizedTest
    @ValueSource(doubles = {0.00135, 0.01, 0.2})
    void gapLimitsAreTheFirstThatLeaveTheTail(double tail) {
        for (long longest = 0; longest <= 3000; longest += 37) {
            List<Long> gaps =
                    LongStream.of(0, 1, 2, 3, 5, 8, 13, 21, 34, longest).boxed().toList();
            GChartAnalysis chart = GChartAnalysis.of(gaps, tail);
            double p = Objects.requireNonNull(chart.pHat());
            long lower = first(p, tail);
            long upper = last(p, tail);

            assertThat(chart.medianGap()).isEqualTo(last(p, 0.5));
            assertThat(chart.probability().upper()).isEqualTo(upper);
            assertThat(chart.probability().lower()).isEqualTo(lower == 0 ? null : Long.valueOf(lower));
            assertThat(chart.signals().get(9))
                    .isEqualTo(
                            longest > upper
                                    ? ChartSignal.LONG
                                    : longest < lower ? ChartSignal.SHORT : ChartSignal.NONE);
        }
    }

    /** The smallest g with P(G ≤ g) ≥ tail. */
    private static long first(double p, double tail) {
        long g = 0;
        double term = p;
        for (double sum = p; sum < tail; sum += term) {
            term *= 1 - p;
            g++;
        }
        return g;
    }

    /** The smallest g with P(G > g) ≤ tail. */
    private static long last(double p, double tail) {
        long g = 0;
        for (double beyond = 1 - p; beyond > tail * (1 + 1e-12); beyond *= 1 - p) {
            g++;
        }
        return g;
    }

    @Test
    void veryRareEventsGiveTheGapChartALowerLimit() {
        List<Long> gaps =
                IntStream.range(0, 12).mapToObj(i -> i == 3 ? 0L : 3000L + i).toList();
        GChartAnalysis chart = GChartAnalysis.of(gaps, TAIL);

        assertThat(chart.probability().lower()).isEqualTo(3);
        assertThat(chart.signals().get(3)).isEqualTo(ChartSignal.SHORT);
        assertThat(chart.notes()).isEmpty();
    }

    @Test
    void timesScaleWithTheirUnit() {
        List<Double> days = List.of(3.0, 14.0, 0.0, 90.0, 41.0, 7.0, 365.0, 22.0, 30.0, 11.0, 900.0);
        TChartAnalysis inDays = TChartAnalysis.of(days, TAIL);
        TChartAnalysis inHours =
                TChartAnalysis.of(days.stream().map(day -> 24 * day).toList(), TAIL);

        assertThat(inHours.exponential().upper())
                .isCloseTo(24 * Objects.requireNonNull(inDays.exponential().upper()), within(1e-9));
        assertThat(inHours.nelson().upper())
                .isCloseTo(24 * Objects.requireNonNull(inDays.nelson().upper()), within(1e-9));
        assertThat(inHours.signalsExponential()).isEqualTo(inDays.signalsExponential());
        assertThat(inDays.signalsExponential().get(2)).isEqualTo(ChartSignal.SHORT);
    }

    @Test
    void exponentialLimitsLeaveTheTailOnEitherSide() {
        List<Double> times = new ArrayList<>();
        for (int i = 1; i <= 20; i++) {
            times.add(10.0 * i);
        }
        TChartAnalysis chart = TChartAnalysis.of(times, 0.01);
        double mean = Objects.requireNonNull(chart.meanTime());

        assertThat(mean).isEqualTo(105);
        assertThat(1 - Math.exp(-Objects.requireNonNull(chart.exponential().lower()) / mean))
                .isCloseTo(0.01, within(1e-14));
        assertThat(Math.exp(-Objects.requireNonNull(chart.exponential().upper()) / mean))
                .isCloseTo(0.01, within(1e-14));
        assertThat(Math.exp(-Objects.requireNonNull(chart.exponential().median()) / mean))
                .isCloseTo(0.5, within(1e-14));
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

    private static double[] poisson(double mean, int length) {
        double[] distribution = new double[length];
        distribution[0] = Math.exp(-mean);
        for (int x = 1; x < length; x++) {
            distribution[x] = distribution[x - 1] * mean / x;
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
