package entrapment.registry.stats;

import static entrapment.registry.stats.Limits.lower;
import static entrapment.registry.stats.Limits.upper;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Consumer;
import java.util.function.LongPredicate;
import org.assertj.core.data.Offset;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Every table with cells up to four, in whole numbers and plain polynomials instead of logarithms. */
class OddsRatioExhaustiveTests {

    private static final int LARGEST = 4;
    private static final double TAIL = Confidence.DEFAULT.alpha() / 2;
    private static final double LEVEL_MISSED = 2 * TAIL - 1e-9;

    @Test
    void pValuesAreSharesOfTheTablesWithTheSameMargins() {
        forAll(table -> {
            OddsRatioAnalysis analysis = OddsRatioAnalysis.of(table, Confidence.DEFAULT);
            Margins margins = new Margins(table);
            double fisher = margins.share(s -> margins.weight(s).compareTo(margins.weight(table.a())) <= 0, 1);
            double above = margins.share(s -> s > table.a(), 1);
            double below = margins.share(s -> s < table.a(), 1);
            double here = margins.share(s -> s == table.a(), 1);
            double smaller = Math.min(above, below);

            assertThat(analysis.fisherPValue()).isCloseTo(fisher, within(1e-13));
            assertThat(analysis.centralPValue()).isCloseTo(Math.min(1, 2 * (smaller + here)), within(1e-13));
            assertThat(analysis.midPValue()).isCloseTo(Math.min(1, 2 * smaller + here), within(1e-13));
        });
    }

    /** With groups of equal size each table is as probable as its mirror image, so Fisher's p is twice one tail. */
    @Test
    void theMirrorImageOfEqualGroupsCountsAsTied() {
        for (int k = 1; k < 120; k++) {
            for (int a = Math.max(0, k - 60); a <= Math.min(k, 60); a++) {
                OddsRatioAnalysis analysis =
                        OddsRatioAnalysis.of(new TwoByTwo(a, 60 - a, k - a, 60 - k + a), Confidence.DEFAULT);

                assertThat(analysis.fisherPValue())
                        .isCloseTo(analysis.centralPValue(), within(1e-12 * analysis.centralPValue()));
            }
        }
    }

    @Test
    void limitsLeaveHalfOfAlphaInTheConditionalTail() {
        forAll(table -> {
            OddsRatioAnalysis analysis = OddsRatioAnalysis.of(table, Confidence.DEFAULT);
            Margins margins = new Margins(table);
            if (table.a() > margins.lowest()) {
                assertThat(margins.above(table.a(), 1, lower(analysis.exact()))).isCloseTo(TAIL, within(1e-12));
                assertThat(margins.above(table.a(), 0.5, lower(analysis.midP())))
                        .isCloseTo(TAIL, within(1e-12));
            } else {
                assertThat(analysis.exact().lower()).isZero();
                assertThat(analysis.midP().lower()).isZero();
            }
            if (table.a() < margins.highest()) {
                assertThat(margins.below(table.a(), 1, upper(analysis.exact()))).isCloseTo(TAIL, within(1e-12));
                assertThat(margins.below(table.a(), 0.5, upper(analysis.midP())))
                        .isCloseTo(TAIL, within(1e-12));
            } else {
                assertThat(analysis.exact().upper()).isInfinite();
                assertThat(analysis.midP().upper()).isInfinite();
            }
        });
    }

    @Test
    void theConditionalEstimateExpectsWhatWasSeen() {
        forAll(table -> {
            OddsRatioAnalysis analysis = OddsRatioAnalysis.of(table, Confidence.DEFAULT);
            Margins margins = new Margins(table);
            double estimate = Objects.requireNonNull(analysis.conditionalMle());

            if (estimate == 0) {
                assertThat(table.a()).isEqualTo(margins.lowest());
            } else if (Double.isInfinite(estimate)) {
                assertThat(table.a()).isEqualTo(margins.highest());
            } else {
                assertThat(margins.mean(estimate)).isCloseTo((double) table.a(), within(1e-11));
            }
            assertThat(estimate).isBetween(lower(analysis.midP()), upper(analysis.midP()));
            assertThat(lower(analysis.midP())).isBetween(lower(analysis.exact()), upper(analysis.exact()));
            assertThat(upper(analysis.midP())).isBetween(lower(analysis.exact()), upper(analysis.exact()));
        });
    }

    @Test
    void theIntervalHoldsOneJustWhenItsPValueSaysSo() {
        forAll(table -> {
            OddsRatioAnalysis analysis = OddsRatioAnalysis.of(table, Confidence.DEFAULT);

            assertThat(holdsOne(analysis.exact())).isEqualTo(analysis.centralPValue() > LEVEL_MISSED);
            assertThat(holdsOne(analysis.midP())).isEqualTo(analysis.midPValue() > LEVEL_MISSED);
        });
    }

    @Test
    void swappingTheGroupsInvertsAndTurningTheTableChangesNothing() {
        forAll(table -> {
            OddsRatioAnalysis one = OddsRatioAnalysis.of(table, Confidence.DEFAULT);
            OddsRatioAnalysis swapped =
                    OddsRatioAnalysis.of(new TwoByTwo(table.c(), table.d(), table.a(), table.b()), Confidence.DEFAULT);
            OddsRatioAnalysis turned =
                    OddsRatioAnalysis.of(new TwoByTwo(table.a(), table.c(), table.b(), table.d()), Confidence.DEFAULT);

            assertThat(inverse(lower(one.exact()))).isCloseTo(upper(swapped.exact()), relative(upper(swapped.exact())));
            assertThat(inverse(lower(one.midP()))).isCloseTo(upper(swapped.midP()), relative(upper(swapped.midP())));
            assertThat(one.fisherPValue()).isCloseTo(swapped.fisherPValue(), within(1e-13));
            assertThat(one.midPValue()).isCloseTo(swapped.midPValue(), within(1e-13));
            assertThat(1 / value(one.woolf().lower()))
                    .isCloseTo(
                            value(swapped.woolf().upper()),
                            relative(value(swapped.woolf().upper())));
            assertThat(lower(one.midP())).isCloseTo(lower(turned.midP()), relative(lower(turned.midP())));
            assertThat(one.oddsRatio()).isEqualTo(turned.oddsRatio());
        });
    }

    /** Pearson's statistic here is the spread of the proportions; with two degrees of freedom its tail is e^(−x/2). */
    @Test
    void theOverallTestMeasuresTheSpreadOfTheProportions() {
        for (Proportion a : proportions()) {
            for (Proportion b : proportions()) {
                for (Proportion c : proportions()) {
                    List<Proportion> groups = List.of(a, b, c);
                    double events =
                            groups.stream().mapToLong(Proportion::events).sum();
                    double of = groups.stream().mapToLong(Proportion::of).sum();
                    if (events == 0 || events == of) {
                        assertThat(OverallTest.of(groups).pearsonChi2()).isNull();
                        continue;
                    }
                    double p = events / of;
                    double spread = 0;
                    double likelihood = -logLikelihood(events, of);
                    for (Proportion group : groups) {
                        double share = (double) group.events() / group.of();
                        spread += group.of() * (share - p) * (share - p) / (p * (1 - p));
                        likelihood += logLikelihood((double) group.events(), (double) group.of());
                    }
                    OverallTest test = OverallTest.of(groups);
                    assertThat(test.pearsonChi2()).isCloseTo(spread, within(1e-12));
                    assertThat(test.pearsonPValue()).isCloseTo(Math.exp(-spread / 2), within(1e-12));
                    assertThat(test.lrChi2()).isCloseTo(2 * likelihood, within(1e-12));
                    assertThat(test.lrPValue()).isCloseTo(Math.exp(-likelihood), within(1e-12));
                }
            }
        }
    }

    private static List<Proportion> proportions() {
        List<Proportion> all = new ArrayList<>();
        for (int n = 1; n <= LARGEST; n++) {
            for (int x = 0; x <= n; x++) {
                all.add(new Proportion(x, n));
            }
        }
        return all;
    }

    private static double logLikelihood(double events, double of) {
        return term(events, events / of) + term(of - events, 1 - events / of);
    }

    private static double term(double count, double p) {
        return count == 0 ? 0 : count * Math.log(p);
    }

    private static void forAll(Consumer<TwoByTwo> claim) {
        for (int a = 0; a <= LARGEST; a++) {
            for (int b = 0; b <= LARGEST; b++) {
                for (int c = 0; c <= LARGEST; c++) {
                    for (int d = 0; d <= LARGEST; d++) {
                        TwoByTwo table = new TwoByTwo(a, b, c, d);
                        if (a + b > 0 && c + d > 0 && a + c > 0 && b + d > 0) {
                            claim.accept(table);
                        }
                    }
                }
            }
        }
    }

    /** The table 3, 0, 0, 3 has a mid-P of exactly 0.05 and a limit of exactly 1: both stay on the holding side. */
    private static boolean holdsOne(Interval limits) {
        return lower(limits) < 1 + 1e-9 && upper(limits) > 1 - 1e-9;
    }

    private static double inverse(double ratio) {
        return ratio == 0 ? Double.POSITIVE_INFINITY : 1 / ratio;
    }

    private static Offset<Double> relative(double value) {
        return within(Double.isInfinite(value) ? 0 : 1e-11 * value);
    }

    private static double value(@Nullable Double value) {
        return Objects.requireNonNull(value);
    }

    /** All tables with the margins of one, and how many ways lead to each. */
    private record Margins(long m, long n, long k) {

        Margins(TwoByTwo table) {
            this(table.a() + table.b(), table.c() + table.d(), table.a() + table.c());
        }

        long lowest() {
            return Math.max(0, k - n);
        }

        long highest() {
            return Math.min(k, m);
        }

        BigInteger weight(long s) {
            return choose(m, s).multiply(choose(n, k - s));
        }

        double share(LongPredicate counted, double psi) {
            double all = 0;
            double sum = 0;
            for (long s = lowest(); s <= highest(); s++) {
                double weight = weight(s).doubleValue() * Math.pow(psi, (double) s);
                all += weight;
                sum += counted.test(s) ? weight : 0;
            }
            return sum / all;
        }

        double above(long a, double half, double psi) {
            return share(s -> s > a, psi) + half * share(s -> s == a, psi);
        }

        double below(long a, double half, double psi) {
            return share(s -> s < a, psi) + half * share(s -> s == a, psi);
        }

        double mean(double psi) {
            double sum = 0;
            for (long s = lowest(); s <= highest(); s++) {
                long point = s;
                sum += s * share(other -> other == point, psi);
            }
            return sum;
        }

        private static BigInteger choose(long n, long k) {
            BigInteger ways = BigInteger.ONE;
            for (long j = 0; j < k; j++) {
                ways = ways.multiply(BigInteger.valueOf(n - j)).divide(BigInteger.valueOf(j + 1));
            }
            return ways;
        }
    }
}
