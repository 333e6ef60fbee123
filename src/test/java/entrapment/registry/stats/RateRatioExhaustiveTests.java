package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.util.CombinatoricsUtils;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every pair of small counts against sums of binomial probabilities written from the definition. */
class RateRatioExhaustiveTests {

    private static final int MOST = 9;
    private static final Confidence LEVEL = Confidence.DEFAULT;

    @ParameterizedTest
    @CsvSource({"1, 1", "800, 3011", "1e6, 3", "1e-3, 7e5"})
    void limitsLeaveTheirTails(double t1, double t2) {
        forAllCounts((x, y) -> {
            RateRatioAnalysis answer = RateRatioAnalysis.of(new Rate(x, t1), new Rate(y, t2), LEVEL);
            DoubleUnaryOperator upper = ratio -> tail(x, x + y, ratio * t1 / t2, 1, 1);
            DoubleUnaryOperator lower = ratio -> tail(x, x + y, ratio * t1 / t2, -1, 1);
            DoubleUnaryOperator upperMid = ratio -> tail(x, x + y, ratio * t1 / t2, 1, 0.5);
            DoubleUnaryOperator lowerMid = ratio -> tail(x, x + y, ratio * t1 / t2, -1, 0.5);

            if (x > 0) {
                assertTail(upper, lower(answer.exact()));
                assertTail(upperMid, lower(answer.midP()));
            }
            if (y > 0) {
                assertTail(lower, upper(answer.exact()));
                assertTail(lowerMid, upper(answer.midP()));
            }
        });
    }

    @ParameterizedTest
    @CsvSource({"1, 1", "2, 3", "800, 3011", "1, 40"})
    void pValuesAreSumsOfProbabilities(double t1, double t2) {
        forAllCounts((x, y) -> {
            RateRatioAnalysis answer = RateRatioAnalysis.of(new Rate(x, t1), new Rate(y, t2), LEVEL);
            double odds = t1 / t2;
            double observed = probability(x, x + y, odds);
            double minlike = 0;
            for (int k = 0; k <= x + y; k++) {
                minlike += probability(k, x + y, odds) <= observed * (1 + 1e-7) ? probability(k, x + y, odds) : 0;
            }
            double smaller = Math.min(tail(x, x + y, odds, 1, 1), tail(x, x + y, odds, -1, 1));

            assertThat(answer.minlikePValue()).isCloseTo(minlike, within(1e-12));
            assertThat(answer.centralPValue()).isCloseTo(Math.min(1, 2 * smaller), within(1e-12));
            assertThat(answer.midPValue()).isCloseTo(Math.min(1, 2 * smaller - observed), within(1e-12));
        });
    }

    @Test
    void swappingTheGroupsInvertsTheRatio() {
        forAllCounts((x, y) -> {
            RateRatioAnalysis one = RateRatioAnalysis.of(new Rate(x, 17), new Rate(y, 5), LEVEL);
            RateRatioAnalysis other = RateRatioAnalysis.of(new Rate(y, 5), new Rate(x, 17), LEVEL);

            assertThat(lower(one.midP()) * upper(other.midP()))
                    .satisfiesAnyOf(p -> assertThat(p).isCloseTo(1, within(1e-10)), p -> assertThat(p)
                            .isNaN());
            assertThat(one.midPValue()).isCloseTo(other.midPValue(), within(1e-12));
            assertThat(one.minlikePValue()).isCloseTo(other.minlikePValue(), within(1e-12));
        });
    }

    @Test
    void intervalsHoldTheEstimateAndWidenWithTheirLevel() {
        forAllCounts((x, y) -> {
            RateRatioAnalysis narrow = RateRatioAnalysis.of(new Rate(x, 3), new Rate(y, 4), new Confidence(0.9));
            RateRatioAnalysis wide = RateRatioAnalysis.of(new Rate(x, 3), new Rate(y, 4), new Confidence(0.99));

            assertThat(Objects.requireNonNull(narrow.ratio()))
                    .isBetween(lower(narrow.midP()), upper(narrow.midP()))
                    .isBetween(lower(narrow.exact()), upper(narrow.exact()));
            assertThat(lower(narrow.exact())).isLessThanOrEqualTo(lower(narrow.midP()));
            assertThat(upper(narrow.exact())).isGreaterThanOrEqualTo(upper(narrow.midP()));
            assertThat(lower(wide.midP())).isLessThanOrEqualTo(lower(narrow.midP()));
            assertThat(upper(wide.midP())).isGreaterThanOrEqualTo(upper(narrow.midP()));
        });
    }

    @Test
    void oneMoreEventRaisesBothLimits() {
        for (int x = 0; x < MOST; x++) {
            RateRatioAnalysis fewer = RateRatioAnalysis.of(new Rate(x, 3), new Rate(4, 4), LEVEL);
            RateRatioAnalysis more = RateRatioAnalysis.of(new Rate(x + 1, 3), new Rate(4, 4), LEVEL);

            assertThat(lower(more.midP())).isGreaterThan(lower(fewer.midP()));
            assertThat(upper(more.midP())).isGreaterThan(upper(fewer.midP()));
        }
    }

    private interface CountPair {
        void accept(int x, int y);
    }

    private static void forAllCounts(CountPair check) {
        for (int x = 0; x <= MOST; x++) {
            for (int y = 0; y <= MOST; y++) {
                if (x + y > 0) {
                    check.accept(x, y);
                }
            }
        }
    }

    private static void assertTail(DoubleUnaryOperator tail, double limit) {
        assertThat(tail.applyAsDouble(limit)).isCloseTo(0.025, within(1e-12));
    }

    private static double tail(int x, int n, double odds, int direction, double share) {
        double sum = share * probability(x, n, odds);
        for (int k = x + direction; k >= 0 && k <= n; k += direction) {
            sum += probability(k, n, odds);
        }
        return sum;
    }

    private static double probability(int k, int n, double odds) {
        return CombinatoricsUtils.binomialCoefficient(n, k)
                * Math.pow(odds / (1 + odds), k)
                * Math.pow(1 / (1 + odds), n - k);
    }

    private static double lower(Interval interval) {
        return Objects.requireNonNull(interval.lower());
    }

    private static double upper(Interval interval) {
        return Objects.requireNonNull(interval.upper());
    }
}
