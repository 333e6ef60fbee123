package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.apache.commons.math3.util.CombinatoricsUtils;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/**
 * Every pair of small tables against an enumeration of all pairs with the same margins, and the closed forms of a single
 * table.
 */
class StratifiedOddsRatioExhaustiveTests {

    private static final int MOST = 3;
    private static final Confidence LEVEL = Confidence.DEFAULT;
    private static final Offset<Double> CLOSE = within(1e-10);

    @Test
    void exactPValuesAndLimitsAreSumsOverAllPairsOfTables() {
        forAllPairs((first, second) -> {
            ExactOddsRatio exact =
                    StratifiedOddsRatioAnalysis.of(strata(first, second), LEVEL).exact();
            double[] distribution = distribution(first, second);
            int a = (int) (first.exposed().events() + second.exposed().events());
            double total = sum(distribution, 0, distribution.length, 1);
            double upper = sum(distribution, a, distribution.length, 1) / total;
            double lower = sum(distribution, 0, a + 1, 1) / total;
            double smaller = Math.min(upper, lower);
            double minlike = 0;
            for (double weight : distribution) {
                minlike += weight <= distribution[a] * (1 + 1e-7) ? weight / total : 0;
            }

            assertThat(exact.minlikePValue()).isCloseTo(minlike, CLOSE);
            assertThat(exact.centralPValue()).isCloseTo(Math.min(1, 2 * smaller), CLOSE);
            assertThat(exact.midPValue()).isCloseTo(Math.min(1, 2 * smaller - distribution[a] / total), CLOSE);
            double from = Objects.requireNonNull(exact.exact().lower());
            double to = Objects.requireNonNull(exact.exact().upper());
            if (from > 0) {
                assertThat(sum(distribution, a, distribution.length, from)
                                / sum(distribution, 0, distribution.length, from))
                        .isCloseTo(0.025, CLOSE);
            }
            if (Double.isFinite(to)) {
                assertThat(sum(distribution, 0, a + 1, to) / sum(distribution, 0, distribution.length, to))
                        .isCloseTo(0.025, CLOSE);
            }
            double mle = Objects.requireNonNull(exact.conditionalMle());
            if (mle > 0 && Double.isFinite(mle)) {
                assertThat(mean(distribution, mle)).isCloseTo(a, within(1e-9));
            }
        });
    }

    @Test
    void fittedCellsSolveTheQuadraticEquation() {
        forAllPairs((first, second) -> {
            StratifiedOddsRatioAnalysis answer = StratifiedOddsRatioAnalysis.of(strata(first, second), LEVEL);
            Double chi2 = answer.breslowDay().statistic();
            if (chi2 != null) {
                double psi = Objects.requireNonNull(answer.oddsRatio());
                double expected = 0;
                double distance = 0;
                double variance = 0;
                for (Stratum stratum : List.of(first, second)) {
                    double fitted = fitted(stratum.table(), psi);
                    double v = variance(stratum.table(), fitted);
                    expected += Math.pow(stratum.exposed().events() - fitted, 2) / v;
                    distance += stratum.exposed().events() - fitted;
                    variance += v;
                }
                assertThat(chi2).isCloseTo(expected, within(1e-8));
                assertThat(Objects.requireNonNull(answer.tarone().statistic()))
                        .isCloseTo(Math.max(0, expected - distance * distance / variance), within(1e-8));
                assertThat(answer.tarone().df()).isEqualTo(1);
            }
        });
    }

    @Test
    void oneStratumEqualsTheAnalysisOfItsTable() {
        forAllTables(4, stratum -> {
            StratifiedOddsRatioAnalysis answer = StratifiedOddsRatioAnalysis.of(List.of(stratum), LEVEL);
            TwoByTwo table = stratum.table();
            OddsRatioAnalysis single = OddsRatioAnalysis.of(table, LEVEL);
            double n = stratum.exposed().of() + stratum.reference().of();
            double pearson = Objects.requireNonNull(OverallTest.of(List.of(stratum.exposed(), stratum.reference()))
                    .pearsonChi2());

            assertThat(Objects.requireNonNull(answer.oddsRatio()))
                    .satisfiesAnyOf(ratio -> assertThat(ratio).isEqualTo(single.oddsRatio()), ratio -> assertThat(ratio)
                            .isCloseTo(Objects.requireNonNull(single.oddsRatio()), within(1e-12)));
            assertThat(Objects.requireNonNull(answer.cmh().statistic())).isCloseTo(pearson * (n - 1) / n, CLOSE);
            if (!table.hasZeroCell()) {
                assertThat(Objects.requireNonNull(answer.logStandardError()))
                        .isCloseTo(Objects.requireNonNull(table.woolf(LEVEL).logStandardError()), CLOSE);
            }
            assertThat(answer.exact().midP().lower()).isEqualTo(single.midP().lower(), CLOSE);
            assertThat(answer.exact().midPValue()).isCloseTo(single.midPValue(), CLOSE);
            assertThat(answer.tarone()).isEqualTo(ChiSquaredTest.notEstimable(0));
            assertThat(answer.notes()).extracting(Note::code).contains(NoteCode.ONE_STRATUM);
        });
    }

    @Test
    void swappingTheArmsInvertsAndTheOrderOfStrataDoesNotMatter() {
        forAllPairs((first, second) -> {
            StratifiedOddsRatioAnalysis one = StratifiedOddsRatioAnalysis.of(strata(first, second), LEVEL);
            StratifiedOddsRatioAnalysis turned = StratifiedOddsRatioAnalysis.of(strata(second, first), LEVEL);
            StratifiedOddsRatioAnalysis swapped =
                    StratifiedOddsRatioAnalysis.of(strata(swap(first), swap(second)), LEVEL);

            assertThat(turned.exact().midPValue()).isCloseTo(one.exact().midPValue(), CLOSE);
            assertThat(turned.oddsRatio()).isEqualTo(one.oddsRatio(), CLOSE);
            assertThat(swapped.exact().midPValue()).isCloseTo(one.exact().midPValue(), CLOSE);
            assertThat(Objects.requireNonNull(swapped.cmh().statistic()))
                    .isCloseTo(Objects.requireNonNull(one.cmh().statistic()), CLOSE);
            if (one.logStandardError() != null) {
                assertThat(Objects.requireNonNull(swapped.oddsRatio()) * Objects.requireNonNull(one.oddsRatio()))
                        .isCloseTo(1, CLOSE);
                assertThat(Objects.requireNonNull(swapped.rbg().lower())
                                * Objects.requireNonNull(one.rbg().upper()))
                        .isCloseTo(1, CLOSE);
            }
        });
    }

    @Test
    void aStratumWithoutInformationChangesNothing() {
        Stratum empty = stratum("none", 0, 7, 0, 9);
        forAllPairs((first, second) -> {
            StratifiedOddsRatioAnalysis without = StratifiedOddsRatioAnalysis.of(strata(first, second), LEVEL);
            StratifiedOddsRatioAnalysis with =
                    StratifiedOddsRatioAnalysis.of(List.of(first, empty, rename(second)), LEVEL);

            assertThat(with.exact()).isEqualTo(without.exact());
            assertThat(with.cmh()).isEqualTo(without.cmh());
            assertThat(with.droppedStrata()).containsExactly("none");
        });
    }

    private interface OneCheck {
        void accept(Stratum stratum);
    }

    private interface PairCheck {
        void accept(Stratum first, Stratum second);
    }

    private static void forAllTables(int most, OneCheck check) {
        for (int m = 1; m <= most; m++) {
            for (int n = 1; n <= most; n++) {
                for (int a = 0; a <= m; a++) {
                    for (int c = 0; c <= n; c++) {
                        Stratum stratum = stratum("s", a, m, c, n);
                        if (stratum.table().estimable()) {
                            check.accept(stratum);
                        }
                    }
                }
            }
        }
    }

    private static void forAllPairs(PairCheck check) {
        List<Stratum> tables = new ArrayList<>();
        forAllTables(MOST, tables::add);
        tables.forEach(first -> tables.forEach(second -> check.accept(first, second)));
    }

    /** Weights of all values of a₁+a₂, from 0 on, by enumerating both tables. */
    private static double[] distribution(Stratum first, Stratum second) {
        double[] distribution =
                new double[(int) (first.exposed().of() + second.exposed().of()) + 1];
        for (int s = 0; s <= first.exposed().of(); s++) {
            for (int t = 0; t <= second.exposed().of(); t++) {
                distribution[s + t] += tables(first, s) * tables(second, t);
            }
        }
        return distribution;
    }

    private static double tables(Stratum stratum, int a) {
        int c = (int) (stratum.exposed().events() + stratum.reference().events()) - a;
        return c < 0 || c > stratum.reference().of()
                ? 0
                : (double) CombinatoricsUtils.binomialCoefficient(
                                (int) stratum.exposed().of(), a)
                        * CombinatoricsUtils.binomialCoefficient(
                                (int) stratum.reference().of(), c);
    }

    private static double sum(double[] distribution, int from, int to, double psi) {
        double sum = 0;
        for (int s = from; s < to; s++) {
            sum += distribution[s] * Math.pow(psi, s);
        }
        return sum;
    }

    private static double mean(double[] distribution, double psi) {
        double mean = 0;
        for (int s = 0; s < distribution.length; s++) {
            mean += s * distribution[s] * Math.pow(psi, s);
        }
        return mean / sum(distribution, 0, distribution.length, psi);
    }

    /** Â(n₀−m₁+Â) = ψ(n₁−Â)(m₁−Â), the root inside the support. */
    private static double fitted(TwoByTwo t, double psi) {
        double n1 = t.a() + t.b();
        double n0 = t.c() + t.d();
        double m1 = t.a() + t.c();
        if (psi == 1) {
            return n1 * m1 / (n1 + n0);
        }
        double b = n0 - m1 + psi * (n1 + m1);
        return (b - Math.sqrt(b * b - 4 * (psi - 1) * psi * n1 * m1)) / (2 * (psi - 1));
    }

    private static double variance(TwoByTwo t, double fitted) {
        double n1 = t.a() + t.b();
        double n0 = t.c() + t.d();
        double m1 = t.a() + t.c();
        return 1 / (1 / fitted + 1 / (n1 - fitted) + 1 / (m1 - fitted) + 1 / (n0 - m1 + fitted));
    }

    private static List<Stratum> strata(Stratum first, Stratum second) {
        return List.of(first, rename(second));
    }

    private static Stratum rename(Stratum stratum) {
        return new Stratum("t", stratum.exposed(), stratum.reference());
    }

    private static Stratum swap(Stratum stratum) {
        return new Stratum(stratum.name(), stratum.reference(), stratum.exposed());
    }

    private static Stratum stratum(String name, long a, long m, long c, long n) {
        return new Stratum(name, new Proportion(a, m), new Proportion(c, n));
    }
}
