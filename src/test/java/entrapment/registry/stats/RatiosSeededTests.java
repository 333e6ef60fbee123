package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Rate ratios and strata of random, larger counts from fixed seeds: a second route, and laws. */
class RatiosSeededTests {

    private static final Confidence LEVEL = Confidence.DEFAULT;

    @Test
    void theExactRateRatioIsThatOfClopperAndPearson() {
        Random random = new Random(20310301);
        for (int repeat = 0; repeat < 2000; repeat++) {
            long x = 1L + random.nextInt(1 + repeat);
            long y = 1L + random.nextInt(1 + 3 * repeat);
            double t1 = Math.pow(10, 6 * random.nextDouble());
            double t2 = Math.pow(10, 6 * random.nextDouble());

            Interval exact = RateRatioAnalysis.of(new Rate(x, t1), new Rate(y, t2), LEVEL)
                    .exact();

            Interval share = new Proportion(x, x + y).interval(IntervalMethod.CLOPPER_PEARSON, LEVEL);
            assertThat(lower(exact) / (odds(lower(share)) * t2 / t1)).isCloseTo(1, within(1e-9));
            assertThat(upper(exact) / (odds(upper(share)) * t2 / t1)).isCloseTo(1, within(1e-9));
        }
    }

    @Test
    void pValueAndIntervalOfOneFamilyAgreeAboutEquality() {
        Random random = new Random(20310302);
        for (int repeat = 0; repeat < 2000; repeat++) {
            RateRatioAnalysis answer =
                    RateRatioAnalysis.of(new Rate(random.nextInt(60), 10), new Rate(1 + random.nextInt(60), 8), LEVEL);

            assertThat(answer.midPValue() < LEVEL.alpha())
                    .isEqualTo(lower(answer.midP()) > 1 || upper(answer.midP()) < 1);
            assertThat(answer.centralPValue() < LEVEL.alpha())
                    .isEqualTo(lower(answer.exact()) > 1 || upper(answer.exact()) < 1);
        }
    }

    @Test
    void stratifiedIntervalsAndPValuesAgreeAboutEquality() {
        Random random = new Random(20310303);
        for (int repeat = 0; repeat < 500; repeat++) {
            StratifiedOddsRatioAnalysis answer = StratifiedOddsRatioAnalysis.of(strata(random), LEVEL);
            ExactOddsRatio exact = answer.exact();

            assertThat(exact.midPValue() < LEVEL.alpha()).isEqualTo(lower(exact.midP()) > 1 || upper(exact.midP()) < 1);
            assertThat(Objects.requireNonNull(exact.conditionalMle()))
                    .isBetween(lower(exact.midP()), upper(exact.midP()));
            assertThat(lower(exact.exact())).isLessThanOrEqualTo(lower(exact.midP()));
        }
    }

    @Test
    void theOrderOfManyStrataDoesNotMatter() {
        Random random = new Random(20310304);
        for (int repeat = 0; repeat < 300; repeat++) {
            List<Stratum> strata = strata(random);
            List<Stratum> shuffled = new ArrayList<>(strata);
            Collections.shuffle(shuffled, random);
            StratifiedOddsRatioAnalysis one = StratifiedOddsRatioAnalysis.of(strata, LEVEL);
            StratifiedOddsRatioAnalysis other = StratifiedOddsRatioAnalysis.of(shuffled, LEVEL);

            assertThat(other.exact().midPValue() / one.exact().midPValue()).isCloseTo(1, within(1e-10));
            assertThat(other.oddsRatio()).isEqualTo(one.oddsRatio(), within(1e-10));
            assertThat(other.tarone().statistic()).isEqualTo(one.tarone().statistic(), within(1e-8));
        }
    }

    private static List<Stratum> strata(Random random) {
        List<Stratum> strata = new ArrayList<>();
        for (int i = 0; i < 2 + random.nextInt(8); i++) {
            int m = 20 + random.nextInt(200);
            int n = 20 + random.nextInt(200);
            strata.add(new Stratum(
                    "s" + i, new Proportion(1 + random.nextInt(12), m), new Proportion(1 + random.nextInt(8), n)));
        }
        return strata;
    }

    private static double odds(double share) {
        return share / (1 - share);
    }

    private static double lower(Interval interval) {
        return Objects.requireNonNull(interval.lower());
    }

    private static double upper(Interval interval) {
        return Objects.requireNonNull(interval.upper());
    }
}
