package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The rule against moments, closed integrals and printed nodes. */
class GaussHermiteTests {

    /** ∫x^{2k}e^{−x²}dx = Γ(k+½), exact for 2k ≤ 2n−1. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 15, 20, 61, 100})
    void integratesEveryPowerItPromises(int n) {
        GaussHermite rule = GaussHermite.of(n);
        double moment = Math.sqrt(Math.PI);
        for (int k = 0; 2 * k <= 2 * n - 1 && k < 60; k++) {
            double sum = 0;
            for (int i = 0; i < n; i++) {
                double x = rule.node(i);
                sum += Math.exp(rule.logFactor(i) - x * x) * Math.pow(x, 2 * k);
            }
            assertThat(sum).isCloseTo(moment, within(1e-11 * moment));
            moment *= k + 0.5;
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 15, 20, 61, 100})
    void nodesAscendAndMirrorEachOther(int n) {
        GaussHermite rule = GaussHermite.of(n);

        assertThat(rule.size()).isEqualTo(n);
        for (int i = 0; i < n; i++) {
            assertThat(rule.node(i)).isEqualTo(-rule.node(n - 1 - i));
            assertThat(i == 0 || rule.node(i) > rule.node(i - 1)).isTrue();
        }
    }

    /** Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, table 25.10, n = 5 [from memory]. */
    @Test
    void hasThePrintedNodesAndWeightsOfFive() {
        GaussHermite rule = GaussHermite.of(5);

        assertThat(rule.node(4)).isCloseTo(2.020182870456086, within(1e-14));
        assertThat(rule.node(3)).isCloseTo(0.9585724646138185, within(1e-14));
        assertThat(Math.exp(rule.logFactor(4) - rule.node(4) * rule.node(4)))
                .isCloseTo(0.01995324205904591, within(1e-15));
        assertThat(Math.exp(rule.logFactor(2))).isCloseTo(0.9453087204829419, within(1e-14));
    }

    /** ∫exp(−(u−3)²/(2·0.01²)) du = 0.01√(2π), and the beta integral on the logit scale. */
    @Test
    void integratesNarrowAndSkewedPeaksAtTheirModes() {
        GaussHermite rule = GaussHermite.of(61);

        assertThat(logIntegral(rule, u -> -(u - 3) * (u - 3) / 2e-4, 3, 0.01))
                .isCloseTo(Math.log(0.01 * Math.sqrt(2 * Math.PI)), within(1e-12));
        // ∫p^a q^b du over logits is B(a, b): B(4, 90) with its mode at log(a/b), curvature −ab/(a+b).
        double logBeta = 0;
        for (int k = 1; k <= 3; k++) {
            logBeta += Math.log(k);
        }
        for (int k = 90; k <= 93; k++) {
            logBeta -= Math.log(k);
        }
        assertThat(logIntegral(
                        rule,
                        u -> -4 * Math.log1p(Math.exp(-u)) - 90 * Math.log1p(Math.exp(u)),
                        Math.log(4.0 / 90),
                        Math.sqrt(94.0 / 360)))
                .isCloseTo(logBeta, within(1e-8));
    }

    @ParameterizedTest
    @ValueSource(ints = {0, -1, 101})
    void refusesARuleWithoutNodesOrWithTooMany(int n) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> GaussHermite.of(n))
                .withMessage("number of nodes must be in [1, 100], got " + n);
    }

    /** log ∫e^g, summed about a mode of g at its scale, as the likelihoods that use the rule do. */
    private static double logIntegral(GaussHermite rule, DoubleUnaryOperator g, double mode, double scale) {
        double sum = 0;
        for (int i = 0; i < rule.size(); i++) {
            sum += Math.exp(g.applyAsDouble(rule.node(i, mode, scale)) + rule.logFactor(i));
        }
        return Math.log(sum * Math.sqrt(2) * scale);
    }
}
