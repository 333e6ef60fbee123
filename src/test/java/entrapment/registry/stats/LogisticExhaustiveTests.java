package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.function.UnaryOperator;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.optim.InitialGuess;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.nonlinear.scalar.ObjectiveFunction;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.NelderMeadSimplex;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.SimplexOptimizer;
import org.assertj.core.data.Offset;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Maximum and penalised likelihood against closed forms, a search without derivatives, and laws. */
class LogisticExhaustiveTests {

    private static final Confidence LEVEL = Confidence.DEFAULT;
    private static final Offset<Double> CLOSE = within(1e-8);

    @Test
    void oneFactorGivesTheSampleOddsRatioAndWoolfsInterval() {
        forAllTables((a, m, c, n) -> {
            TwoByTwo table = new TwoByTwo(a, m - a, c, n - c);
            LogisticAnalysis answer =
                    LogisticAnalysis.of(LogisticSamples.oneFactor(new Proportion(c, n), new Proportion(a, m)), LEVEL);
            if (table.hasZeroCell()) {
                assertThat(answer.coefficients()).isEmpty();
                assertThat(answer.logLikelihood()).isNull();
                return;
            }
            Woolf woolf = table.woolf(LEVEL);
            LogisticAnalysis.Coefficient slope = LogisticSamples.of(answer.coefficients(), "f[1]");
            assertThat(slope.estimate()).isCloseTo(Math.log(Objects.requireNonNull(table.oddsRatio())), CLOSE);
            assertThat(slope.standardError()).isCloseTo(Objects.requireNonNull(woolf.logStandardError()), CLOSE);
            assertThat(slope.lower()).isEqualTo(woolf.lower(), within(1e-6));
            assertThat(answer.lrPValue())
                    .isEqualTo(
                            OverallTest.of(List.of(new Proportion(a, m), new Proportion(c, n)))
                                    .lrPValue(),
                            CLOSE);
            assertThat(answer.residualDeviance()).isEqualTo(0.0, CLOSE);
            assertThat(answer.residualDf()).isZero();
        });
    }

    @Test
    void oneFactorWithThePenaltyGivesTheOddsRatioWithHalvesAdded() {
        forAllTables((a, m, c, n) -> {
            LogisticFirthAnalysis answer = LogisticFirthAnalysis.of(
                    LogisticSamples.oneFactor(new Proportion(c, n), new Proportion(a, m)), LEVEL);

            LogisticFirthAnalysis.Coefficient slope = LogisticSamples.of(answer.coefficients(), "f[1]");
            double estimate = Math.log((a + 0.5) * (n - c + 0.5) / ((m - a + 0.5) * (c + 0.5)));
            assertThat(slope.estimate()).isCloseTo(estimate, CLOSE);
            double best = penalised(a, m, c, n, Math.log((c + 0.5) / (n - c + 0.5)), estimate);
            assertThat(slope.plrChi2()).isEqualTo(2 * (best - bestIntercept(a, m, c, n, 0)), within(1e-7));
            for (double limit : new double[] {lower(slope.profile()), upper(slope.profile())}) {
                assertThat(2 * (best - bestIntercept(a, m, c, n, limit)))
                        .isCloseTo(LEVEL.z() * LEVEL.z(), within(1e-6));
            }
            assertThat(answer.overallPlr().chi2()).isEqualTo(slope.plrChi2(), within(1e-9));
        });
    }

    @Test
    void fitsAreTheMaximaThatASearchWithoutDerivativesFinds() {
        Random random = new Random(20310815);
        for (int repeat = 0; repeat < 12; repeat++) {
            List<CovariatePattern> patterns = LogisticSamples.random(random, 30, 6);
            List<Term> terms = List.of(new Term.Numeric("x"), new Term.Numeric("y"));
            DesignMatrix design = DesignMatrix.of(terms, patterns);

            double[] plain = search(patterns, 0);
            double[] penalised = search(patterns, 0.5);

            LogisticAnalysis ml = LogisticAnalysis.of(design, LEVEL);
            LogisticFirthAnalysis firth = LogisticFirthAnalysis.of(design, LEVEL);
            assertThat(ml.logLikelihood()).isEqualTo(penalised(patterns, plain, 0), within(1e-9));
            assertThat(firth.penalisedLogLikelihood()).isEqualTo(penalised(patterns, penalised, 0.5), within(1e-9));
            for (int j = 0; j < 3; j++) {
                String column = design.columnNames().get(j);
                assertThat(LogisticSamples.of(ml.coefficients(), column).estimate())
                        .isCloseTo(plain[j], within(1e-5));
                assertThat(LogisticSamples.of(firth.coefficients(), column).estimate())
                        .isCloseTo(penalised[j], within(1e-5));
                assertThat(LogisticSamples.of(ml.coefficients(), column).standardError())
                        .isCloseTo(standardError(patterns, plain, j), within(1e-5));
            }
        }
    }

    @Test
    void testsOfTermsAreThoseOfTwoFits() {
        Random random = new Random(20310816);
        for (int repeat = 0; repeat < 20; repeat++) {
            List<CovariatePattern> patterns = LogisticSamples.random(random, 60, 5);
            List<Term> terms = LogisticSamples.randomTerms();
            LogisticAnalysis full = LogisticAnalysis.of(DesignMatrix.of(terms, patterns), LEVEL);
            for (int t = 0; t < terms.size(); t++) {
                List<Term> fewer = new ArrayList<>(terms);
                fewer.remove(t);
                LogisticAnalysis rest = LogisticAnalysis.of(DesignMatrix.of(fewer, patterns), LEVEL);

                assertThat(full.terms().get(t).lrChi2())
                        .isEqualTo(2 * (required(full.logLikelihood()) - required(rest.logLikelihood())), within(1e-8));
                assertThat(full.terms().get(t).df()).isEqualTo(t == 0 ? 2 : 1);
            }
        }
    }

    @Test
    void theOrderOfRowsAndSplittingAPatternDoNotMatter() {
        Random random = new Random(20310817);
        List<CovariatePattern> patterns = LogisticSamples.random(random, 40, 8);
        List<CovariatePattern> split = new ArrayList<>();
        for (CovariatePattern pattern : patterns) {
            for (int k = 0; k < pattern.proportion().of(); k++) {
                split.add(new CovariatePattern(
                        pattern.levels(),
                        pattern.numbers(),
                        new Proportion(k < pattern.proportion().events() ? 1 : 0, 1)));
            }
        }
        Collections.shuffle(split, random);

        assertAlike(patterns, split, UnaryOperator.identity());
    }

    @Test
    void aNumbersOriginIsAbsorbedByTheInterceptAndItsUnitByTheCoefficient() {
        List<CovariatePattern> patterns = LogisticSamples.random(new Random(20310818), 40, 8);
        List<CovariatePattern> moved = patterns.stream()
                .map(pattern -> new CovariatePattern(
                        pattern.levels(),
                        Map.of("x", 1e4 + 1e-3 * pattern.number("x"), "y", pattern.number("y")),
                        pattern.proportion()))
                .toList();

        assertAlike(patterns, moved, estimate -> estimate * 1e3);
    }

    @Test
    void exchangingEventsForNonEventsTurnsEverySign() {
        List<CovariatePattern> patterns = LogisticSamples.random(new Random(20310819), 40, 8);
        List<CovariatePattern> turned = patterns.stream()
                .map(pattern -> new CovariatePattern(
                        pattern.levels(),
                        pattern.numbers(),
                        new Proportion(
                                pattern.proportion().of() - pattern.proportion().events(),
                                pattern.proportion().of())))
                .toList();
        LogisticFirthAnalysis one = firth(patterns);
        LogisticFirthAnalysis other = firth(turned);

        one.coefficients().forEach((column, coefficient) -> {
            LogisticFirthAnalysis.Coefficient mirror = LogisticSamples.of(other.coefficients(), column);
            assertThat(mirror.estimate()).isCloseTo(-coefficient.estimate(), CLOSE);
            assertThat(lower(mirror.profile())).isCloseTo(-upper(coefficient.profile()), within(1e-6));
        });
    }

    @Test
    void intervalsHoldTheEstimateAndWidenWithTheirLevel() {
        Random random = new Random(20310820);
        for (int repeat = 0; repeat < 10; repeat++) {
            DesignMatrix design = DesignMatrix.of(LogisticSamples.randomTerms(), LogisticSamples.random(random, 25, 2));
            LogisticFirthAnalysis narrow = LogisticFirthAnalysis.of(design, new Confidence(0.8));
            LogisticFirthAnalysis wide = LogisticFirthAnalysis.of(design, new Confidence(0.999));

            narrow.coefficients().forEach((column, coefficient) -> {
                Interval outer = LogisticSamples.of(wide.coefficients(), column).profile();
                assertThat(coefficient.estimate())
                        .isBetween(lower(coefficient.profile()), upper(coefficient.profile()));
                assertThat(lower(outer)).isLessThan(lower(coefficient.profile()));
                assertThat(upper(outer)).isGreaterThan(upper(coefficient.profile()));
            });
        }
    }

    private static void assertAlike(
            List<CovariatePattern> patterns, List<CovariatePattern> others, UnaryOperator<Double> ofX) {
        LogisticAnalysis ml = LogisticAnalysis.of(DesignMatrix.of(LogisticSamples.randomTerms(), patterns), LEVEL);
        LogisticAnalysis otherMl = LogisticAnalysis.of(DesignMatrix.of(LogisticSamples.randomTerms(), others), LEVEL);
        LogisticFirthAnalysis firth = firth(patterns);
        LogisticFirthAnalysis otherFirth = firth(others);

        assertThat(otherMl.logLikelihood()).isEqualTo(ml.logLikelihood(), CLOSE);
        assertThat(otherMl.terms().get(0).lrChi2()).isEqualTo(ml.terms().get(0).lrChi2(), CLOSE);
        for (String column : List.of("g[b]", "g[c]", "x", "y")) {
            UnaryOperator<Double> rescaled = column.equals("x") ? ofX : UnaryOperator.identity();
            LogisticFirthAnalysis.Coefficient one = LogisticSamples.of(firth.coefficients(), column);
            LogisticFirthAnalysis.Coefficient two = LogisticSamples.of(otherFirth.coefficients(), column);
            double scale = Math.max(1, rescaled.apply(1.0));
            assertThat(LogisticSamples.of(otherMl.coefficients(), column).estimate())
                    .isCloseTo(
                            rescaled.apply(LogisticSamples.of(ml.coefficients(), column)
                                    .estimate()),
                            within(1e-8 * scale));
            assertThat(two.estimate()).isCloseTo(rescaled.apply(one.estimate()), within(1e-8 * scale));
            assertThat(lower(two.profile())).isCloseTo(rescaled.apply(lower(one.profile())), within(1e-6 * scale));
            assertThat(two.plrPValue()).isEqualTo(one.plrPValue(), CLOSE);
        }
    }

    private static LogisticFirthAnalysis firth(List<CovariatePattern> patterns) {
        return LogisticFirthAnalysis.of(DesignMatrix.of(LogisticSamples.randomTerms(), patterns), LEVEL);
    }

    private interface TableCheck {
        void accept(int a, int m, int c, int n);
    }

    private static void forAllTables(TableCheck check) {
        for (int m : new int[] {1, 2, 5}) {
            for (int n : new int[] {1, 3, 7}) {
                for (int a = 0; a <= m; a++) {
                    for (int c = 0; c <= n; c++) {
                        check.accept(a, m, c, n);
                    }
                }
            }
        }
    }

    /** Of a saturated model the penalty is ½Σlog(nμ(1−μ)), so ℓ* is that of half an event more on either side. */
    private static double penalised(int a, int m, int c, int n, double intercept, double slope) {
        double p = 1 / (1 + Math.exp(-intercept - slope));
        double q = 1 / (1 + Math.exp(-intercept));
        return (a + 0.5) * Math.log(p)
                + (m - a + 0.5) * Math.log(1 - p)
                + (c + 0.5) * Math.log(q)
                + (n - c + 0.5) * Math.log(1 - q);
    }

    /** The largest value over all intercepts, by thirds. */
    private static double bestIntercept(int a, int m, int c, int n, double slope) {
        double low = -30;
        double high = 30;
        while (high - low > 1e-9) {
            double left = low + (high - low) / 3;
            double right = high - (high - low) / 3;
            if (penalised(a, m, c, n, left, slope) < penalised(a, m, c, n, right, slope)) {
                low = left;
            } else {
                high = right;
            }
        }
        return penalised(a, m, c, n, low, slope);
    }

    private static double[] search(List<CovariatePattern> patterns, double penalty) {
        double[] point = new double[3];
        for (int restart = 0; restart < 4; restart++) {
            point = new SimplexOptimizer(1e-16, 1e-16)
                    .optimize(
                            new MaxEval(100_000),
                            GoalType.MAXIMIZE,
                            new ObjectiveFunction(beta -> penalised(patterns, beta, penalty)),
                            new InitialGuess(point),
                            new NelderMeadSimplex(3, 0.1))
                    .getPoint();
        }
        return point;
    }

    private static double penalised(List<CovariatePattern> patterns, double[] beta, double penalty) {
        double value = 0;
        for (CovariatePattern pattern : patterns) {
            double p = probability(pattern, beta);
            value += pattern.proportion().events() * Math.log(p)
                    + (pattern.proportion().of() - pattern.proportion().events()) * Math.log(1 - p);
        }
        return value + penalty * Math.log(new LUDecomposition(information(patterns, beta)).getDeterminant());
    }

    private static RealMatrix information(List<CovariatePattern> patterns, double[] beta) {
        RealMatrix information = MatrixUtils.createRealMatrix(3, 3);
        for (CovariatePattern pattern : patterns) {
            double p = probability(pattern, beta);
            double[] row = row(pattern);
            for (int i = 0; i < 3; i++) {
                for (int j = 0; j < 3; j++) {
                    information.addToEntry(i, j, pattern.proportion().of() * p * (1 - p) * row[i] * row[j]);
                }
            }
        }
        return information;
    }

    private static double standardError(List<CovariatePattern> patterns, double[] beta, int j) {
        return Math.sqrt(MatrixUtils.inverse(information(patterns, beta)).getEntry(j, j));
    }

    private static double probability(CovariatePattern pattern, double[] beta) {
        double[] row = row(pattern);
        return 1 / (1 + Math.exp(-beta[0] - beta[1] * row[1] - beta[2] * row[2]));
    }

    private static double[] row(CovariatePattern pattern) {
        return new double[] {1, pattern.number("x"), pattern.number("y")};
    }

    private static double required(@Nullable Double value) {
        return Objects.requireNonNull(value);
    }

    private static double lower(Interval interval) {
        return Objects.requireNonNull(interval.lower());
    }

    private static double upper(Interval interval) {
        return Objects.requireNonNull(interval.upper());
    }
}
