package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The random intercept against integrals by the trapezium rule, and its edges. */
class RandomInterceptTests {

    @Test
    void theReportedLikelihoodIsThatOfTheIntegralAndNoNeighbourIsHigher() {
        Random random = new Random(20311001);
        int spread = 0;
        for (int repeat = 0; repeat < 8; repeat++) {
            List<CovariatePattern> patterns = random(random, 12, 3 + 10 * repeat, 1.2);
            LogisticRandomInterceptAnalysis answer = analysis(patterns);
            if (answer.sdRandomIntercept() == null || answer.sdRandomIntercept() == 0) {
                continue;
            }
            double[] at = {
                LogisticSamples.of(answer.coefficients(), "(Intercept)").estimate(),
                LogisticSamples.of(answer.coefficients(), "x").estimate(),
                answer.sdRandomIntercept()
            };
            double best = logLikelihood(patterns, at);
            assertThat(answer.logLikelihood()).isEqualTo(best, within(1e-7));
            for (int j = 0; j < 3; j++) {
                for (double step : new double[] {-0.01, 0.01}) {
                    double[] beside = at.clone();
                    beside[j] += step;
                    assertThat(logLikelihood(patterns, beside)).isLessThan(best);
                }
            }
            assertThat(answer.lrVsNoRandom()).isEqualTo(2 * (best - plain(patterns)), within(1e-6));
            spread++;
        }
        assertThat(spread).isGreaterThan(4);
    }

    @Test
    void gradientAndCurvatureAreThoseOfTheLikelihood() {
        DesignMatrix design = DesignMatrix.of(List.of(new Term.Numeric("x")), random(new Random(20311002), 10, 20, 1));
        MarginalLikelihood likelihood = MarginalLikelihood.of(design, "centre");
        double[] at = {-1.2, 0.3, -0.4};
        MarginalLikelihood.Point point = likelihood.at(at);
        double h = 1e-4;

        for (int j = 0; j < 3; j++) {
            double[] up = at.clone();
            double[] down = at.clone();
            up[j] += h;
            down[j] -= h;
            assertThat(point.gradient[j])
                    .isCloseTo((likelihood.at(up).value - likelihood.at(down).value) / (2 * h), within(1e-5));
            for (int i = 0; i < 3; i++) {
                assertThat(point.hessian[i][j])
                        .isCloseTo(
                                (likelihood.at(up).gradient[i] - likelihood.at(down).gradient[i]) / (2 * h),
                                within(1e-4));
            }
        }
    }

    @Test
    void theOrderOfRowsAndSplittingAPatternDoNotMatter() {
        List<CovariatePattern> patterns = random(new Random(20311003), 15, 30, 1);
        List<CovariatePattern> split = new ArrayList<>();
        for (CovariatePattern pattern : patterns) {
            for (int k = 0; k < pattern.proportion().of(); k++) {
                split.add(new CovariatePattern(
                        pattern.levels(),
                        pattern.numbers(),
                        new Proportion(k < pattern.proportion().events() ? 1 : 0, 1)));
            }
        }
        Collections.shuffle(split, new Random(1));
        LogisticRandomInterceptAnalysis one = analysis(patterns);
        LogisticRandomInterceptAnalysis other = analysis(split);

        assertThat(other.sdRandomIntercept()).isEqualTo(one.sdRandomIntercept(), within(1e-6));
        assertThat(other.logLikelihood()).isEqualTo(one.logLikelihood(), within(1e-8));
        assertThat(LogisticSamples.of(other.coefficients(), "x").standardError())
                .isCloseTo(LogisticSamples.of(one.coefficients(), "x").standardError(), within(1e-6));
    }

    @Test
    void centresThatDoNotDifferLieAtTheBoundaryWithThePlainCoefficients() {
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            patterns.add(pattern("c" + i, 0, 4, 20));
            patterns.add(pattern("c" + i, 1, 7, 20));
        }
        LogisticRandomInterceptAnalysis answer = analysis(patterns);
        LogisticAnalysis plain =
                LogisticAnalysis.of(DesignMatrix.of(List.of(new Term.Numeric("x")), patterns), Confidence.DEFAULT);

        assertThat(answer.sdRandomIntercept()).isZero();
        assertThat(answer.medianOddsRatio()).isEqualTo(1.0);
        assertThat(answer.lrVsNoRandom()).isZero();
        assertThat(answer.lrHalfPValue()).isEqualTo(0.5);
        assertThat(answer.logLikelihood()).isEqualTo(plain.logLikelihood(), within(1e-9));
        assertThat(LogisticSamples.of(answer.coefficients(), "x"))
                .isEqualTo(new LogisticRandomInterceptAnalysis.Coefficient(
                        LogisticSamples.of(plain.coefficients(), "x").estimate(),
                        LogisticSamples.of(plain.coefficients(), "x").standardError()));
        assertThat(answer.notes()).extracting(Note::code).containsExactly(NoteCode.BOUNDARY);
    }

    @Test
    void centresThatAreAllOrNothingHaveNoFiniteSpread() {
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            patterns.add(pattern("c" + i, 0, i < 5 ? 20 : 0, 20));
        }
        LogisticRandomInterceptAnalysis answer =
                LogisticRandomInterceptAnalysis.of(DesignMatrix.of(List.of(), patterns), "centre");

        assertThat(answer.sdRandomIntercept()).isNull();
        assertThat(answer.coefficients()).isEmpty();
        assertThat(answer.notes()).extracting(Note::code).containsExactly(NoteCode.NOT_CONVERGED);
    }

    @Test
    void oneUseInEachCentreSaysNothingAboutTheirSpread() {
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < 60; i++) {
            patterns.add(pattern("c" + i, 0, i % 2, 1));
        }
        LogisticRandomInterceptAnalysis answer =
                LogisticRandomInterceptAnalysis.of(DesignMatrix.of(List.of(), patterns), "centre");

        assertThat(answer.sdRandomIntercept()).isZero();
        assertThat(answer.notes()).extracting(Note::code).containsExactly(NoteCode.BOUNDARY);
    }

    @Test
    void separationHasNoEstimate() {
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            patterns.add(pattern("c" + i, 0, 3, 20));
            patterns.add(pattern("c" + i, 1, 0, 20));
        }
        LogisticRandomInterceptAnalysis answer = analysis(patterns);

        assertThat(answer.coefficients()).isEmpty();
        assertThat(answer.logLikelihood()).isNull();
        assertThat(answer.notes()).extracting(Note::code).containsExactly(NoteCode.SEPARATION);
    }

    @Test
    void sixtyCentresOfWhichFortyHaveNoEventAnswer() {
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < 60; i++) {
            patterns.add(pattern("c" + i, 0, i < 20 ? 1 + i % 3 : 0, 100 + i));
        }
        LogisticRandomInterceptAnalysis answer =
                LogisticRandomInterceptAnalysis.of(DesignMatrix.of(List.of(), patterns), "centre");

        assertThat(answer.sdRandomIntercept()).isNotNull().isBetween(1.0, 2.0);
        assertThat(answer.medianOddsRatio())
                .isEqualTo(
                        Math.exp(
                                Math.sqrt(2) * 0.6744897501960817 * Objects.requireNonNull(answer.sdRandomIntercept())),
                        within(1e-12));
    }

    @Test
    void tensOfMillionsOfUsesAnswer() {
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < 20; i++) {
            patterns.add(pattern("c" + i, 0, 1_000_000 + 50_000L * i, 10_000_000));
        }
        LogisticRandomInterceptAnalysis answer =
                LogisticRandomInterceptAnalysis.of(DesignMatrix.of(List.of(), patterns), "centre");

        // With so many uses the spread is that of the observed log odds.
        double[] logits = patterns.stream()
                .mapToDouble(pattern -> Math.log((double) pattern.proportion().events()
                        / (pattern.proportion().of() - pattern.proportion().events())))
                .toArray();
        double mean = Arrays.stream(logits).average().orElseThrow();
        double variance = Arrays.stream(logits)
                .map(logit -> (logit - mean) * (logit - mean))
                .average()
                .orElseThrow();
        assertThat(answer.varianceRandomIntercept()).isEqualTo(variance, within(1e-5));
    }

    @Test
    void fewCentresAndFewEventsAreNoted() {
        LogisticRandomInterceptAnalysis answer = LogisticRandomInterceptAnalysis.of(
                DesignMatrix.of(List.of(), List.of(pattern("a", 0, 3, 10), pattern("b", 0, 4, 10))), "centre");

        assertThat(answer.notes())
                .extracting(Note::code)
                .containsExactly(NoteCode.FEW_CASES, NoteCode.LOW_EPV, NoteCode.BOUNDARY);
    }

    @Test
    void eightCentresWithTwentyEventsAndTwentyNonEventsAreEnough() {
        assertThat(codes(8, 20, 200)).isEmpty();
        assertThat(codes(7, 20, 200)).containsExactly(NoteCode.FEW_CASES);
        assertThat(codes(8, 19, 200)).containsExactly(NoteCode.LOW_EPV);
        assertThat(codes(8, 180, 200)).isEmpty();
        assertThat(codes(8, 181, 200)).containsExactly(NoteCode.LOW_EPV);
    }

    /** The first half of the centres has nearly all of the rarer outcome, so that they differ. */
    private static List<NoteCode> codes(int centres, long events, long of) {
        long rarer = Math.min(events, of - events);
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < centres; i++) {
            long early = centres / 2L;
            long here = i < early ? (rarer - 1) / early + (i < (rarer - 1) % early ? 1 : 0) : i == centres - 1 ? 1 : 0;
            long size = of / centres + (i < of % centres ? 1 : 0);
            patterns.add(pattern("c" + i, 0, rarer == events ? here : size - here, size));
        }
        return LogisticRandomInterceptAnalysis.of(DesignMatrix.of(List.of(), patterns), "centre").notes().stream()
                .map(Note::code)
                .toList();
    }

    @Test
    void refusesAPatternWithoutItsCluster() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> LogisticRandomInterceptAnalysis.of(
                        DesignMatrix.of(List.of(), List.of(pattern("a", 0, 3, 10))), "operator"))
                .withMessage("every pattern must have a level of operator");
    }

    private static LogisticRandomInterceptAnalysis analysis(List<CovariatePattern> patterns) {
        return LogisticRandomInterceptAnalysis.of(DesignMatrix.of(List.of(new Term.Numeric("x")), patterns), "centre");
    }

    private static CovariatePattern pattern(String centre, double x, long events, long of) {
        return new CovariatePattern(Map.of("centre", centre), Map.of("x", x), new Proportion(events, of));
    }

    private static List<CovariatePattern> random(Random random, int centres, int of, double sigma) {
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < centres; i++) {
            double u = sigma * random.nextGaussian();
            for (int x = 0; x < 2; x++) {
                int events = 0;
                for (int k = 0; k < of; k++) {
                    events += random.nextDouble() < 1 / (1 + Math.exp(1 - 0.5 * x - u)) ? 1 : 0;
                }
                patterns.add(pattern("c" + i, x, events, of));
            }
        }
        return patterns;
    }

    /** Intercept, slope of x, σ; the integral over u by the trapezium rule, which is exact for such peaks. */
    private static double logLikelihood(List<CovariatePattern> patterns, double[] at) {
        Map<String, List<CovariatePattern>> centres = new LinkedHashMap<>();
        patterns.forEach(pattern -> centres.computeIfAbsent(pattern.level("centre"), name -> new ArrayList<>())
                .add(pattern));
        double sum = 0;
        for (List<CovariatePattern> centre : centres.values()) {
            double integral = 0;
            double step = 0.002;
            for (double u = -12; u <= 12; u += step) {
                double log = -u * u / 2 - Math.log(2 * Math.PI) / 2;
                for (CovariatePattern pattern : centre) {
                    double eta = at[0] + at[1] * pattern.number("x") + at[2] * u;
                    log -= pattern.proportion().events() * Math.log1p(Math.exp(-eta))
                            + (pattern.proportion().of() - pattern.proportion().events()) * Math.log1p(Math.exp(eta));
                }
                integral += step * Math.exp(log);
            }
            sum += Math.log(integral);
        }
        return sum;
    }

    private static double plain(List<CovariatePattern> patterns) {
        return Objects.requireNonNull(
                LogisticAnalysis.of(DesignMatrix.of(List.of(new Term.Numeric("x")), patterns), Confidence.DEFAULT)
                        .logLikelihood());
    }
}
