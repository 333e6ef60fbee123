package entrapment.registry.stats;

import static entrapment.registry.stats.Limits.lower;
import static entrapment.registry.stats.Limits.upper;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Objects;
import java.util.function.BiConsumer;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/** Every pair of groups of up to six, difference and ratio. */
class TwoGroupsExhaustiveTests {

    private static final int LARGEST = 6;
    private static final double Z = Confidence.DEFAULT.z();

    /** The single limits are found here by bisection of the score test, not by a formula. */
    @Test
    void newcombeSquaresAndAddsTheDistancesToTheSingleLimits() {
        forAll((a, b) -> {
            double p1 = (double) a.events() / a.of();
            double p2 = (double) b.events() / b.of();
            DifferenceAnalysis analysis = DifferenceAnalysis.of(a, b, Confidence.DEFAULT);
            double down = Math.sqrt(Math.pow(p1 - turn(a, -1), 2) + Math.pow(turn(b, 1) - p2, 2));
            double up = Math.sqrt(Math.pow(turn(a, 1) - p1, 2) + Math.pow(p2 - turn(b, -1), 2));

            assertThat(lower(analysis.newcombe())).isCloseTo(p1 - p2 - down, within(1e-9));
            assertThat(upper(analysis.newcombe())).isCloseTo(p1 - p2 + up, within(1e-9));
            assertThat(lower(analysis.newcombeContinuity())).isBetween(-1.0, lower(analysis.newcombe()));
            assertThat(upper(analysis.newcombeContinuity())).isBetween(upper(analysis.newcombe()), 1.0);
        });
    }

    @Test
    void theDifferenceTurnsRoundWhenTheGroupsAreSwapped() {
        forAll((a, b) -> {
            DifferenceAnalysis one = DifferenceAnalysis.of(a, b, Confidence.DEFAULT);
            DifferenceAnalysis other = DifferenceAnalysis.of(b, a, Confidence.DEFAULT);

            assertThat(one.difference()).isEqualTo(-Objects.requireNonNull(other.difference()), within(1e-15));
            assertThat(lower(one.newcombe())).isCloseTo(-upper(other.newcombe()), within(1e-14));
            assertThat(lower(one.newcombeContinuity())).isCloseTo(-upper(other.newcombeContinuity()), within(1e-14));
        });
    }

    /** The restricted fit is found here by maximising the likelihood, not by the quadratic. */
    @Test
    void koopmanLimitsLieWhereTheScoreStatisticReachesItsQuantile() {
        forAll((a, b) -> {
            if (a.events() + b.events() > 0) {
                Interval limits =
                        RelativeRiskAnalysis.of(a, b, Confidence.DEFAULT).koopman();
                if (a.events() > 0) {
                    assertThat(chiSquared(a, b, lower(limits))).isCloseTo(Z * Z, within(1e-5));
                }
                if (b.events() > 0) {
                    assertThat(chiSquared(a, b, upper(limits))).isCloseTo(Z * Z, within(1e-5));
                }
            }
        });
    }

    @Test
    void theRatioInvertsWhenTheGroupsAreSwapped() {
        forAll((a, b) -> {
            RelativeRiskAnalysis one = RelativeRiskAnalysis.of(a, b, Confidence.DEFAULT);
            RelativeRiskAnalysis other = RelativeRiskAnalysis.of(b, a, Confidence.DEFAULT);

            assertThat(inverse(lower(one.koopman()))).isCloseTo(upper(other.koopman()), byRelative(other.koopman()));
            assertThat(one.relativeRisk() == null).isEqualTo(other.relativeRisk() == null);
            if (one.relativeRisk() != null) {
                assertThat(one.relativeRisk()).isBetween(lower(one.koopman()), upper(one.koopman()));
            }
            if (one.katz().lower() != null) {
                assertThat(1 / lower(one.katz())).isCloseTo(upper(other.katz()), within(1e-9));
            }
        });
    }

    private static double inverse(double ratio) {
        return ratio == 0 ? Double.POSITIVE_INFINITY : 1 / ratio;
    }

    private static Offset<Double> byRelative(Interval interval) {
        return within(Double.isInfinite(upper(interval)) ? 0 : 1e-11 * upper(interval));
    }

    private static void forAll(BiConsumer<Proportion, Proportion> claim) {
        for (int n1 = 1; n1 <= LARGEST; n1++) {
            for (int x1 = 0; x1 <= n1; x1++) {
                for (int n2 = 1; n2 <= LARGEST; n2++) {
                    for (int x2 = 0; x2 <= n2; x2++) {
                        claim.accept(new Proportion(x1, n1), new Proportion(x2, n2));
                    }
                }
            }
        }
    }

    /** The outermost θ on one side of the estimate that the score test does not reject. */
    private static double turn(Proportion group, int side) {
        double n = group.of();
        double p = group.events() / n;
        double accepted = p;
        double rejected = side < 0 ? 0 : 1;
        if (accepted == rejected) {
            return accepted;
        }
        for (int i = 0; i < 200; i++) {
            double theta = (accepted + rejected) / 2;
            if (Math.abs(p - theta) <= Z * Math.sqrt(theta * (1 - theta) / n)) {
                accepted = theta;
            } else {
                rejected = theta;
            }
        }
        return accepted;
    }

    private static double chiSquared(Proportion a, Proportion b, double phi) {
        double low = 0;
        double high = Math.min(1, 1 / phi);
        for (int i = 0; i < 300; i++) {
            double third = (high - low) / 3;
            if (logLikelihood(a, b, phi, low + third) < logLikelihood(a, b, phi, high - third)) {
                low += third;
            } else {
                high -= third;
            }
        }
        double p2 = (low + high) / 2;
        return pearson(a, phi * p2) + pearson(b, p2);
    }

    private static double logLikelihood(Proportion a, Proportion b, double phi, double p2) {
        return log(a.events(), phi * p2)
                + log(a.of() - a.events(), 1 - phi * p2)
                + log(b.events(), p2)
                + log(b.of() - b.events(), 1 - p2);
    }

    private static double log(long count, double p) {
        return count == 0 ? 0 : count * Math.log(p);
    }

    private static double pearson(Proportion group, double p) {
        double distance = group.events() - group.of() * p;
        return Math.abs(distance) < 1e-9 ? 0 : distance * distance / (group.of() * p * (1 - p));
    }
}
