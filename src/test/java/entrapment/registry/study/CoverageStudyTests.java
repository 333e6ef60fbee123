package entrapment.registry.study;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.study.AttemptsCoverage.Difficulty;
import entrapment.registry.study.AttemptsCoverage.Ending;
import entrapment.registry.study.AttemptsCoverage.Registry;
import entrapment.registry.study.ProportionCoverage.Extremes;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** The page on coverage, and that the program behind it counts right. */
class CoverageStudyTests {

    private static final Path PAGE = Path.of("src/docs/coverage.md");

    /** What has changed is written, and the test fails once, so that somebody looks at the difference. */
    @Test
    @EnabledIfSystemProperty(named = "study", matches = "true")
    void thePageIsWhatTheProgramComputes() throws IOException {
        String before = Files.exists(PAGE) ? Files.readString(PAGE) : "";

        String computed = CoverageStudy.page();

        Files.writeString(PAGE, computed);
        assertThat(before).isEqualTo(computed);
    }

    @Test
    void thePageShowsTheProportionsThatTheProgramComputes() throws IOException {
        assertThat(Files.readString(PAGE)).contains(ProportionPages.section());
    }

    @Test
    void thePageShowsAnOddsRatioThatTheProgramComputes() throws IOException {
        OddsRatioCoverage.Row row = new OddsRatioCoverage(200, 2_000).row(3, 2);

        assertThat(Files.readString(PAGE)).contains(OddsRatioPages.line(row));
    }

    /** 2,000 uses, 0.05 to 30 expected events: R 4.2.2, exact enumeration with qbeta and dbinom on the same grid. */
    @ParameterizedTest
    @CsvSource({
        "WILSON, 0.844, 0.17, 0.952, 0.916",
        "WILSON_CONTINUITY, 0.951, 0.05, 0.966, 0.951",
        "CLOPPER_PEARSON, 0.952, 23.6, 0.966, 0.952",
        "JEFFREYS, 0.905, 0.10, 0.950, 0.905"
    })
    void proportionsCoverAsAnotherProgramFound(
            IntervalMethod method, double lowest, double at, double mean, double lowestFromOne) {
        ProportionCoverage coverage = ProportionCoverage.of(method, 2_000);
        Extremes all = coverage.extremes(ProportionCoverage.LEAST_EXPECTED);

        assertThat(all.lowest()).isCloseTo(lowest, within(0.0005));
        assertThat(all.at()).isCloseTo(at, within(0.005));
        assertThat(all.mean()).isCloseTo(mean, within(0.0005));
        assertThat(coverage.extremes(ProportionPages.ONE_EVENT).lowest()).isCloseTo(lowestFromOne, within(0.0005));
    }

    /** A finer grid finds nothing lower than the value between the points of the coarse one, and comes close to it. */
    @ParameterizedTest
    @EnumSource(IntervalMethod.class)
    void coverageNeverFallsBelowItsInfimum(IntervalMethod method) {
        ProportionCoverage coverage = ProportionCoverage.of(method, 200);
        Extremes extremes = coverage.extremes(1);
        double lowest = 1;
        for (int i = 0; i <= 29 * 203; i++) {
            lowest = Math.min(lowest, coverage.at(1 + i / 203.0));
        }

        assertThat(lowest).isGreaterThanOrEqualTo(extremes.infimum() - 1e-12);
        assertThat(lowest).isCloseTo(extremes.infimum(), within(0.001));
        assertThat(coverage.at(extremes.infimumAt() * (1 - 1e-9)))
                .isNotEqualTo(coverage.at(extremes.infimumAt() * (1 + 1e-9)));
    }

    /** The guarantees behind "assured" reports. */
    @Test
    void exactIntervalsNeverFallShort() {
        for (int n : ProportionPages.USES) {
            assertThat(ProportionCoverage.of(IntervalMethod.CLOPPER_PEARSON, n)
                            .extremes(ProportionCoverage.LEAST_EXPECTED)
                            .infimum())
                    .isGreaterThanOrEqualTo(0.95);
        }
        assertThat(new OddsRatioCoverage(20, 50).lowest(2, 0.5, 30))
                .extractingByKey(OddsRatioCoverage.Method.EXACT)
                .extracting(OddsRatioCoverage.Lowest::coverage, InstanceOfAssertFactories.DOUBLE)
                .isGreaterThanOrEqualTo(0.95);
    }

    /** One attempt a case: nothing is clustered, and the simulation must agree with the enumeration. */
    @Test
    void theSimulationAgreesWithTheEnumerationWhereBothApply() {
        AttemptsCoverage.Row drawn =
                AttemptsCoverage.row(new Registry(Ending.AFTER_ONE, Difficulty.ALIKE, 30, 20_260_201));

        double enumerated = 0;
        BinomialDistribution distribution = BinomialDistribution.of(30, 0.6);
        for (int x = distribution.first(); x <= distribution.last(); x++) {
            Interval interval = new Proportion(x, 30).interval(IntervalMethod.WILSON, Confidence.DEFAULT);
            if (requireNonNull(interval.lower()) <= 0.6 && 0.6 <= requireNonNull(interval.upper())) {
                enumerated += distribution.probability(x);
            }
        }

        assertThat(drawn.truth()).isEqualTo(0.6);
        assertThat(drawn.naive().coverage())
                .isCloseTo(enumerated, within(4 * drawn.naive().standardError()));
    }

    /** Mean, variance and the probability of no event have closed forms; the sum is 1 by construction. */
    @Test
    void aLawOfCountsHasTheMomentsOfTheBinomial() {
        for (int n : ProportionPages.USES) {
            double p = 5.0 / n;
            BinomialDistribution distribution = BinomialDistribution.of(n, p);
            double mean = 0;
            double square = 0;
            for (int x = distribution.first(); x <= distribution.last(); x++) {
                mean += x * distribution.probability(x);
                square += (double) x * x * distribution.probability(x);
            }

            assertThat(mean).isCloseTo(5, within(1e-12));
            assertThat(square - mean * mean).isCloseTo(5 * (1 - p), within(1e-11));
            assertThat(distribution.probability(0)).isCloseTo(Math.pow(1 - p, n), within(1e-14));
        }
    }

    /** Successes over attempts of a case that stops: (1−q⁴)/(1+q+q²+q³) = 1−q for cases alike. */
    @Test
    void stoppingAtSuccessDoesNotBiasTheRatioOfCasesAlike() {
        assertThat(AttemptsCoverage.truth(new Registry(Ending.AT_SUCCESS, Difficulty.ALIKE, 10, 1)))
                .isCloseTo(0.6, within(1e-15));
    }
}
