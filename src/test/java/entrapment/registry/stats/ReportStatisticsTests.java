package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What reports ask and the service does not offer by itself: silence, the reach of a CUSUM, quartiles, shown proportions. */
class ReportStatisticsTests {

    private static final MathContext DIGITS = new MathContext(50);

    @Nested
    class OfSilence {

        @Test
        void noneOfSoManyUsesIsAProductOverEachOfThem() {
            for (int x = 0; x <= 4; x++) {
                for (int n = 0; n <= 20; n++) {
                    BigDecimal none = BigDecimal.ONE;
                    for (int use = 0; use < n; use++) {
                        none = none.multiply(fraction(9 - x, 9), DIGITS);
                    }
                    none = none.multiply(fraction(299, 300), DIGITS);

                    SilenceAnalysis silence = SilenceAnalysis.of(
                            List.of(new Proportion(x, 9), new Proportion(1, 300)), List.of((long) n, 1L));

                    double expected = x * n / 9.0 + 1 / 300.0;
                    assertThat(silence.expected()).isCloseTo(expected, within(1e-13 * expected));
                    assertThat(silence.probabilityOfNone())
                            .isCloseTo(none.doubleValue(), within(1e-13 * none.doubleValue()));
                }
            }
        }

        private static BigDecimal fraction(int x, int m) {
            return new BigDecimal(x).divide(new BigDecimal(m), DIGITS);
        }

        @Test
        void splittingAStratumOfOneRateChangesNothing() {
            Proportion rate = new Proportion(3, 400);
            SilenceAnalysis one = SilenceAnalysis.of(List.of(rate), List.of(700L));
            SilenceAnalysis two = SilenceAnalysis.of(List.of(rate, rate), List.of(300L, 400L));

            assertThat(two.probabilityOfNone()).isCloseTo(one.probabilityOfNone(), within(1e-15));
            assertThat(two.expected()).isCloseTo(one.expected(), within(1e-13));
        }

        /** At the one-sided bound of no event in n, no event in n has the probability that the bound leaves. */
        @Test
        void noEventIsUnlikelyBeyondTheBoundThatItLeaves() {
            assertThat(SilenceAnalysis.of(List.of(new Proportion(1, 100)), List.of(458L))
                            .unlikely())
                    .isFalse();
            assertThat(SilenceAnalysis.of(List.of(new Proportion(1, 100)), List.of(459L))
                            .unlikely())
                    .isTrue();
            double bound = Objects.requireNonNull(ProportionAnalysis.of(new Proportion(0, 459), new Confidence(0.99))
                    .zeroEventUpperOneSided());
            assertThat(bound).isLessThan(0.01);
        }

        /** With one stratum it is the question that the funnel asks of a centre. */
        @Test
        void asksWhomTheFunnelAsks() {
            for (long uses = 1; uses < 2_000; uses += 7) {
                List<Group> centres = List.of(
                        new Group("silent", new Proportion(0, uses)), new Group("rest", new Proportion(30, 6_000)));
                boolean asked = FunnelAnalysis.of(centres).centres().get(0).perhapsNotReporting();

                assertThat(SilenceAnalysis.of(List.of(new Proportion(30, 6_000 + uses)), List.of(uses))
                                .unlikely())
                        .as("%d uses", uses)
                        .isEqualTo(asked);
            }
        }

        @Test
        void leavesOutWhatNobodyKnows() {
            assertThat(SilenceAnalysis.of(List.of(), List.of())).isEqualTo(new SilenceAnalysis(0, 1));
            assertThat(SilenceAnalysis.of(List.of(new Proportion(0, 0)), List.of(9L)))
                    .isEqualTo(new SilenceAnalysis(0, 1));
            assertThat(SilenceAnalysis.of(List.of(new Proportion(5, 5)), List.of(0L)))
                    .isEqualTo(new SilenceAnalysis(0, 1));
            assertThat(SilenceAnalysis.of(List.of(new Proportion(5, 5)), List.of(2L)))
                    .isEqualTo(new SilenceAnalysis(2, 0));
        }

        @Test
        void refusesStrataThatDoNotMatchAndUsesThatCannotBe() {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> SilenceAnalysis.of(List.of(new Proportion(0, 1)), List.of()))
                    .withMessage("number of strata must be in [1, 1], got 0");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> SilenceAnalysis.of(List.of(new Proportion(0, 1)), List.of(-1L)))
                    .withMessage("uses must be in [0, 2147483647], got -1");
        }
    }

    @Nested
    class OfTheReachOfACusum {

        /** The chart itself, on outcomes drawn from a fixed seed; rounding to whole points costs a few per cent. */
        @ParameterizedTest
        @CsvSource({"0.005, 3, 2.5", "0.01, 2, 2", "0.004, 5, 2"})
        void runsAboutAsLongAsTheChartDoes(double p0, double ratio, double h) {
            CusumRule rule = new CusumRule(ratio, h, true);
            CusumReachAnalysis reach = CusumReachAnalysis.of(rule, p0);

            assertThat(meanRun(rule, p0, p0))
                    .isCloseTo(some(reach.falseAlarm()), within(0.08 * some(reach.falseAlarm())));
            assertThat(meanRun(rule, p0, reach.p1()))
                    .isCloseTo(some(reach.detection()), within(0.08 * some(reach.detection())));
        }

        private static double meanRun(CusumRule rule, double p0, double p) {
            Random random = new Random(20_310_109);
            double event = rule.weight(true, p0);
            double none = rule.weight(false, p0);
            long uses = 0;
            int alarms = 4_000;
            double sum = 0;
            for (int alarm = 0; alarm < alarms; uses++) {
                sum = Math.max(0, sum + (random.nextDouble() < p ? event : none));
                if (sum >= rule.threshold()) {
                    alarm++;
                    sum = 0;
                }
            }
            return (double) uses / alarms;
        }

        /** The table of the specification, in events [computed there in R 4.2.2, exact, p₀ = 0.5 %]. */
        @ParameterizedTest
        @CsvSource({
            "2, 2.5, 38, 9",
            "2, 3.5, 121, 14",
            "2, 4.5, 352, 20",
            "3, 2.5, 16, 5",
            "3, 3.5, 49, 7",
            "3, 4.5, 142, 9",
            "1.5, 3.5, 365, 38"
        })
        void reachesTheRunLengthsInEventsOfTheTable(double ratio, double h, double events0, double events1) {
            CusumReachAnalysis reach = CusumReachAnalysis.of(new CusumRule(ratio, h, true), 0.005);

            assertThat(0.005 * some(reach.falseAlarm())).isCloseTo(events0, within(0.05 * events0 + 0.5));
            assertThat(reach.p1() * some(reach.detection())).isCloseTo(events1, within(0.05 * events1 + 0.5));
            assertThat(reach.notes()).isEmpty();
        }

        @Test
        void aHigherThresholdTakesLongerAndAChangeIsSeenSooner() {
            double before = 0;
            for (double h = 0.5; h <= 6; h += 0.5) {
                CusumReachAnalysis reach = CusumReachAnalysis.of(new CusumRule(2, h, true), 0.01);

                assertThat(some(reach.falseAlarm())).isGreaterThan(before);
                assertThat(some(reach.detection())).isLessThan(some(reach.falseAlarm()));
                before = some(reach.falseAlarm());
            }
        }

        @ParameterizedTest
        @CsvSource({
            "0.01, 0.5, 3.5",
            "0.5, 2, 3.5",
            "0.4, 100, 3.5",
            "0.0000009, 2, 3.5",
            "0.000001, 1.1, 20",
            "0.3, 10, 0.5"
        })
        void saysWhereThereIsNoLattice(double p0, double ratio, double h) {
            CusumReachAnalysis reach = CusumReachAnalysis.of(new CusumRule(ratio, h, true), p0);

            assertThat(reach.m()).isNull();
            assertThat(reach.threshold()).isNull();
            assertThat(reach.falseAlarm()).isNull();
            assertThat(reach.detection()).isNull();
            assertThat(reach.notes()).extracting(Note::code).containsExactly(NoteCode.OUT_OF_REACH);
        }

        @Test
        void saysWhichRunIsBeyondAnyCount() {
            CusumReachAnalysis reach = CusumReachAnalysis.of(new CusumRule(1.1, 900, true), 0.01);

            assertThat(reach.threshold()).isNotNull();
            assertThat(reach.falseAlarm()).isNull();
            assertThat(reach.detection()).isNotNull();
            assertThat(reach.notes()).extracting(Note::code).containsExactly(NoteCode.OUT_OF_REACH);
        }

        @Test
        void allowsADesignJustWhereThereIsOne() {
            double[] risks = {1e-7, 9.99e-7, 1e-6, 0.01, 0.1, 0.499, 0.5, 0.9};
            int[] rises = {-5, 1, 2, 9, 10, 11, 99, 100, 999_999, 1_000_000};
            int[] thresholds = {-1, 0, 1, 1_000_000, 1_000_001};
            for (double p0 : risks) {
                for (int m : rises) {
                    for (int threshold : thresholds) {
                        assertThat(CusumDesign.allows(p0, m, threshold)).isEqualTo(made(p0, m, threshold));
                    }
                }
            }
        }

        private static boolean made(double p0, int m, int threshold) {
            try {
                return new CusumDesign(p0, m, threshold).threshold() == threshold;
            } catch (IllegalArgumentException refused) {
                return false;
            }
        }

        @Test
        void refusesARiskThatIsNone() {
            for (double p0 : new double[] {0, 1, -0.1, Double.NaN}) {
                assertThatIllegalArgumentException()
                        .isThrownBy(() -> CusumReachAnalysis.of(new CusumRule(2, 3.5, true), p0))
                        .withMessage("p0 must be in (0, 1), got " + p0);
            }
        }

        private static double some(@Nullable Double value) {
            return Objects.requireNonNull(value);
        }
    }

    @Nested
    class OfQuartiles {

        /** The list laid out, sorted, and cut by hand; the interpolation in fractions of four. */
        @Test
        void cutEveryShortListAsTheDefinitionDoes() {
            Random random = new Random(20_310_110);
            for (int round = 0; round < 2_000; round++) {
                List<Long> values = new ArrayList<>();
                for (int i = random.nextInt(14); i >= 0; i--) {
                    values.add((long) random.nextInt(30));
                }
                Collections.sort(values);

                Quartiles quartiles = Quartiles.of(counts(values));

                assertThat(quartiles.values()).isEqualTo(values.size());
                assertThat(quartiles.lower()).isEqualTo(quarters(values, 1));
                assertThat(quartiles.median()).isEqualTo(quarters(values, 2));
                assertThat(quartiles.upper()).isEqualTo(quarters(values, 3));
            }
        }

        private static double quarters(List<Long> sorted, int of) {
            int place = (sorted.size() - 1) * of;
            int after = place % 4 == 0 ? place / 4 : place / 4 + 1;
            return (sorted.get(place / 4) * (4 - place % 4) + sorted.get(after) * (place % 4)) / 4.0;
        }

        private static SortedMap<Long, Long> counts(List<Long> values) {
            SortedMap<Long, Long> counts = new TreeMap<>();
            values.forEach(value -> counts.merge(value, 1L, Long::sum));
            return counts;
        }

        @Test
        void ofNothingAreNothingAndOfOneAreThatOne() {
            assertThat(Quartiles.of(new TreeMap<>())).isEqualTo(new Quartiles(0, null, null, null));
            assertThat(Quartiles.of(counts(List.of(7L)))).isEqualTo(new Quartiles(1, 7.0, 7.0, 7.0));
            TreeMap<Long, Long> none = new TreeMap<>();
            none.put(7L, 0L);
            assertThat(Quartiles.of(none).median()).isNull();
        }

        @Test
        void refuseACountThatIsNone() {
            TreeMap<Long, Long> negative = new TreeMap<>();
            negative.put(7L, -1L);

            assertThatIllegalArgumentException()
                    .isThrownBy(() -> Quartiles.of(negative))
                    .withMessage("count must be in [0, 2147483647], got -1");
        }
    }

    @Nested
    class OfAShownProportion {

        @Test
        void hasTheLimitsThatWereAskedFor() {
            for (IntervalMethod method : IntervalMethod.values()) {
                Proportion proportion = new Proportion(3, 41);
                Interval interval = proportion.interval(method, Confidence.DEFAULT);

                assertThat(ProportionEstimate.of(proportion, method, Confidence.DEFAULT))
                        .isEqualTo(new ProportionEstimate(3, 41, 3 / 41.0, interval.lower(), interval.upper()));
            }
            assertThat(ProportionEstimate.of(new Proportion(0, 0), IntervalMethod.WILSON, Confidence.DEFAULT))
                    .isEqualTo(new ProportionEstimate(0, 0, null, null, null));
        }

        @Test
        void allowsForCasesOnlyWhereTheyHaveFurtherAttempts() {
            ClusteredProportion one =
                    ClusteredProportion.of(List.of(new Cluster(1, 1, 7), new Cluster(1, 0, 5)), Confidence.DEFAULT);
            ClusteredProportion further = ClusteredProportion.of(
                    List.of(new Cluster(1, 1, 7), new Cluster(3, 0, 2), new Cluster(3, 1, 2)), Confidence.DEFAULT);

            assertThat(one.naiveWilson()).isNotEqualTo(one.effectiveWilson());
            assertThat(ProportionEstimate.of(one))
                    .isEqualTo(new ProportionEstimate(
                            7,
                            12,
                            7 / 12.0,
                            one.naiveWilson().lower(),
                            one.naiveWilson().upper()));
            assertThat(further.naiveWilson()).isNotEqualTo(further.effectiveWilson());
            assertThat(ProportionEstimate.of(further))
                    .isEqualTo(new ProportionEstimate(
                            9,
                            19,
                            9 / 19.0,
                            further.effectiveWilson().lower(),
                            further.effectiveWilson().upper()));
            assertThat(ProportionEstimate.of(ClusteredProportion.of(List.of(), Confidence.DEFAULT)))
                    .isEqualTo(new ProportionEstimate(0, 0, null, null, null));
        }
    }
}
