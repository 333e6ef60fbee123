package entrapment.registry.stats;

import static entrapment.registry.stats.Limits.lower;
import static entrapment.registry.stats.Limits.upper;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Every count up to 60 against the Poisson sum that defines the limits. */
class RateExhaustiveTests {

    private static final int LARGEST = 60;

    @ParameterizedTest
    @ValueSource(doubles = {0.8, 0.95, 0.998})
    void exactLimitsLeaveHalfOfAlphaInThePoissonTail(double level) {
        Confidence confidence = new Confidence(level);
        double tail = confidence.alpha() / 2;

        for (int x = 0; x <= LARGEST; x++) {
            Interval limits = new Rate(x, 1).garwood(confidence);

            assertThat(poisson(x - 1, lower(limits))).isCloseTo(x == 0 ? 0 : 1 - tail, within(1e-12));
            assertThat(poisson(x, upper(limits))).isCloseTo(tail, within(1e-12));
        }
    }

    @Test
    void byarStaysNearTheExactLimits() {
        for (int x = 2; x <= LARGEST; x++) {
            Interval exact = new Rate(x, 1).garwood(Confidence.DEFAULT);
            Interval byar = new Rate(x, 1).byar(Confidence.DEFAULT);

            assertThat(lower(byar) / lower(exact)).isBetween(0.9, 1.0);
            assertThat(upper(byar) / upper(exact)).isBetween(0.999, 1.001);
        }
    }

    @Test
    void limitsHoldTheEstimateAndScaleWithTheExposure() {
        for (int x = 0; x <= LARGEST; x++) {
            RateAnalysis one = RateAnalysis.of(new Rate(x, 250), 1, Confidence.DEFAULT);
            RateAnalysis thousand = RateAnalysis.of(new Rate(x, 500), 1000, Confidence.DEFAULT);

            assertThat(x / 250.0).isBetween(lower(one.garwood()), upper(one.garwood()));
            assertThat(x / 250.0).isBetween(lower(one.byar()), upper(one.byar()));
            assertThat(lower(thousand.garwood())).isCloseTo(500 * lower(one.garwood()), within(1e-9));
            assertThat(upper(thousand.garwood())).isCloseTo(500 * upper(one.garwood()), within(1e-9));
        }
    }

    private static double poisson(int most, double mean) {
        double sum = 0;
        double term = Math.exp(-mean);
        for (int j = 0; j <= most; j++) {
            sum += term;
            term *= mean / (j + 1);
        }
        return sum;
    }
}
