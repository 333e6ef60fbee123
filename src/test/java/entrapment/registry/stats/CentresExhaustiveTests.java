package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Funnels and standardised rates against sums written from their definitions, and their laws. */
class CentresExhaustiveTests {

    @ParameterizedTest
    @ValueSource(doubles = {0.006, 0.05, 0.3})
    void flagsFollowTheExactTails(double target) {
        for (int n = 1; n <= 50; n++) {
            double[] distribution = binomial(n, target);
            for (int x = 0; x <= n; x++) {
                FunnelAnalysis.Centre centre = funnel(x, n, target);
                double upper = sum(distribution, x, n);
                double lower = sum(distribution, 0, x);

                assertThat(centre.upperPValue()).isCloseTo(upper, within(1e-11 * upper));
                assertThat(centre.lowerPValue()).isCloseTo(lower, within(1e-11 * lower));
                assertThat(centre.midPValue())
                        .isCloseTo(Math.min(1, 2 * Math.min(upper, lower) - distribution[x]), within(1e-11));
                assertThat(centre.flag())
                        .isEqualTo(
                                upper <= 0.001
                                        ? FunnelAnalysis.Position.ABOVE_998
                                        : upper <= 0.025
                                                ? FunnelAnalysis.Position.ABOVE_95
                                                : lower <= 0.001
                                                        ? FunnelAnalysis.Position.BELOW_998
                                                        : lower <= 0.025
                                                                ? FunnelAnalysis.Position.BELOW_95
                                                                : FunnelAnalysis.Position.WITHIN);
                assertThat(centre.perhapsNotReporting()).isEqualTo(x == 0 && distribution[0] < 0.01);
            }
        }
    }

    /** (r − (F(r)−p)/f(r))/n with r the smallest integer that has F(r) ≥ p. */
    @Test
    void linesInterpolateBetweenCounts() {
        for (int n = 5; n <= 60; n += 5) {
            double[] distribution = binomial(n, 0.08);
            FunnelAnalysis.Limits limits = funnel(0, n, 0.08).limits();

            assertThat(limits.at95().lower()).isCloseTo(line(distribution, 0.025), within(1e-10));
            assertThat(limits.at95().upper()).isCloseTo(line(distribution, 0.975), within(1e-10));
            assertThat(limits.at998().lower()).isCloseTo(line(distribution, 0.001), within(1e-10));
            assertThat(limits.at998().upper()).isCloseTo(line(distribution, 0.999), within(1e-10));
        }
    }

    private static double line(double[] distribution, double p) {
        int r = 0;
        double cumulative = distribution[0];
        while (cumulative < p) {
            r++;
            cumulative += distribution[r];
        }
        double limit = (r - (cumulative - p) / distribution[r]) / (distribution.length - 1);
        return Math.max(0, Math.min(1, limit));
    }

    @Test
    void withoutATargetTheFunnelStandsOnThePooledRate() {
        List<Group> centres = List.of(
                new Group("one", new Proportion(3, 200)),
                new Group("two", new Proportion(1, 300)),
                new Group("none", new Proportion(0, 0)));

        assertThat(FunnelAnalysis.of(centres)).isEqualTo(FunnelAnalysis.of(centres, 4.0 / 500));
    }

    @Test
    void overdispersionIsOneForAnySampleOfStandardScores() {
        List<Group> centres = new ArrayList<>();
        int[] events = {8, 12, 9, 11, 10, 10, 7, 13, 10, 10};
        for (int x : events) {
            centres.add(new Group("c" + x, new Proportion(x, 100)));
        }
        FunnelOverdispersionAnalysis analysis = FunnelOverdispersionAnalysis.of(centres, 0);

        // Σ(x−10)²/(100·0.1·0.9)/10 = 28/9/10
        assertThat(analysis.phi()).isCloseTo(28.0 / 90, within(1e-12));
        assertThat(analysis.phiUnwinsorised()).isEqualTo(analysis.phi());
        assertThat(analysis.overdispersed()).isFalse();
        assertThat(analysis.tau2()).isZero();
        assertThat(analysis.zMultiplicative()).isEqualTo(analysis.zNaive());
        assertThat(analysis.zAdditive()).isEqualTo(analysis.zNaive());
        // One in ten winsorised: 7 counts as 8, 13 as 12.
        assertThat(FunnelOverdispersionAnalysis.of(centres, 0.1).phi()).isCloseTo(18.0 / 90, within(1e-12));
    }

    @Test
    void theOrderOfCentresDoesNotMatter() {
        List<Group> centres = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            centres.add(new Group("c" + i, new Proportion(i * i % 7 + 5, 100 + 10 * i)));
        }
        FunnelOverdispersionAnalysis one = FunnelOverdispersionAnalysis.of(centres, 0.1);
        Collections.reverse(centres);
        FunnelOverdispersionAnalysis other = FunnelOverdispersionAnalysis.of(centres, 0.1);

        assertThat(other.phi()).isCloseTo(some(one.phi()), within(1e-12));
        assertThat(other.zAdditive().get(11)).isCloseTo(some(one.zAdditive().get(0)), within(1e-9));
    }

    @Test
    void oneStratumGivesThePoissonTestOfOAgainstE() {
        for (int x = 0; x <= 30; x++) {
            IndirectStandardisationAnalysis analysis = IndirectStandardisationAnalysis.of(
                    List.of(new Proportion(40, 4000)), List.of(new Proportion(x, 800)), Confidence.DEFAULT);
            Interval limits = new Rate(x, 8).garwood(Confidence.DEFAULT);
            double[] distribution = poisson(8, 150);

            assertThat(analysis.expected()).isEqualTo(8);
            assertThat(analysis.oOverE()).isEqualTo(x / 8.0);
            assertThat(some(analysis.exact().lower())).isCloseTo(some(limits.lower()), within(1e-12));
            assertThat(some(analysis.exact().upper())).isCloseTo(some(limits.upper()), within(1e-12));
            assertThat(analysis.midPValue())
                    .isCloseTo(
                            Math.min(
                                    1,
                                    2 * Math.min(sum(distribution, 0, x), sum(distribution, x, 149)) - distribution[x]),
                            within(1e-12));
            assertThat(analysis.indirectlyStandardisedRate()).isCloseTo(0.01 * x / 8, within(1e-15));
        }
    }

    @Test
    void splittingAStratumOfTheReferenceInProportionChangesNothing() {
        IndirectStandardisationAnalysis whole = IndirectStandardisationAnalysis.of(
                List.of(new Proportion(6, 300), new Proportion(10, 100)),
                List.of(new Proportion(2, 50), new Proportion(3, 40)),
                Confidence.DEFAULT);
        IndirectStandardisationAnalysis split = IndirectStandardisationAnalysis.of(
                List.of(new Proportion(2, 100), new Proportion(4, 200), new Proportion(10, 100)),
                List.of(new Proportion(0, 20), new Proportion(2, 30), new Proportion(3, 40)),
                Confidence.DEFAULT);

        assertThat(some(split.expected())).isCloseTo(some(whole.expected()), within(1e-12));
        assertThat(some(split.exact().upper())).isCloseTo(some(whole.exact().upper()), within(1e-12));
    }

    /** With one stratum Fay–Feuer's and Dobson's limits are Garwood's. */
    @Test
    void oneStratumGivesGarwoodsLimits() {
        for (int x = 1; x <= 30; x++) {
            DirectStandardisationAnalysis analysis = DirectStandardisationAnalysis.of(
                    List.of(new WeightedStratum(new Proportion(x, 500), 7)), Confidence.DEFAULT);
            Interval limits = new Rate(x, 500).garwood(Confidence.DEFAULT);

            assertThat(some(analysis.rate())).isCloseTo(x / 500.0, within(1e-15));
            for (Interval interval : List.of(analysis.fayFeuer(), analysis.dobson())) {
                assertThat(some(interval.lower())).isCloseTo(some(limits.lower()), within(1e-13));
                assertThat(some(interval.upper())).isCloseTo(some(limits.upper()), within(1e-13));
            }
        }
    }

    @Test
    void onlyTheSharesOfTheWeightsMatter() {
        List<WeightedStratum> ones =
                List.of(new WeightedStratum(new Proportion(2, 50), 1), new WeightedStratum(new Proportion(5, 90), 3));
        List<WeightedStratum> thousands = List.of(
                new WeightedStratum(new Proportion(5, 90), 3000),
                new WeightedStratum(new Proportion(9, 9), 0),
                new WeightedStratum(new Proportion(2, 50), 1000));
        DirectStandardisationAnalysis one = DirectStandardisationAnalysis.of(ones, Confidence.DEFAULT);
        DirectStandardisationAnalysis other = DirectStandardisationAnalysis.of(thousands, Confidence.DEFAULT);

        assertThat(some(other.rate())).isCloseTo(some(one.rate()), within(1e-15));
        assertThat(some(other.fayFeuer().upper())).isCloseTo(some(one.fayFeuer().upper()), within(1e-13));
        assertThat(some(other.dobson().lower())).isCloseTo(some(one.dobson().lower()), within(1e-13));
        assertThat(some(one.rate()))
                .isBetween(some(one.fayFeuer().lower()), some(one.fayFeuer().upper()));
    }

    private static FunnelAnalysis.Centre funnel(int x, int n, double target) {
        return FunnelAnalysis.of(List.of(new Group("centre", new Proportion(x, n))), target)
                .centres()
                .get(0);
    }

    private static double some(@Nullable Double value) {
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
