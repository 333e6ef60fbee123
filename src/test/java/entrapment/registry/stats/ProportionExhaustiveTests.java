package entrapment.registry.stats;

import static entrapment.registry.stats.Limits.lower;
import static entrapment.registry.stats.Limits.upper;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.function.BiConsumer;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Every count up to 40 against the equation that defines each limit. */
class ProportionExhaustiveTests {

    private static final int LARGEST = 40;

    @ParameterizedTest
    @ValueSource(doubles = {0.8, 0.95, 0.998})
    void wilsonLimitsLieWhereTheScoreTestTurns(double level) {
        Confidence confidence = new Confidence(level);

        forAll((x, n) -> {
            Interval limits = new Proportion(x, n).interval(IntervalMethod.WILSON, confidence);
            assertThat(score(x, n, lower(limits))).isCloseTo(x == 0 ? 0 : confidence.z(), within(1e-9));
            assertThat(score(x, n, upper(limits))).isCloseTo(x.equals(n) ? 0 : -confidence.z(), within(1e-9));
        });
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.8, 0.95, 0.998})
    void correctedLimitsLieWhereTheCorrectedScoreTestTurns(double level) {
        Confidence confidence = new Confidence(level);

        forAll((x, n) -> {
            Interval limits = new Proportion(x, n).interval(IntervalMethod.WILSON_CONTINUITY, confidence);
            assertThat(score(x - 0.5, n, lower(limits))).isCloseTo(x == 0 ? 0 : confidence.z(), within(1e-9));
            assertThat(score(x + 0.5, n, upper(limits))).isCloseTo(x.equals(n) ? 0 : -confidence.z(), within(1e-9));
        });
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.8, 0.95, 0.998})
    void exactLimitsLeaveHalfOfAlphaInTheBinomialTail(double level) {
        Confidence confidence = new Confidence(level);
        double tail = confidence.alpha() / 2;

        forAll((x, n) -> {
            Interval limits = new Proportion(x, n).interval(IntervalMethod.CLOPPER_PEARSON, confidence);
            assertThat(binomial(x, n, n, lower(limits))).isCloseTo(x == 0 ? 1 : tail, within(1e-12));
            assertThat(binomial(0, x, n, upper(limits))).isCloseTo(x.equals(n) ? 1 : tail, within(1e-12));
        });
    }

    /** With p = sin²φ the posterior density of φ is sin^2x·cos^2(n−x), which Simpson's rule integrates. */
    @Test
    void jeffreysLimitsLeaveHalfOfAlphaInThePosteriorTail() {
        forAll((x, n) -> {
            Interval limits = new Proportion(x, n).interval(IntervalMethod.JEFFREYS, Confidence.DEFAULT);
            DoubleUnaryOperator density =
                    phi -> Math.pow(Math.sin(phi), 2.0 * x) * Math.pow(Math.cos(phi), 2.0 * (n - x));
            double all = simpson(density, 0, Math.PI / 2);
            double below = simpson(density, 0, Math.asin(Math.sqrt(lower(limits)))) / all;
            double above = simpson(density, Math.asin(Math.sqrt(upper(limits))), Math.PI / 2) / all;
            assertThat(below).isCloseTo(x == 0 ? 0 : 0.025, within(1e-9));
            assertThat(above).isCloseTo(x.equals(n) ? 0 : 0.025, within(1e-9));
        });
    }

    @ParameterizedTest
    @EnumSource(IntervalMethod.class)
    void everyIntervalMirrorsHoldsItsEstimateAndGrowsWithEventsAndLevel(IntervalMethod method) {
        forAll((x, n) -> {
            Interval limits = new Proportion(x, n).interval(method, Confidence.DEFAULT);
            Interval mirrored = new Proportion(n - x, n).interval(method, Confidence.DEFAULT);
            Interval wider = new Proportion(x, n).interval(method, new Confidence(0.99));

            assertThat(lower(limits)).isCloseTo(1 - upper(mirrored), within(1e-13));
            assertThat((double) x / n).isBetween(lower(limits), upper(limits));
            assertThat(lower(wider)).isLessThanOrEqualTo(lower(limits));
            assertThat(upper(wider)).isGreaterThanOrEqualTo(upper(limits));
            if (x < n) {
                Interval more = new Proportion(x + 1, n).interval(method, Confidence.DEFAULT);
                assertThat(lower(more)).isGreaterThan(lower(limits));
                assertThat(upper(more)).isGreaterThanOrEqualTo(upper(limits));
            }
        });
    }

    private static void forAll(BiConsumer<Integer, Integer> claim) {
        for (int n = 1; n <= LARGEST; n++) {
            for (int x = 0; x <= n; x++) {
                claim.accept(x, n);
            }
        }
    }

    /** (x−nθ)/√(nθ(1−θ)), and 0 where θ is held at an end. */
    private static double score(double x, double n, double theta) {
        return theta == 0 || theta == 1 ? 0 : (x - n * theta) / Math.sqrt(n * theta * (1 - theta));
    }

    private static double binomial(int from, int to, int n, double p) {
        double sum = 0;
        double coefficient = 1;
        for (int j = 0; j <= n; j++) {
            sum += j >= from && j <= to ? coefficient * Math.pow(p, j) * Math.pow(1 - p, n - j) : 0;
            coefficient = coefficient * (n - j) / (j + 1);
        }
        return sum;
    }

    private static double simpson(DoubleUnaryOperator f, double from, double to) {
        int steps = 2000;
        double width = (to - from) / steps;
        double sum = f.applyAsDouble(from) + f.applyAsDouble(to);
        for (int i = 1; i < steps; i++) {
            sum += (i % 2 == 0 ? 2 : 4) * f.applyAsDouble(from + i * width);
        }
        return sum * width / 3;
    }
}
