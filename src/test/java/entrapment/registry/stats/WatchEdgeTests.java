package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Both sides of every boundary of the methods about time, centres, plans, disclosure and missing data. */
class WatchEdgeTests {

    private static final long LARGEST = 2_147_483_647L;

    @Nested
    class OfTrend {

        @Test
        void needsEventsNonEventsAndTwoScores() {
            assertNothing(trend(0, 10, 0, 10), NoteCode.NO_EVENT);
            assertNothing(trend(10, 10, 10, 10), NoteCode.BOUNDARY);
            assertNothing(trend(0, 0, 0, 0), NoteCode.NO_EXPOSURE);
            assertNothing(trend(2, 10, 0, 0), NoteCode.EMPTY_MARGIN);
            assertThat(trend(1, 10, 0, 10).z()).isNotNull();
        }

        @Test
        void saysWhenTheApproximationMisleads() {
            assertThat(trend(14, 100, 15, 100).fewEvents()).isTrue();
            assertThat(trend(15, 100, 15, 100).fewEvents()).isFalse();
            assertThat(trend(30, 300, 0, 10).fewEvents()).isTrue();
        }

        @Test
        void saysSoInANoteBelowThirtyEventsOrFiveExpected() {
            assertThat(codes(trend(14, 100, 15, 100).notes())).containsExactly(NoteCode.APPROXIMATE);
            assertThat(trend(15, 100, 15, 100).notes()).isEmpty();
            assertThat(trend(35, 280, 5, 40).fewEvents()).isFalse();
            assertThat(trend(36, 280, 3, 39).fewEvents()).isTrue();
        }

        @Test
        void leavesTheExactPAsideWhereItsLawIsTooLarge() {
            List<ScoredGroup> many = List.of(
                    new ScoredGroup(1, new Proportion(200_000, 1_000_000)),
                    new ScoredGroup(2, new Proportion(200_500, 1_000_000)));
            List<ScoredGroup> thirds = List.of(
                    new ScoredGroup(0, new Proportion(1, 10)),
                    new ScoredGroup(1 / 3.0, new Proportion(2, 10)),
                    new ScoredGroup(1, new Proportion(2, 10)));

            for (List<ScoredGroup> groups : List.of(many, thirds)) {
                TrendAnalysis analysis = TrendAnalysis.of(groups);
                assertThat(analysis.z()).isNotNull();
                assertThat(analysis.midPValue()).isNull();
                assertThat(analysis.notes()).extracting(Note::code).contains(NoteCode.OUT_OF_REACH);
            }
        }

        @Test
        void holdsOneEventInTenMillion() {
            TrendAnalysis analysis = trend(0, 10_000_000, 1, 10_000_000);

            assertThat(analysis.exactUpperPValue()).isCloseTo(0.5, within(1e-9));
            assertThat(analysis.midPValue()).isCloseTo(0.5, within(1e-9));
        }

        @Test
        void refusesAScoreThatIsNone() {
            for (double score : new double[] {Double.NaN, Double.POSITIVE_INFINITY, 1.1e9}) {
                refused(
                        () -> new ScoredGroup(score, new Proportion(0, 1)),
                        "score must be in [-1.0E9, 1.0E9], got " + score);
            }
            refused(() -> trend(0, LARGEST, 1, 1), "sum of of must be in [0, 2147483647], got 2147483648");
        }

        private TrendAnalysis trend(long x1, long n1, long x2, long n2) {
            return TrendAnalysis.of(List.of(
                    new ScoredGroup(2030, new Proportion(x1, n1)), new ScoredGroup(2031, new Proportion(x2, n2))));
        }

        private void assertNothing(TrendAnalysis analysis, NoteCode code) {
            assertThat(analysis.z()).isNull();
            assertThat(analysis.pValue()).isNull();
            assertThat(analysis.exactUpperPValue()).isNull();
            assertThat(analysis.notes()).extracting(Note::code).containsExactly(code);
        }
    }

    @Nested
    class OfCharts {

        @Test
        void aPeriodWithoutExposureHasNoPoint() {
            PChartAnalysis.Subgroup p = PChartAnalysis.of(List.of(new Proportion(0, 0)), 0.1, 0.01)
                    .subgroups()
                    .get(0);
            UChartAnalysis.Subgroup u = UChartAnalysis.of(List.of(new Rate(0, 0)), 0.1, 0.01)
                    .subgroups()
                    .get(0);

            assertThat(p).isEqualTo(new PChartAnalysis.Subgroup(null, null, null, null, null, ChartSignal.NO_DATA));
            assertThat(u).isEqualTo(new UChartAnalysis.Subgroup(null, null, null, null, null, ChartSignal.NO_DATA));
            assertThat(ChartSignal.NO_DATA).hasToString("no data");
        }

        @Test
        void eventsWithoutExposureDoNotEnterTheCentreNorAnEmptyPeriodTheNotes() {
            UChartAnalysis u = UChartAnalysis.of(List.of(new Rate(8, 2), new Rate(3, 0), new Rate(8, 2)), 0.01);
            PChartAnalysis p = PChartAnalysis.of(List.of(new Proportion(40, 100), new Proportion(0, 0)), 0.01);

            assertThat(u.centre()).isEqualTo(4);
            assertThat(u.notes()).isEmpty();
            assertThat(p.centre()).isEqualTo(0.4);
            assertThat(p.notes()).isEmpty();
        }

        @Test
        void chartsWithoutEventsOrExposureHaveNoLimits() {
            assertThat(codes(PChartAnalysis.of(List.of(), 0.01).notes())).containsExactly(NoteCode.NO_EXPOSURE);
            assertThat(codes(PChartAnalysis.of(List.of(new Proportion(0, 9)), 0.01)
                            .notes()))
                    .containsExactly(NoteCode.NO_EVENT);
            assertThat(codes(PChartAnalysis.of(List.of(new Proportion(9, 9)), 0.01)
                            .notes()))
                    .containsExactly(NoteCode.BOUNDARY);
            assertThat(codes(UChartAnalysis.of(List.of(new Rate(0, 9)), 0.01).notes()))
                    .containsExactly(NoteCode.NO_EVENT);
            assertThat(PChartAnalysis.of(List.of(new Proportion(0, 9)), 0.01)
                            .subgroups()
                            .get(0)
                            .signal())
                    .isEqualTo(ChartSignal.NONE);
        }

        @Test
        void saysWhenFewerThanOneEventIsExpected() {
            assertThat(codes(PChartAnalysis.of(List.of(new Proportion(0, 99)), 0.01, 0.01)
                            .notes()))
                    .containsExactly(NoteCode.TOO_FEW_EVENTS);
            assertThat(PChartAnalysis.of(List.of(new Proportion(0, 100)), 0.01, 0.01)
                            .notes())
                    .isEmpty();
            assertThat(UChartAnalysis.of(List.of(new Rate(0, 0.9)), 1, 0.01).notes())
                    .hasSize(1);
        }

        @ParameterizedTest
        @ValueSource(doubles = {0, -0.1, 0.26, Double.NaN})
        void refusesATailThatIsNone(double tail) {
            String message = "tail probability must be in (0, 0.25], got " + tail;

            refused(() -> PChartAnalysis.of(List.of(), tail), message);
            refused(() -> UChartAnalysis.of(List.of(), tail), message);
            refused(() -> GChartAnalysis.of(List.of(), tail), message);
            refused(() -> TChartAnalysis.of(List.of(), tail), message);
        }

        @Test
        void acceptsATailOfAQuarter() {
            assertThat(PChartAnalysis.of(List.of(new Proportion(5, 10)), 0.25).centre())
                    .isEqualTo(0.5);
        }

        @Test
        void refusesACentreThatIsNone() {
            refused(() -> PChartAnalysis.of(List.of(), 0, 0.01), "centre must be in (0, 1), got 0.0");
            refused(() -> PChartAnalysis.of(List.of(), 1, 0.01), "centre must be in (0, 1), got 1.0");
            refused(() -> UChartAnalysis.of(List.of(), 0, 0.01), "centre must be above 0, got 0.0");
            refused(() -> UChartAnalysis.of(List.of(), Double.NaN, 0.01), "centre must be above 0, got NaN");
        }

        @Test
        void tenGapsCarryLimitsAndNineDoNot() {
            List<Long> nine = Collections.nCopies(9, 50L);
            List<Long> ten = Collections.nCopies(10, 50L);

            assertThat(GChartAnalysis.of(nine, 0.01).probability().upper()).isNull();
            assertThat(GChartAnalysis.of(nine, 0.01).meanGap()).isEqualTo(50);
            assertThat(codes(GChartAnalysis.of(nine, 0.01).notes())).containsExactly(NoteCode.TOO_FEW_EVENTS);
            assertThat(GChartAnalysis.of(ten, 0.01).probability().upper()).isNotNull();
            assertThat(codes(GChartAnalysis.of(ten, 0.01).notes())).containsExactly(NoteCode.ONE_SIDED);
            assertThat(GChartAnalysis.of(List.of(), 0.01).meanGap()).isNull();
        }

        @Test
        void eventsAtEveryUseLeaveNoGap() {
            GChartAnalysis chart = GChartAnalysis.of(Collections.nCopies(10, 0L), 0.01);

            assertThat(chart.pHat()).isEqualTo(1);
            assertThat(chart.medianGap()).isZero();
            assertThat(chart.probability().upper()).isZero();
            assertThat(chart.threeSigma()).isEqualTo(new Interval(0.0, 0.0));
        }

        @Test
        void aMedianThatIsAWholeNumberIsNotLifted() {
            // p = ½: half of all gaps are 0.
            assertThat(GChartAnalysis.of(Collections.nCopies(10, 1L), 0.01).medianGap())
                    .isZero();
        }

        @Test
        void holdsGapsOfTenMillion() {
            GChartAnalysis chart = GChartAnalysis.of(Collections.nCopies(10, 10_000_000L), 0.00135);

            assertThat(chart.probability().upper()).isBetween(66_000_000L, 66_100_000L);
            assertThat(chart.probability().lower()).isBetween(13_500L, 13_520L);
            refused(() -> GChartAnalysis.of(List.of(-1L), 0.01), "gap must be in [0, 2147483647], got -1");
        }

        @Test
        void timesNeedTenOfWhichOneIsAboveZero() {
            assertThat(TChartAnalysis.of(List.of(), 0.01).meanTime()).isNull();
            assertThat(TChartAnalysis.of(Collections.nCopies(10, 0.0), 0.01)
                            .exponential()
                            .upper())
                    .isNull();
            assertThat(TChartAnalysis.of(Collections.nCopies(9, 3.0), 0.01)
                            .nelson()
                            .upper())
                    .isNull();
            assertThat(TChartAnalysis.of(Collections.nCopies(10, 3.0), 0.01)
                            .nelson()
                            .upper())
                    .isCloseTo(3, within(1e-12));
            assertThat(codes(
                            TChartAnalysis.of(Collections.nCopies(9, 3.0), 0.01).notes()))
                    .containsExactly(NoteCode.TOO_FEW_EVENTS, NoteCode.APPROXIMATE);
            assertThat(codes(TChartAnalysis.of(Collections.nCopies(10, 1e9), 0.01)
                            .notes()))
                    .containsExactly(NoteCode.APPROXIMATE);
            refused(() -> TChartAnalysis.of(List.of(Double.NaN), 0.01), "time must be in [0, 1.0E9], got NaN");
            refused(() -> TChartAnalysis.of(List.of(-1.0), 0.01), "time must be in [0, 1.0E9], got -1.0");
        }
    }

    @Nested
    class OfCusum {

        @Test
        void aSumThatMeetsTheThresholdSignals() {
            double weight = new CusumRule(2, 1, true).weight(true, 0.01);

            assertThat(CusumAnalysis.of(List.of(true), 0.01, new CusumRule(2, weight, true))
                            .firstSignal())
                    .isEqualTo(1);
            assertThat(CusumAnalysis.of(List.of(true), 0.01, new CusumRule(2, Math.nextUp(weight), true))
                            .firstSignal())
                    .isNull();
        }

        @Test
        void withoutAUseThereIsNothingToWatch() {
            CusumAnalysis analysis = CusumAnalysis.of(List.of(), 0.01, new CusumRule(2, 3, true));

            assertThat(analysis.maximum()).isNull();
            assertThat(codes(analysis.notes())).containsExactly(NoteCode.NO_EXPOSURE);
        }

        @Test
        void refusesWhatIsNoRule() {
            for (double ratio : new double[] {0, 1, -2, 1001, Double.NaN}) {
                refused(
                        () -> new CusumRule(ratio, 3, true),
                        "alternative odds ratio must be in [0.001, 1000.0] and not 1, got " + ratio);
            }
            for (double threshold : new double[] {0, -1, 1001, Double.NaN}) {
                refused(() -> new CusumRule(2, threshold, true), "threshold must be in (0, 1000.0], got " + threshold);
            }
            CusumRule rule = new CusumRule(2, 3, true);
            refused(() -> CusumAnalysis.of(List.of(), 0, rule), "risk must be in (0, 1), got 0.0");
            refused(() -> CusumAnalysis.of(List.of(true), List.of(1.0), rule), "risk must be in (0, 1), got 1.0");
            refused(
                    () -> CusumAnalysis.of(List.of(true), List.of(), rule),
                    "risks must be as many as outcomes, 1, got 0");
        }

        @Test
        void acceptsRulesAndRisksAtTheEndsOfTheirRanges() {
            assertThat(new CusumRule(0.001, 1000, true).threshold()).isEqualTo(1000);
            assertThat(new CusumRule(1000, 1, true).oddsRatioAlternative()).isEqualTo(1000);
            assertThat(new CusumDesign(1e-6, 9, 1).p0()).isEqualTo(1e-6);
            assertThat(CusumDesignAnalysis.of(new CusumDesign(0.01, 60, 5), List.of(1e-6), null)
                            .notes())
                    .isEmpty();
        }

        /** Reynolds MR, Stoumbos ZG, J Qual Technol 1999;31:87: an uneventful use takes log((1−p₀)/(1−p₁)), a point. */
        @Test
        void aPointOfTheLatticeIsTheWeightOfAnUneventfulUse() {
            CusumDesignAnalysis analysis = CusumDesignAnalysis.of(new CusumDesign(0.01, 60, 210), List.of(), null);
            double p1 = analysis.p1Implied();

            assertThat(analysis.thresholdInWeights())
                    .isCloseTo(210 * (Math.log1p(-0.01) - Math.log1p(-p1)), within(1e-9));
            assertThat(new CusumRule(analysis.oddsRatioImplied(), 1, true).weight(false, 0.01))
                    .isCloseTo(Math.log1p(-p1) - Math.log1p(-0.01), within(1e-9));
        }

        @Test
        void refusesADesignThatCannotWatchForDeterioration() {
            assertThat(new CusumDesign(0.01, 99, 1).m()).isEqualTo(99);
            refused(() -> new CusumDesign(0.01, 100, 1), "m must be at least 2 and below 1/p0 = 100.0, got 100");
            refused(() -> new CusumDesign(0.01, 1, 1), "m must be at least 2 and below 1/p0 = 100.0, got 1");
            refused(() -> new CusumDesign(0.01, 9, 0), "threshold must be in [1, 1000000], got 0");
            refused(() -> new CusumDesign(0.5, 2, 1), "p0 must be in [1.0E-6, 0.5), got 0.5");
            refused(() -> new CusumDesign(Double.NaN, 2, 1), "p0 must be in [1.0E-6, 0.5), got NaN");
            CusumDesign design = new CusumDesign(0.01, 9, 9);
            refused(
                    () -> CusumDesignAnalysis.of(design, List.of(1.0), null),
                    "true risk must be in [1.0E-6, 1), got 1.0");
            refused(() -> CusumDesignAnalysis.of(design, List.of(), 0.5), "target must be in [1, 1.0E12], got 0.5");
        }

        @Test
        void runsBeyondAnyCountAreNotGiven() {
            CusumDesignAnalysis analysis =
                    CusumDesignAnalysis.of(new CusumDesign(0.001, 3, 1_000_000), List.of(0.001), 1e12);

            assertThat(analysis.arl().get(0).arl()).isNull();
            assertThat(codes(analysis.notes())).containsExactly(NoteCode.OUT_OF_REACH);
            assertThat(Objects.requireNonNull(analysis.thresholdForTarget()).arl0())
                    .isGreaterThanOrEqualTo(1e12);
        }
    }

    @Nested
    class OfCentres {

        @Test
        void aCentreWithoutUsesHasNoPlace() {
            FunnelAnalysis.Centre centre =
                    FunnelAnalysis.of(groups(0, 0), 0.01).centres().get(0);

            assertThat(centre.flag()).isEqualTo(FunnelAnalysis.Position.NO_DATA);
            assertThat(centre.midPValue()).isNull();
            assertThat(centre.expected()).isZero();
            assertThat(FunnelAnalysis.of(groups(0, 0)).target()).isNull();
            assertThat(FunnelAnalysis.of(groups(0, 0)).centres().get(0).expected())
                    .isNull();
            assertThat(codes(FunnelAnalysis.of(groups(0, 0)).notes())).containsExactly(NoteCode.NO_EXPOSURE);
            assertThat(FunnelAnalysis.Position.ABOVE_998).hasToString("above 99.8%");
        }

        @Test
        void withoutAnyEventNobodyIsFlagged() {
            FunnelAnalysis none = FunnelAnalysis.of(groups(0, 10, 0, 4000));
            FunnelAnalysis all = FunnelAnalysis.of(groups(10, 10));

            assertThat(none.centres())
                    .extracting(FunnelAnalysis.Centre::flag)
                    .containsOnly(FunnelAnalysis.Position.WITHIN);
            assertThat(none.centres()).allMatch(centre -> Objects.equals(centre.expected(), 0.0));
            assertThat(codes(none.notes())).containsExactly(NoteCode.NO_EVENT, NoteCode.FEW_CENTRES);
            assertThat(codes(all.notes())).containsExactly(NoteCode.BOUNDARY, NoteCode.FEW_CENTRES);
        }

        @Test
        void fiveCentresWithUsesMakeAFunnel() {
            assertThat(FunnelAnalysis.of(groups(2, 90, 1, 90, 2, 90, 1, 90, 3, 90), 0.02)
                            .notes())
                    .isEmpty();
            assertThat(codes(FunnelAnalysis.of(groups(2, 90, 1, 90, 2, 90, 1, 90, 0, 0), 0.02)
                            .notes()))
                    .containsExactly(NoteCode.FEW_CENTRES);
        }

        /** P(X = 0) at 1 % falls below 0.01 between 458 and 459 uses, and below 0.001 between 687 and 688. */
        @Test
        void asksWhetherASilentCentreReports() {
            assertThat(place(0, 458).perhapsNotReporting()).isFalse();
            assertThat(place(0, 459).perhapsNotReporting()).isTrue();
            assertThat(place(1, 459).perhapsNotReporting()).isFalse();
            assertThat(place(5, 687).tooSmallToFlagLow()).isTrue();
            assertThat(place(5, 688).tooSmallToFlagLow()).isFalse();
        }

        @Test
        void holdsTenMillionUses() {
            FunnelAnalysis.Centre centre = place(100_000, 10_000_000);

            assertThat(centre.flag()).isEqualTo(FunnelAnalysis.Position.WITHIN);
            assertThat(Limits.upper(centre.limits().at95())).isCloseTo(0.0100617, within(1e-6));
            assertThat(place(10_000_000, 10_000_000).upperPValue()).isEqualTo(Double.MIN_NORMAL);
        }

        @ParameterizedTest
        @ValueSource(doubles = {0, 1, -0.1, Double.NaN})
        void refusesATargetThatIsNone(double target) {
            refused(() -> FunnelAnalysis.of(List.of(), target), "target must be in (0, 1), got " + target);
        }

        @Test
        void overdispersionNeedsTwoCentresAndEvents() {
            assertThat(codes(FunnelOverdispersionAnalysis.of(groups(), 0.1).notes()))
                    .containsExactly(NoteCode.NO_EXPOSURE);
            assertThat(codes(FunnelOverdispersionAnalysis.of(groups(0, 5, 0, 5), 0.1)
                            .notes()))
                    .containsExactly(NoteCode.NO_EVENT);
            assertThat(codes(FunnelOverdispersionAnalysis.of(groups(5, 5, 5, 5), 0.1)
                            .notes()))
                    .containsExactly(NoteCode.BOUNDARY);
            assertThat(codes(FunnelOverdispersionAnalysis.of(groups(1, 5, 0, 0), 0.1)
                            .notes()))
                    .containsExactly(NoteCode.FEW_CENTRES);
            assertThat(FunnelOverdispersionAnalysis.of(groups(1, 5, 0, 0, 2, 5), 0.1)
                            .zNaive())
                    .hasSize(3)
                    .containsNull();
            refused(
                    () -> FunnelOverdispersionAnalysis.of(groups(), 0.5),
                    "winsorised share must be in [0, 0.5), got 0.5");
        }

        @Test
        void normalScoresNeedTenCentresThatExpectFiveEventsAndFiveWithout() {
            assertThat(overdispersion(10, 5, 20).notes()).isEmpty();
            assertThat(codes(overdispersion(9, 5, 20).notes())).containsExactly(NoteCode.APPROXIMATE);
            assertThat(codes(overdispersion(10, 4, 16).notes())).containsExactly(NoteCode.APPROXIMATE);
            assertThat(overdispersion(10, 15, 20).notes()).isEmpty();
            assertThat(codes(overdispersion(10, 12, 16).notes())).containsExactly(NoteCode.APPROXIMATE);
        }

        @Test
        void twoCentresHaveScoresAndOneHasNone() {
            FunnelOverdispersionAnalysis two = FunnelOverdispersionAnalysis.of(groups(1, 50, 3, 50), 0);

            // z = ±0.02/√(0.04·0.96/50), so that φ = 0.0004·50/0.0384.
            assertThat(two.phiUnwinsorised()).isCloseTo(0.0004 * 50 / 0.0384, within(1e-12));
            assertThat(FunnelOverdispersionAnalysis.of(groups(1, 50, 0, 0), 0).zNaive())
                    .containsOnlyNulls();
        }

        private FunnelOverdispersionAnalysis overdispersion(int centres, long events, long of) {
            long[] counts = new long[2 * centres];
            for (int i = 0; i < centres; i++) {
                counts[2 * i] = events;
                counts[2 * i + 1] = of;
            }
            return FunnelOverdispersionAnalysis.of(groups(counts), 0.1);
        }

        @Test
        void noExpectedEventLeavesNoRatio() {
            IndirectStandardisationAnalysis noRate = indirect(new Proportion(0, 100), new Proportion(1, 10));
            IndirectStandardisationAnalysis noReference = indirect(new Proportion(0, 0), new Proportion(1, 10));
            IndirectStandardisationAnalysis unused = indirect(new Proportion(0, 0), new Proportion(0, 0));

            assertThat(noRate.expected()).isZero();
            assertThat(noRate.oOverE()).isNull();
            assertThat(codes(noRate.notes())).containsExactly(NoteCode.NO_EVENT);
            assertThat(noReference.expected()).isNull();
            assertThat(noReference.notes().get(0).text()).contains("stratum 1,");
            assertThat(unused.expected()).isZero();
            refused(
                    () -> IndirectStandardisationAnalysis.of(
                            List.of(), List.of(new Proportion(0, 1)), Confidence.DEFAULT),
                    "strata of the centre must be as many as the reference's, 0, got 1");
        }

        @Test
        void noObservedEventBoundsTheRatioFromAbove() {
            IndirectStandardisationAnalysis analysis = indirect(new Proportion(10, 1000), new Proportion(0, 90));

            assertThat(analysis.oOverE()).isZero();
            assertThat(analysis.exact().lower()).isZero();
            assertThat(Limits.upper(analysis.exact())).isCloseTo(3.688879454113936 / 0.9, within(1e-10));
            assertThat(codes(analysis.notes())).containsExactly(NoteCode.NO_EVENT, NoteCode.TOO_FEW_EVENTS);
        }

        @Test
        void aWeightedStratumWithoutUsesLeavesNoRate() {
            DirectStandardisationAnalysis analysis = DirectStandardisationAnalysis.of(
                    List.of(
                            new WeightedStratum(new Proportion(1, 10), 1),
                            new WeightedStratum(new Proportion(0, 0), 0),
                            new WeightedStratum(new Proportion(0, 0), 2)),
                    Confidence.DEFAULT);

            assertThat(analysis.rate()).isNull();
            assertThat(analysis.strataWithoutData()).isEqualTo(1);
            assertThat(analysis.notes().get(0).text()).startsWith("No use in stratum 3,");
        }

        @Test
        void noEventInAnyStratumBoundsTheRateFromAbove() {
            DirectStandardisationAnalysis analysis = DirectStandardisationAnalysis.of(
                    List.of(
                            new WeightedStratum(new Proportion(0, 100), 1),
                            new WeightedStratum(new Proportion(0, 50), 1)),
                    Confidence.DEFAULT);

            assertThat(analysis.rate()).isZero();
            assertThat(analysis.fayFeuer().lower()).isZero();
            // k = ½/50, one event there at most: k times Garwood's limit of none.
            assertThat(Limits.upper(analysis.fayFeuer())).isCloseTo(0.03688879454113936, within(1e-12));
            assertThat(analysis.dobson()).isEqualTo(Interval.NOT_ESTIMABLE);
        }

        @Test
        void refusesWeightsThatAreNone() {
            refused(
                    () -> new WeightedStratum(new Proportion(0, 1), Double.NaN),
                    "weight must be in [0, 1.0E12], got NaN");
            refused(() -> new WeightedStratum(new Proportion(0, 1), -1), "weight must be in [0, 1.0E12], got -1.0");
            refused(
                    () -> DirectStandardisationAnalysis.of(
                            List.of(new WeightedStratum(new Proportion(0, 1), 0)), Confidence.DEFAULT),
                    "the sum of weights must be above 0, got 0.0");
        }

        private FunnelAnalysis.Centre place(long events, long of) {
            return FunnelAnalysis.of(groups(events, of), 0.01).centres().get(0);
        }

        private IndirectStandardisationAnalysis indirect(Proportion reference, Proportion centre) {
            return IndirectStandardisationAnalysis.of(List.of(reference), List.of(centre), Confidence.DEFAULT);
        }
    }

    @Nested
    class OfModels {

        @Test
        void needTwoCentresEventsAndNonEvents() {
            Map<NoteCode, long[][]> reasons = Map.of(
                    NoteCode.NO_EXPOSURE, new long[][] {{}, {0, 0, 0, 0}},
                    NoteCode.NO_EVENT, new long[][] {{0, 5, 0, 9}},
                    NoteCode.BOUNDARY, new long[][] {{5, 5, 9, 9}},
                    NoteCode.FEW_CENTRES, new long[][] {{2, 5}, {2, 5, 0, 0}});
            reasons.forEach((reason, cases) -> {
                for (long[] counts : cases) {
                    ShrinkageAnalysis shrinkage = ShrinkageAnalysis.of(groups(counts), Confidence.DEFAULT);
                    PooledProportionAnalysis pooled = PooledProportionAnalysis.of(groups(counts), Confidence.DEFAULT);

                    assertThat(shrinkage.mu()).isNull();
                    assertThat(shrinkage.boundary()).isNull();
                    assertThat(shrinkage.centres()).hasSize(counts.length / 2);
                    assertThat(pooled.mu()).isNull();
                    assertThat(codes(shrinkage.notes())).containsExactly(reason);
                    assertThat(codes(pooled.notes())).containsExactly(reason);
                }
            });
        }

        @Test
        void twoCentresAreEnough() {
            ShrinkageAnalysis shrinkage = ShrinkageAnalysis.of(groups(1, 50, 19, 50), Confidence.DEFAULT);

            assertThat(shrinkage.mu()).isNotNull();
            assertThat(codes(shrinkage.notes())).contains(NoteCode.APPROXIMATE, NoteCode.FEW_CENTRES);
            assertThat(PooledProportionAnalysis.of(groups(1, 50, 19, 50), Confidence.DEFAULT)
                            .mu())
                    .isNotNull();
            assertThat(PooledProportionAnalysis.of(groups(2, 5), Confidence.DEFAULT)
                            .crude())
                    .isEqualTo(0.4);
            assertThat(PooledEffectsAnalysis.of(List.of(new Effect(0, 1), new Effect(2, 1)), Confidence.DEFAULT)
                            .q())
                    .isEqualTo(2);
        }

        @Test
        void centresThatHaveAllOrNothingGiveNoNumber() {
            List<Group> extreme = groups(0, 5000, 4000, 4000, 0, 6000, 5000, 5000, 0, 9000, 3000, 3000);
            ShrinkageAnalysis shrinkage = ShrinkageAnalysis.of(extreme, Confidence.DEFAULT);
            PooledProportionAnalysis pooled = PooledProportionAnalysis.of(extreme, Confidence.DEFAULT);

            assertThat(codes(shrinkage.notes())).containsExactly(NoteCode.NOT_CONVERGED);
            assertThat(shrinkage.mu()).isNull();
            assertThat(codes(pooled.notes())).containsExactly(NoteCode.NOT_CONVERGED);
            assertThat(pooled.mu()).isNull();
            assertThat(pooled.crude()).isNotNull();
        }

        @Test
        void oneUseInEveryCentreSaysNothingAboutSpread() {
            ShrinkageAnalysis analysis = ShrinkageAnalysis.of(groups(0, 1, 1, 1, 0, 1, 0, 1), Confidence.DEFAULT);

            assertThat(analysis.boundary()).isTrue();
            assertThat(analysis.taroneZ()).isZero();
            assertThat(analysis.taroneUpperPValue()).isCloseTo(0.5, within(1e-15));
            assertThat(PooledProportionAnalysis.of(groups(0, 1, 1, 1, 0, 1, 0, 1), Confidence.DEFAULT)
                            .tau())
                    .isZero();
        }

        @Test
        void oneEventAmongAllCentresHasAnAnswer() {
            List<Group> centres = groups(1, 400, 0, 300, 0, 500, 0, 200, 0, 100);

            assertThat(ShrinkageAnalysis.of(centres, Confidence.DEFAULT).boundary())
                    .isTrue();
            assertThat(codes(PooledProportionAnalysis.of(centres, Confidence.DEFAULT)
                            .notes()))
                    .contains(NoteCode.TOO_FEW_EVENTS);
        }

        @Test
        void holdCentresOfTenMillion() {
            List<Group> centres = groups(
                    50_000, 10_000_000, 52_000, 10_000_000, 48_000, 10_000_000, 51_000, 10_000_000, 70_000, 10_000_000);
            ShrinkageAnalysis shrinkage = ShrinkageAnalysis.of(centres, Confidence.DEFAULT);
            PooledProportionAnalysis pooled = PooledProportionAnalysis.of(centres, Confidence.DEFAULT);

            assertThat(shrinkage.boundary()).isFalse();
            assertThat(shrinkage.centres().get(4).weightOnOwnData()).isCloseTo(1, within(1e-3));
            // Centres this large are known: τ is nearly the standard deviation of their logits, divisor k.
            assertThat(pooled.tau()).isCloseTo(0.137, within(0.003));
        }

        @Test
        void aCentreWithoutUsesGetsTheMeanBetweenCentres() {
            ShrinkageAnalysis analysis =
                    ShrinkageAnalysis.of(groups(3, 120, 0, 80, 19, 200, 1, 60, 5, 150, 0, 0), Confidence.DEFAULT);
            ShrinkageAnalysis.Centre none = analysis.centres().get(5);

            assertThat(none.crude()).isNull();
            assertThat(none.weightOnOwnData()).isZero();
            assertThat(Objects.requireNonNull(none.shrunken()))
                    .isCloseTo(Objects.requireNonNull(analysis.mu()), within(1e-12));
        }

        @Test
        void effectsNeedTwoToPool() {
            PooledEffectsAnalysis one = PooledEffectsAnalysis.of(List.of(new Effect(1, 1)), Confidence.DEFAULT);

            assertThat(one.q()).isNull();
            assertThat(one.reml()).isEqualTo(PooledEffect.NOT_ESTIMABLE);
            assertThat(codes(one.notes())).containsExactly(NoteCode.FEW_CENTRES);
            assertThat(PooledEffectsAnalysis.ofCentres(groups(), Confidence.DEFAULT)
                            .k())
                    .isZero();
            assertThat(PooledEffectsAnalysis.ofCentres(groups(), Confidence.DEFAULT)
                            .qDf())
                    .isZero();
        }

        @Test
        void equalEffectsHaveNoSpread() {
            PooledEffectsAnalysis analysis = PooledEffectsAnalysis.of(
                    List.of(new Effect(0.5, 1), new Effect(0.5, 2), new Effect(0.5, 3)), Confidence.DEFAULT);

            assertThat(analysis.q()).isZero();
            assertThat(analysis.qPValue()).isEqualTo(1);
            assertThat(analysis.i2FromQ()).isZero();
            assertThat(analysis.reml().tau2()).isZero();
            assertThat(analysis.reml().hartungKnapp()).isEqualTo(new Interval(0.5, 0.5));
        }

        @Test
        void addedHalvesAndEmptyCentresAreNamed() {
            PooledEffectsAnalysis analysis = PooledEffectsAnalysis.ofCentres(
                    groups(0, 50, 4, 40, 0, 0, 6, 60, 5, 50, 3, 30), Confidence.DEFAULT);

            assertThat(analysis.k()).isEqualTo(5);
            assertThat(codes(analysis.notes())).containsExactly(NoteCode.LEFT_OUT, NoteCode.APPROXIMATE);
            assertThat(analysis.notes())
                    .extracting(Note::text)
                    .contains("1 of 6 centres left out: no use.")
                    .anyMatch(text -> text.startsWith("A centre has no event or nothing but events"));
        }

        @Test
        void logitsOfRatesBelowTwoPerCentAreCalledOff() {
            for (long[] off : new long[][] {{19, 1000}, {981, 1000}}) {
                assertThat(fiveLike(off[0], off[1]).notes())
                        .singleElement()
                        .extracting(Note::text)
                        .asString()
                        .startsWith("With rates below 2 % normal logits are off");
            }
            assertThat(fiveLike(2, 100).notes()).isEmpty();
            assertThat(fiveLike(98, 100).notes()).isEmpty();
        }

        private PooledEffectsAnalysis fiveLike(long events, long of) {
            return PooledEffectsAnalysis.ofCentres(
                    groups(events, of, events, of, events, of, events, of, events, of), Confidence.DEFAULT);
        }

        @Test
        void acceptEffectsAtTheEndsOfTheirRanges() {
            assertThat(new Effect(-1e6, 1e-12).estimate()).isEqualTo(-1e6);
            assertThat(new Effect(1e6, 1e12).variance()).isEqualTo(1e12);
        }

        @Test
        void refuseEffectsThatAreNone() {
            refused(() -> new Effect(Double.NaN, 1), "estimate must be in [-1000000.0, 1000000.0], got NaN");
            refused(() -> new Effect(0, 0), "variance must be in [1.0E-12, 1.0E12], got 0.0");
        }
    }

    @Nested
    class OfPlans {

        @Test
        void sizesBeyondReachAreNotGiven() {
            PlanComparisonAnalysis plan =
                    PlanComparisonAnalysis.of(new PlanComparison(0.01, 0.0100001, 0.05, 0.8, 1), null);
            PlanPrecisionAnalysis precision = PlanPrecisionAnalysis.of(0.5, 1e-6, 1e-12, Confidence.DEFAULT);

            assertThat(plan.n1()).isNull();
            assertThat(plan.n1Exact()).isNull();
            assertThat(plan.eventsExpected()).isNull();
            assertThat(codes(plan.notes())).contains(NoteCode.OUT_OF_REACH);
            assertThat(precision.nWilson()).isNull();
            assertThat(precision.nForZeroEventsBelow()).isNull();
            assertThat(codes(precision.notes())).containsExactly(NoteCode.OUT_OF_REACH);
        }

        @Test
        void refuseValuesThatAreNone() {
            refused(() -> new PlanComparison(0, 0.1, 0.05, 0.8, 1), "p1 must be in (0, 1), got 0.0");
            refused(() -> new PlanComparison(0.1, 1, 0.05, 0.8, 1), "p2 must be in (0, 1), got 1.0");
            refused(() -> new PlanComparison(0.1, 0.1, 0.05, 0.8, 1), "p2 must differ from p1, got 0.1");
            refused(() -> new PlanComparison(0.1, 0.2, 0.6, 0.8, 1), "alpha must be in [1.0E-6, 0.5], got 0.6");
            refused(() -> new PlanComparison(0.1, 0.2, 0.05, 1, 1), "power must be in [0.5, 0.9999], got 1.0");
            refused(() -> new PlanComparison(0.1, 0.2, 0.05, 0.8, 0), "ratio must be in [0.01, 100.0], got 0.0");
            PlanComparison plan = new PlanComparison(0.1, 0.2, 0.05, 0.8, 1);
            refused(() -> PlanComparisonAnalysis.of(plan, 0L), "n1 must be in [1, 2147483647], got 0");
            refused(
                    () -> PlanPrecisionAnalysis.of(0.1, 0.5, null, Confidence.DEFAULT),
                    "half-width must be in (0, 0.5), got 0.5");
            refused(
                    () -> PlanPrecisionAnalysis.of(0.1, 0.1, 0.0, Confidence.DEFAULT),
                    "zero-event bound must be in (0, 1), got 0.0");
            refused(
                    () -> PlanDetectableChangeAnalysis.of(0, 0.1, 0.025, 0.8),
                    "volume must be in [1, 2147483647], got 0");
            refused(() -> PlanDetectableChangeAnalysis.of(9, 1, 0.025, 0.8), "p0 must be in (0, 1), got 1.0");
            refused(() -> PlanDetectableChangeAnalysis.of(9, 0.1, 0.6, 0.8), "alpha must be in [1.0E-6, 0.5], got 0.6");
            refused(() -> PlanDetectableChangeAnalysis.of(9, 0.1, 0.025, 1), "power must be in [0.5, 0.9999], got 1.0");
            refused(
                    () -> PlanPrecisionAnalysis.of(1.1, 0.1, null, Confidence.DEFAULT),
                    "anticipated proportion must be in [0, 1], got 1.1");
            refused(
                    () -> PlanPrecisionAnalysis.of(-0.1, 0.1, null, Confidence.DEFAULT),
                    "anticipated proportion must be in [0, 1], got -0.1");
            refused(
                    () -> PlanPrecisionAnalysis.of(Double.NaN, 0.1, null, Confidence.DEFAULT),
                    "anticipated proportion must be in [0, 1], got NaN");
            refused(
                    () -> PlanPrecisionAnalysis.of(0.1, 0, null, Confidence.DEFAULT),
                    "half-width must be in (0, 0.5), got 0.0");
        }

        @Test
        void acceptValuesAtTheEndsOfTheirRanges() {
            assertThat(new PlanComparison(0.1, 0.2, 1e-6, 0.5, 1).power()).isEqualTo(0.5);
            assertThat(new PlanComparison(0.1, 0.2, 0.5, 0.9999, 1).alpha()).isEqualTo(0.5);
            assertThat(new PlanComparison(0.1, 0.2, 0.05, 0.8, 0.01).ratio()).isEqualTo(0.01);
            assertThat(new PlanComparison(0.1, 0.2, 0.05, 0.8, 100).ratio()).isEqualTo(100);
            assertThat(Plan.count(LARGEST)).isEqualTo(LARGEST);
            assertThat(Plan.count(LARGEST + 1.0)).isNull();
        }

        /** R 4.2.2: prop.test(0, n, correct = FALSE) has half-width 0.02 or less from 93 on; 0.95^n is 0.05 or less from 59. */
        @Test
        void planForNoEventAtAll() {
            PlanPrecisionAnalysis none = PlanPrecisionAnalysis.of(0, 0.02, 0.05, Confidence.DEFAULT);

            assertThat(none.nWilson()).isEqualTo(93);
            assertThat(none.nForZeroEventsBelow()).isEqualTo(59);
            assertThat(none.nWald()).isNull();
            assertThat(codes(none.notes())).containsExactly(NoteCode.BOUNDARY);
            assertThat(PlanPrecisionAnalysis.of(1, 0.02, null, Confidence.DEFAULT)
                            .nWilson())
                    .isEqualTo(93);
            assertThat(codes(PlanPrecisionAnalysis.of(0, 1e-12, 0.05, Confidence.DEFAULT)
                            .notes()))
                    .containsExactly(NoteCode.BOUNDARY, NoteCode.OUT_OF_REACH);
        }

        @Test
        void aPlanWithinReachHasNothingToNote() {
            assertThat(PlanPrecisionAnalysis.of(0.1, 0.1, null, Confidence.DEFAULT)
                            .notes())
                    .isEmpty();
            assertThat(PlanPrecisionAnalysis.of(0.1, 0.1, 0.01, Confidence.DEFAULT)
                            .notes())
                    .isEmpty();
            assertThat(codes(PlanPrecisionAnalysis.of(0.1, 0.1, 1e-12, Confidence.DEFAULT)
                            .notes()))
                    .containsExactly(NoteCode.OUT_OF_REACH);
        }

        /** One event in one use has a probability of p; none in five uses one of (1−p)⁵. */
        @Test
        void theLastCountThatCanSignalIsGiven() {
            PlanDetectableChangeAnalysis rise = PlanDetectableChangeAnalysis.of(1, 0.01, 0.025, 0.8);
            PlanDetectableChangeAnalysis fall = PlanDetectableChangeAnalysis.of(5, 0.6, 0.025, 0.8);

            assertThat(rise.criticalCount()).isEqualTo(1);
            assertThat(rise.attainedAlpha()).isCloseTo(0.01, within(1e-12));
            assertThat(rise.detectableProportion()).isCloseTo(0.8, within(1e-12));
            assertThat(fall.decreaseCriticalCount()).isZero();
            assertThat(fall.decreaseDetectableProportion()).isCloseTo(1 - Math.pow(0.8, 0.2), within(1e-12));
        }

        @Test
        void oneUseShowsNothing() {
            PlanDetectableChangeAnalysis plan = PlanDetectableChangeAnalysis.of(1, 0.1, 0.025, 0.8);

            assertThat(plan.criticalCount()).isNull();
            assertThat(plan.detectableRatio()).isNull();
            assertThat(plan.decreaseCriticalCount()).isNull();
            assertThat(codes(plan.notes())).containsExactly(NoteCode.TOO_FEW_EVENTS);
        }

        @Test
        void tenMillionUsesShowASmallChange() {
            PlanDetectableChangeAnalysis plan = PlanDetectableChangeAnalysis.of(10_000_000, 0.005, 0.025, 0.8);

            assertThat(plan.detectableRatio()).isBetween(1.012, 1.013);
            assertThat(plan.decreaseDetectableProportion()).isBetween(0.00493, 0.00494);
            assertThat(plan.notes()).isEmpty();
        }
    }

    @Nested
    class OfDisclosure {

        @Test
        void withoutTotalsACellIsUnbounded() {
            SuppressionAuditAnalysis audit = SuppressionAuditAnalysis.of(
                    new PublishedTable(List.of(row(null, 20L), row(7L, 8L)), row(null, 15L), row(null, 28L)), 5);

            assertThat(audit.suppressedCells())
                    .containsExactly(new SuppressionAuditAnalysis.SuppressedCell(
                            1, 1, 0, Double.POSITIVE_INFINITY, false, true));
            assertThat(audit.safe()).isTrue();
        }

        @Test
        void oneTotalIsEnoughToRecoverALoneCell() {
            SuppressionAuditAnalysis audit = SuppressionAuditAnalysis.of(
                    new PublishedTable(List.of(row(null, 20L), row(7L, 8L)), row(23L, null), row(null, null)), 5);

            assertThat(audit.suppressedCells())
                    .containsExactly(new SuppressionAuditAnalysis.SuppressedCell(1, 1, 3, 3, true, false));
            assertThat(codes(audit.notes())).containsExactly(NoteCode.DISCLOSED);
        }

        @Test
        void saysHowManyCellsAreRecoveredOrThatOneIsNarrowedDown() {
            assertThat(audit(row(3L, 20L), row(3L, 20L), row(null, 0L), row(0L, 20L)))
                    .containsExactly("1 hidden cell is recovered exactly by subtraction from the totals.");
            assertThat(audit(row(23L, 15L), row(10L, 28L), row(null, 20L), row(7L, null)))
                    .containsExactly("2 hidden cells are recovered exactly by subtraction from the totals.");
            assertThat(audit(row(4L, 60L), row(4L, 60L), row(null, null), row(null, null)))
                    .containsExactly("A hidden cell is narrowed down so far that it is not protected.");
            assertThat(audit(row(50L, 50L), row(50L, 50L), row(null, null), row(null, null)))
                    .isEmpty();
        }

        private List<String> audit(
                List<@Nullable Long> rowTotals,
                List<@Nullable Long> columnTotals,
                List<@Nullable Long> first,
                List<@Nullable Long> second) {
            return SuppressionAuditAnalysis.of(new PublishedTable(List.of(first, second), rowTotals, columnTotals), 5)
                    .notes()
                    .stream()
                    .map(Note::text)
                    .toList();
        }

        @Test
        void aPrintedRowThatMissesItsTotalContradictsIt() {
            SuppressionAuditAnalysis audit = SuppressionAuditAnalysis.of(
                    new PublishedTable(List.of(row(null, 20L), row(7L, 8L)), row(null, 16L), row(null, 28L)), 5);

            assertThat(audit.consistent()).isFalse();
            assertThat(audit.suppressedCells()).isEmpty();
            assertThat(audit.safe()).isFalse();
        }

        @Test
        void aTotalBelowItsPrintedCellsContradictsThem() {
            assertThat(SuppressionAuditAnalysis.of(
                                    new PublishedTable(List.of(row(null, 20L)), row(19L), row(null, 20L)), 5)
                            .consistent())
                    .isFalse();
        }

        @Test
        void onlyMarkedCellsCountIfSomeAreMarked() {
            PublishedTable table = new PublishedTable(
                    List.of(row(null, null, 4L), row(null, null, 5L)), row(104L, 9L), row(4L, 100L, 9L));
            List<SuppressionAuditAnalysis.SuppressedCell> cells =
                    SuppressionAuditAnalysis.of(table, 5).suppressedCells();

            assertThat(cells)
                    .extracting(SuppressionAuditAnalysis.SuppressedCell::isProtected)
                    .contains(false);
            assertThat(SuppressionAuditAnalysis.of(table, 5).safe()).isFalse();
            assertThat(SuppressionAuditAnalysis.of(table, 5, List.of()).safe()).isTrue();
            refused(
                    () -> SuppressionAuditAnalysis.of(table, 5, List.of(new TableCell(1, 3))),
                    "a marked cell must be hidden, got row 1, column 3");
            refused(
                    () -> SuppressionAuditAnalysis.of(table, 5, List.of(new TableCell(3, 1))),
                    "row must be in [1, 2], got 3");
            refused(
                    () -> SuppressionAuditAnalysis.of(table, 5, List.of(new TableCell(1, 4))),
                    "column must be in [1, 3], got 4");
            refused(() -> SuppressionAuditAnalysis.of(table, 1), "threshold must be in [2, 100], got 1");
        }

        @Test
        void aRowAloneCannotProtectItsCells() {
            SuppressionAnalysis analysis = SuppressionAnalysis.of(List.of(List.of(3L, 20L, 30L)), 5);

            assertThat(analysis.minimumComplementaryCells()).isNull();
            assertThat(analysis.primary()).containsExactly(new SuppressionAnalysis.Cell(1, 1, 3));
            assertThat(codes(analysis.notes())).containsExactly(NoteCode.DISCLOSED);
        }

        @Test
        void withoutSmallCountsNothingIsHidden() {
            SuppressionAnalysis analysis = SuppressionAnalysis.of(List.of(List.of(0L, 5L), List.of(5L, 9L)), 5);

            assertThat(analysis.primary()).isEmpty();
            assertThat(analysis.minimumComplementaryCells()).isZero();
            assertThat(SuppressionAnalysis.of(List.of(List.of(0L, 4L), List.of(5L, 9L)), 5)
                            .primary())
                    .hasSize(1);
        }

        @Test
        void refusesWhatIsNoTable() {
            refused(() -> SuppressionAnalysis.of(List.of(), 5), "number of rows must be in [1, 10000], got 0");
            refused(
                    () -> SuppressionAnalysis.of(List.of(List.of()), 5),
                    "number of columns must be in [1, 10000], got 0");
            refused(
                    () -> SuppressionAnalysis.of(List.of(List.of(1L), List.of(1L, 2L)), 5),
                    "cells in a row must be in [1, 1], got 2");
            refused(() -> SuppressionAnalysis.of(List.of(List.of(1L)), 1), "threshold must be in [2, 100], got 1");
            refused(() -> SuppressionAnalysis.of(List.of(List.of(-1L)), 5), "cell must be in [0, 2147483647], got -1");
            refused(
                    () -> new PublishedTable(List.of(row(1L)), row(), row(1L)),
                    "number of row totals must be in [1, 1], got 0");
            refused(
                    () -> new PublishedTable(List.of(row(1L)), row(1L), row(1L, 2L)),
                    "number of column totals must be in [1, 1], got 2");
            refused(
                    () -> new PublishedTable(List.of(row(1L)), row(-1L), row(1L)),
                    "row total must be in [0, 2147483647], got -1");
            refused(
                    () -> new PublishedTable(List.of(row(1L)), row(1L), row(-1L)),
                    "column total must be in [0, 2147483647], got -1");
            refused(
                    () -> new PublishedTable(List.of(row(1L, -1L)), row(1L), row(1L, 1L)),
                    "cell must be in [0, 2147483647], got -1");
            refused(
                    () -> new PublishedTable(List.of(row(1L), row(1L, 2L)), row(1L, 3L), row(2L)),
                    "cells in a row must be in [1, 1], got 2");
            refused(
                    () -> SuppressionAnalysis.of(Collections.nCopies(101, Collections.nCopies(100, 9L)), 5),
                    "number of columns must be in [1, 99], got 100");
        }

        private List<@Nullable Long> row(@Nullable Long... counts) {
            return Arrays.asList(counts);
        }
    }

    @Nested
    class OfMissingData {

        @Test
        void withoutRecordsNothingIsEstimated() {
            MissingnessAnalysis analysis = MissingnessAnalysis.of(
                    0, List.of(new MissingnessAnalysis.Missing("age", 0)), 0, Confidence.DEFAULT);

            assertThat(analysis.completeProportion()).isNull();
            assertThat(analysis.fields().get(0).proportion()).isNull();
            assertThat(codes(analysis.notes())).containsExactly(NoteCode.NO_EXPOSURE);
        }

        @Test
        void completeCasesMustFitTheFields() {
            List<MissingnessAnalysis.Missing> missing =
                    List.of(new MissingnessAnalysis.Missing("age", 3), new MissingnessAnalysis.Missing("sex", 4));

            assertThat(MissingnessAnalysis.of(20, missing, 16, Confidence.DEFAULT)
                            .completeCases())
                    .isEqualTo(16);
            assertThat(MissingnessAnalysis.of(20, missing, 13, Confidence.DEFAULT)
                            .completeCases())
                    .isEqualTo(13);
            refused(
                    () -> MissingnessAnalysis.of(20, missing, 17, Confidence.DEFAULT),
                    "completeCases must be in [13, 16], got 17");
            refused(
                    () -> MissingnessAnalysis.of(20, missing, 12, Confidence.DEFAULT),
                    "completeCases must be in [13, 16], got 12");
            refused(
                    () -> MissingnessAnalysis.of(3, missing, 0, Confidence.DEFAULT),
                    "missing must be in [0, 3], got 4");
        }

        @Test
        void printsTheBoundsOnceUnknownOutcomesOutnumberEvents() {
            assertThat(codes(bounds(6, 940, 6).notes())).isEmpty();
            assertThat(codes(bounds(6, 940, 7).notes())).containsExactly(NoteCode.MISSING_OUTCOMES);
            assertThat(codes(bounds(0, 0, 0).notes())).containsExactly(NoteCode.NO_EXPOSURE);
            assertThat(bounds(0, 0, 0).lowestPossible()).isNull();
            assertThat(bounds(0, 0, 5).highestPossible()).isEqualTo(1);
            assertThat(bounds(0, 0, 5).completeCase().estimate()).isNull();
            refused(() -> bounds(0, LARGEST, 1), "missingOutcome must be in [0, 0], got 1");
        }

        private MissingOutcomeBoundsAnalysis bounds(long events, long known, long missing) {
            return MissingOutcomeBoundsAnalysis.of(new Proportion(events, known), missing, Confidence.DEFAULT);
        }
    }

    private static List<Group> groups(long... counts) {
        List<Group> groups = new ArrayList<>();
        for (int i = 0; i < counts.length; i += 2) {
            groups.add(new Group("c" + i, new Proportion(counts[i], counts[i + 1])));
        }
        return groups;
    }

    private static List<NoteCode> codes(List<Note> notes) {
        return notes.stream().map(Note::code).toList();
    }

    private static void refused(ThrowingCallable call, String message) {
        assertThatIllegalArgumentException().isThrownBy(call).withMessage(message);
    }
}
