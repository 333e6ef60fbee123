package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Models of differing centres against sums, integrals on a fine grid, closed forms, and their laws. */
class PoolingExhaustiveTests {

    @ParameterizedTest
    @CsvSource({
        "0.005, 0.01",
        "0.005, 1e-8",
        "0.9, 0.3",
        "1, 5",
        "0.02, 1e-3",
        "1e-4, 1e-12",
        "0.3, 1e-5",
        "1, 0.05",
        "0.02, 1e-20"
    })
    void risingSumsAreTheSumsOfTheirTerms(double a, double g) {
        for (long n : new long[] {0, 1, 2, 31, 32, 33, 40, 100, 1000, 20_000}) {
            double log = 0;
            double byStart = 0;
            double byStep = 0;
            for (long j = n - 1; j >= 0; j--) {
                log += Math.log(a) + Math.log1p(g * j / a);
                byStart += 1 / (a + g * j);
                byStep += j / (a + g * j);
            }
            RisingSum sum = RisingSum.of(n, a, g);

            assertThat(sum.log()).isCloseTo(log, within(1e-11 * Math.abs(log)));
            assertThat(sum.byStart()).isCloseTo(byStart, within(1e-11 * byStart));
            assertThat(sum.byStep()).isCloseTo(byStep, within(1e-10 * byStep));
        }
    }

    @Test
    void risingSumsMeetTheirLimitAtZero() {
        assertThat(RisingSum.of(10_000_000, 0.005, 0).log()).isCloseTo(1e7 * Math.log(0.005), within(1e-6));
        assertThat(RisingSum.of(10_000_000, 0.005, 1e-25).byStep())
                .isCloseTo(RisingSum.of(10_000_000, 0.005, 0).byStep(), within(1e7));
    }

    /** Forty of sixty centres without an event; SciPy 1.17.1: optimize.root of the score summed term by term. */
    @Test
    void shrinksManyCentresOfWhichMostHaveNoEvent() {
        ShrinkageAnalysis analysis = ShrinkageAnalysis.of(sixty(), Confidence.DEFAULT);

        assertThat(some(analysis.mu())).isCloseTo(0.0012699078605457926, within(1e-13));
        assertThat(some(analysis.rho())).isCloseTo(0.005574810517376618, within(1e-13));
        assertThat(some(analysis.lrOverdispersion())).isCloseTo(82.41362104770135, within(1e-8));
    }

    /** The same centres; SciPy 1.17.1: trapezoid with 24,001 points from −12 to 12, maximised by Nelder–Mead. */
    @Test
    void poolsManyCentresOfWhichMostHaveNoEvent() {
        PooledProportionAnalysis analysis = PooledProportionAnalysis.of(sixty(), Confidence.DEFAULT);

        assertThat(some(analysis.mu())).isCloseTo(-8.280685137265943, within(1e-6));
        assertThat(some(analysis.tau())).isCloseTo(2.1640541860036686, within(1e-6));
        assertThat(some(analysis.lrHeterogeneity())).isCloseTo(72.2554274768861, within(1e-6));
    }

    private static List<Group> sixty() {
        List<Group> centres = new ArrayList<>();
        for (int i = 0; i < 60; i++) {
            long events = i % 3 == 0 ? 1 + i / 3 % 4 + i / 15 : 0;
            centres.add(new Group("c" + i, new Proportion(events, 150 + 37L * i)));
        }
        return centres;
    }

    /** The slope and curvature by quadrature at the maximum, held against the likelihood on a fine grid around it. */
    @Test
    void noNeighbourOfTheFitIsMoreLikely() {
        List<Group> centres = centres(3, 120, 0, 80, 9, 200, 1, 60, 5, 150, 2, 90);
        PooledProportionAnalysis analysis = PooledProportionAnalysis.of(centres, Confidence.DEFAULT);
        double mu = some(analysis.mu());
        double tau = some(analysis.tau());
        double top = logLikelihood(centres, mu, tau);
        double h = 0.05;

        for (double[] step : new double[][] {{h, 0}, {-h, 0}, {0, h}, {0, -h}, {h, h}, {-h, -h}, {h, -h}, {-h, h}}) {
            assertThat(logLikelihood(centres, mu + step[0], tau + step[1])).isLessThan(top);
        }
        double none = logLikelihood(centres, logit(20.0 / 700), 1e-9);
        assertThat(some(analysis.lrHeterogeneity())).isCloseTo(2 * (top - none), within(1e-6));
        assertThat(some(analysis.standardError())).isCloseTo(standardError(centres, mu, tau, top), within(1e-3));
    }

    /** From second differences of the likelihood. */
    private static double standardError(List<Group> centres, double mu, double tau, double top) {
        double h = 1e-3;
        double a = (logLikelihood(centres, mu + h, tau) - 2 * top + logLikelihood(centres, mu - h, tau)) / (h * h);
        double b = (logLikelihood(centres, mu, tau + h) - 2 * top + logLikelihood(centres, mu, tau - h)) / (h * h);
        double c = (logLikelihood(centres, mu + h, tau + h)
                        - logLikelihood(centres, mu + h, tau - h)
                        - logLikelihood(centres, mu - h, tau + h)
                        + logLikelihood(centres, mu - h, tau - h))
                / (4 * h * h);
        return Math.sqrt(-b / (a * b - c * c));
    }

    /** By the trapezoid rule over u from −9 to 9. */
    private static double logLikelihood(List<Group> centres, double mu, double tau) {
        double sum = 0;
        for (Group centre : centres) {
            double x = centre.proportion().events();
            double n = centre.proportion().of();
            double integral = 0;
            for (int i = -4500; i <= 4500; i++) {
                double u = i / 500.0;
                double eta = mu + tau * u;
                integral += Math.exp(-x * Math.log1p(Math.exp(-eta)) - (n - x) * Math.log1p(Math.exp(eta)) - u * u / 2);
            }
            sum += Math.log(integral / 500 / Math.sqrt(2 * Math.PI));
        }
        return sum;
    }

    @Test
    void likeCentresGetThePooledProportion() {
        List<Group> centres = centres(5, 500, 5, 500, 5, 500, 5, 500, 5, 500);
        ShrinkageAnalysis shrinkage = ShrinkageAnalysis.of(centres, Confidence.DEFAULT);
        PooledProportionAnalysis pooled = PooledProportionAnalysis.of(centres, Confidence.DEFAULT);

        assertThat(shrinkage.boundary()).isTrue();
        assertThat(shrinkage.rho()).isZero();
        assertThat(shrinkage.alpha()).isEqualTo(Double.POSITIVE_INFINITY);
        assertThat(shrinkage.lrHalfPValue()).isEqualTo(1);
        assertThat(shrinkage.centres()).allSatisfy(centre -> {
            assertThat(some(centre.shrunken())).isCloseTo(0.01, within(1e-14));
            assertThat(centre.weightOnOwnData()).isZero();
            assertThat(centre.lower()).isNull();
        });
        assertThat(pooled.tau()).isZero();
        assertThat(some(pooled.mu())).isCloseTo(logit(0.01), within(1e-12));
        assertThat(some(pooled.standardError())).isCloseTo(1 / Math.sqrt(25 * 0.99), within(1e-12));
        assertThat(pooled.medianOddsRatio()).isEqualTo(1);
        assertThat(pooled.notes()).extracting(Note::code).containsExactly(NoteCode.BOUNDARY);
    }

    @Test
    void everyShrunkenRateLiesBetweenItsOwnAndTheMean() {
        ShrinkageAnalysis analysis = ShrinkageAnalysis.of(sixty(), Confidence.DEFAULT);
        double mu = some(analysis.mu());
        for (ShrinkageAnalysis.Centre centre : analysis.centres()) {
            double crude = some(centre.crude());
            double shrunken = some(centre.shrunken());

            assertThat(shrunken).isBetween(Math.min(crude, mu), Math.max(crude, mu));
            assertThat(shrunken)
                    .isCloseTo(
                            some(centre.weightOnOwnData()) * crude + (1 - some(centre.weightOnOwnData())) * mu,
                            within(1e-12));
            assertThat(shrunken).isBetween(some(centre.lower()), some(centre.upper()));
        }
    }

    @Test
    void theOrderOfCentresAndEmptyOnesChangeNothing() {
        List<Group> centres = new ArrayList<>(centres(3, 120, 0, 80, 9, 200, 1, 60, 5, 150, 2, 90));
        ShrinkageAnalysis shrinkage = ShrinkageAnalysis.of(centres, Confidence.DEFAULT);
        PooledProportionAnalysis pooled = PooledProportionAnalysis.of(centres, Confidence.DEFAULT);
        PooledEffectsAnalysis effects = PooledEffectsAnalysis.ofCentres(centres, Confidence.DEFAULT);
        Collections.reverse(centres);
        centres.add(new Group("none", new Proportion(0, 0)));

        ShrinkageAnalysis again = ShrinkageAnalysis.of(centres, Confidence.DEFAULT);
        assertThat(some(again.rho())).isCloseTo(some(shrinkage.rho()), within(1e-10));
        assertThat(some(again.centres().get(6).shrunken())).isCloseTo(some(again.mu()), within(1e-12));
        assertThat(some(PooledProportionAnalysis.of(centres, Confidence.DEFAULT).tau()))
                .isCloseTo(some(pooled.tau()), within(1e-6));
        assertThat(some(PooledEffectsAnalysis.ofCentres(centres, Confidence.DEFAULT)
                        .reml()
                        .tau2()))
                .isCloseTo(some(effects.reml().tau2()), within(1e-10));
    }

    @Test
    void swappingEventsAndNonEventsMirrorsTheModels() {
        List<Group> centres = centres(3, 120, 0, 80, 9, 200, 1, 60, 5, 150, 2, 90);
        List<Group> swapped = centres.stream()
                .map(c -> new Group(
                        c.name(),
                        new Proportion(
                                c.proportion().of() - c.proportion().events(),
                                c.proportion().of())))
                .toList();

        assertThat(some(PooledProportionAnalysis.of(swapped, Confidence.DEFAULT).mu()))
                .isCloseTo(
                        -some(PooledProportionAnalysis.of(centres, Confidence.DEFAULT)
                                .mu()),
                        within(1e-6));
        assertThat(some(ShrinkageAnalysis.of(swapped, Confidence.DEFAULT).rho()))
                .isCloseTo(
                        some(ShrinkageAnalysis.of(centres, Confidence.DEFAULT).rho()), within(1e-9));
    }

    /** With equal variances REML is max(0, s²−v), and so is DerSimonian and Laird's. */
    @Test
    void equalVariancesGiveTheClosedForm() {
        double[] y = {0.1, 0.9, -0.4, 0.3, 1.2};
        double mean = 0.42;
        for (double v : new double[] {0.01, 0.1, 0.3, 0.5, 5}) {
            List<Effect> effects = new ArrayList<>();
            double squares = 0;
            for (double one : y) {
                effects.add(new Effect(one, v));
                squares += (one - mean) * (one - mean);
            }
            double tau2 = Math.max(0, squares / 4 - v);
            PooledEffectsAnalysis analysis = PooledEffectsAnalysis.of(effects, Confidence.DEFAULT);

            for (PooledEffect effect : List.of(analysis.dl(), analysis.reml())) {
                assertThat(some(effect.tau2())).isCloseTo(tau2, within(1e-10));
                assertThat(some(effect.estimate())).isCloseTo(mean, within(1e-12));
                assertThat(some(effect.standardError())).isCloseTo(Math.sqrt((v + tau2) / 5), within(1e-10));
                assertThat(width(effect.hartungKnappTruncated())).isGreaterThanOrEqualTo(width(effect.hartungKnapp()));
                assertThat(width(effect.predictionInterval())).isGreaterThanOrEqualTo(width(effect.hartungKnapp()));
            }
            assertThat(some(analysis.q())).isCloseTo(squares / v, within(1e-9));
        }
    }

    /** No τ² on a fine grid has a higher restricted likelihood. */
    @ParameterizedTest
    @ValueSource(doubles = {0.02, 0.1, 0.7, 3})
    void noOtherVarianceIsMoreLikely(double spread) {
        List<Effect> effects = new ArrayList<>();
        for (int i = 0; i < 9; i++) {
            effects.add(new Effect(spread * ((i * i) % 5 - 2), 0.02 + 0.13 * ((3 * i) % 7)));
        }
        double tau2 = BetweenVariance.restrictedMaximumLikelihood(effects);
        double top = restricted(effects, tau2);
        for (int i = 0; i <= 4000; i++) {
            assertThat(restricted(effects, i * spread * spread / 200)).isLessThanOrEqualTo(top + 1e-12);
        }
    }

    /**
     * Effects whose likelihood has two maxima, 0 and another or both above it, and about where the higher lies, from a grid of
     * 1,200 points in numpy.
     */
    static Stream<Arguments> twoMaxima() {
        return Stream.of(
                arguments(effects(29, 61.64, 0.7, 1.55, 0.3, 0.66, -0.1, 0.36, -0.7, 0.33, -20, 28.62), 158.0),
                arguments(effects(0.1, 0.04, -9.3, 8.73, 0, 0.24, 0, 0.02), 0.0),
                arguments(effects(0.3, 0.03, 0.1, 9.79, -5.1, 3.93, 0, 0.05), 0.01576),
                arguments(effects(16.9, 8.66, 0.5, 0.03, 0.2, 0.04, 0.1, 0.05), 58.0));
    }

    @ParameterizedTest
    @MethodSource("twoMaxima")
    void theHigherOfTwoMaximaIsTaken(List<Effect> effects, double about) {
        double tau2 = BetweenVariance.restrictedMaximumLikelihood(effects);
        double top = restricted(effects, tau2);

        assertThat(tau2).isCloseTo(about, within(0.02 * about));
        for (double other = 1e-5; other < 1e4; other *= 1.01) {
            assertThat(restricted(effects, other)).isLessThanOrEqualTo(top + 1e-12);
        }
    }

    private static List<Effect> effects(double... estimatesAndVariances) {
        List<Effect> effects = new ArrayList<>();
        for (int i = 0; i < estimatesAndVariances.length; i += 2) {
            effects.add(new Effect(estimatesAndVariances[i], estimatesAndVariances[i + 1]));
        }
        return effects;
    }

    private static double restricted(List<Effect> effects, double tau2) {
        double logs = 0;
        double weights = 0;
        double weighted = 0;
        double squares = 0;
        for (Effect effect : effects) {
            double w = 1 / (effect.variance() + tau2);
            logs -= Math.log(w);
            weights += w;
            weighted += w * effect.estimate();
            squares += w * effect.estimate() * effect.estimate();
        }
        return -(logs + Math.log(weights) + squares - weighted * weighted / weights) / 2;
    }

    private static List<Group> centres(long... counts) {
        List<Group> centres = new ArrayList<>();
        for (int i = 0; i < counts.length; i += 2) {
            centres.add(new Group("c" + i, new Proportion(counts[i], counts[i + 1])));
        }
        return centres;
    }

    private static double width(Interval interval) {
        return Limits.upper(interval) - Limits.lower(interval);
    }

    private static double logit(double p) {
        return Math.log(p / (1 - p));
    }

    private static <T> T some(@Nullable T value) {
        return Objects.requireNonNull(value);
    }
}
