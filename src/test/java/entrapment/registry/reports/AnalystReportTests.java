package entrapment.registry.reports;

import static entrapment.registry.reports.ReportSamples.CUT;
import static entrapment.registry.reports.ReportSamples.SCOPE;
import static entrapment.registry.reports.ReportSamples.STEWARD;
import static entrapment.registry.reports.ReportSamples.analystOf;
import static entrapment.registry.reports.ReportSamples.counted;
import static entrapment.registry.reports.ReportSamples.csv;
import static entrapment.registry.reports.ReportSamples.expected;
import static entrapment.registry.reports.ReportSamples.json;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.ApprovedFile;
import entrapment.registry.vocabulary.Factor;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** The reports that rest on models and comparisons of centres, on hand-made counts. */
class AnalystReportTests {

    /** R datasets::UCBAdmissions, admitted men and women by department; R help page of mantelhaen.test: 0.9046968. */
    private static final Counting ADMISSIONS = counted(
            "yes A 512 825",
            "yes B 353 560",
            "yes C 120 325",
            "yes D 138 417",
            "yes E 53 191",
            "yes F 22 373",
            "no A 89 108",
            "no B 17 25",
            "no C 202 593",
            "no D 131 375",
            "no E 94 393",
            "no F 24 341");

    private static final RiskFactorsQuery STRATIFIED = new RiskFactorsQuery(
            SCOPE, List.of(Factor.TOTAL_OCCLUSION), RiskFactorsQuery.Model.STRATIFIED, List.of(GroupBy.CENTRE));

    private static RiskFactorsQuery adjusted(Factor... factors) {
        return new RiskFactorsQuery(SCOPE, List.of(factors), RiskFactorsQuery.Model.ADJUSTED, List.of());
    }

    private static StratifiedRiskFactorsReport stratified(Counting counting) {
        return StratifiedRiskFactorsReport.of(STRATIFIED, CUT, Map.of(Factor.TOTAL_OCCLUSION, counting));
    }

    @Test
    void comparesWithinStrataAsMantelAndHaenszelDid() {
        StratifiedRiskFactorsReport report = stratified(ADMISSIONS);

        assertThat(report.groups()).singleElement().satisfies(odds -> {
            assertThat(odds.reference()).isEqualTo("yes");
            assertThat(odds.oddsRatio()).isCloseTo(1 / 0.9046968, within(1e-6));
            assertThat(odds.shown()).isEqualTo("mantel-haenszel");
            assertThat(odds.informativeStrata()).isEqualTo(6);
        });
        assertThat(report.notes()).anyMatch(note -> note.contains("read the strata, not the summary"));
    }

    @Test
    void showsTheExactLineWhereEventsAreFew() {
        StratifiedRiskFactorsReport report =
                stratified(counted("yes A 2 40", "yes B 1 30", "no A 1 90", "no B 2 80", "no C 1 9"));

        assertThat(report.groups()).singleElement().satisfies(odds -> {
            assertThat(odds.shown()).isEqualTo("exact-mid-p");
            assertThat(odds.oddsRatio()).isEqualTo(odds.exact().conditionalMle());
            assertThat(odds.droppedStrata()).isEqualTo(1);
            assertThat(odds.sentence()).contains("1 of 3 strata had no information");
        });
    }

    @Test
    void namesNoStratumForItMayBeAnotherCentre() {
        assertThat(json(stratified(counted("yes north 2 40", "no north 1 90", "yes south 9 99", "no south 8 99")))
                        .toString())
                .doesNotContain("north", "south");
    }

    /** With one factor of two levels Firth's estimate is the log odds ratio with ½ in each cell (Firth 1993). */
    @Test
    void adjustsByFirthsPenaltyWhichForOneFactorAddsHalves() {
        AdjustedRiskFactorsReport report = AdjustedRiskFactorsReport.of(
                adjusted(Factor.TOTAL_OCCLUSION), CUT, counted("yes north 7 34", "no north 1 34"));

        double withHalves = 7.5 * 33.5 / (27.5 * 1.5);
        assertThat(report.groups()).singleElement().satisfies(odds -> assertThat(
                        Math.abs(Math.log(odds.oddsRatio() == null ? 0 : odds.oddsRatio())))
                .isCloseTo(Math.log(withHalves), within(1e-6)));
        assertThat(report.centres()).isEqualTo("not in the model");
    }

    @Test
    void namesSeparationAndStillGivesLimits() {
        AdjustedRiskFactorsReport report = AdjustedRiskFactorsReport.of(
                adjusted(Factor.TOTAL_OCCLUSION), CUT, counted("no north 12 400", "yes north 0 60"));

        assertThat(report.separation()).isEqualTo("quasi-complete");
        assertThat(report.groups().get(0).upper()).isNotNull();
        assertThat(report.notes()).anyMatch(note -> note.contains("(SEPARATION)"));
    }

    @Test
    void refusesAModelOfManyFactorsFromFewEvents() {
        AdjustedRiskFactorsReport report = AdjustedRiskFactorsReport.of(
                adjusted(Factor.TOTAL_OCCLUSION, Factor.CALCIFICATION),
                CUT,
                counted("yes none north 1 40", "no none north 1 90", "yes mild north 1 30", "no severe north 1 50"));

        assertThat(report.groups()).isNotEmpty().allSatisfy(odds -> assertThat(odds.oddsRatio())
                .isNull());
        assertThat(report.notes()).anyMatch(note -> note.contains("(TOO_FEW_EVENTS)"));
    }

    @Test
    void tellsWhatWasDroppedForUnknownValuesAndItsRate() {
        AdjustedRiskFactorsReport report = AdjustedRiskFactorsReport.of(
                adjusted(Factor.TOTAL_OCCLUSION),
                CUT,
                counted("yes north 7 34", "no north 1 34", "unknown north 3 60"));

        assertThat(report.dropped()).isEqualTo(new AdjustedRiskFactorsReport.Dropped(3, 60, 0.05));
        assertThat(report.notes()).contains("Left out for unknown values: 3 entrapments in 60 uses, 50.0 per 1,000.");
    }

    @Test
    void holdsCentreEqualWhereFewCentresHaveEventsEach() {
        AdjustedRiskFactorsReport report = AdjustedRiskFactorsReport.of(
                adjusted(Factor.TOTAL_OCCLUSION),
                CUT,
                counted("yes north 7 90", "no north 6 300", "yes south 9 90", "no south 8 300"));

        assertThat(report.centres()).isEqualTo("columns");
        assertThat(json(report).toString()).doesNotContain("north", "south");
    }

    private static final Counting CENTRES =
            counted("east 4 1000", "north 30 1200", "south 0 90", "west 9 1500", "mid 8 1400", "far 0 1900");

    private static BetweenCentresReport centres(Counting counting) {
        return BetweenCentresReport.of(new BetweenCentresQuery(SCOPE, List.of()), CUT, counting, STEWARD, 5);
    }

    @Test
    void flagsCentresByExactTailsInTheOrderOfTheirNames() {
        BetweenCentresReport report = centres(CENTRES);

        assertThat(report.groups())
                .extracting(point -> point.level().get("centre") + " " + point.flag())
                .containsExactly(
                        "east within",
                        "far below 99.8%",
                        "mid within",
                        "north above 99.8%",
                        "south within",
                        "west within");
        assertThat(report.groups().get(3).sentence())
                .startsWith("north: 30 entrapments in 1,200 uses (25.0 per 1,000), above the 99.8 % limit")
                .contains("Best estimate allowing for chance")
                .endsWith("Check data and case mix before anything else.");
        assertThat(report.groups().get(1).perhapsNotReporting()).isTrue();
    }

    @Test
    void allowsForTheMixOfACentre() {
        BetweenCentresReport report = BetweenCentresReport.of(
                new BetweenCentresQuery(SCOPE, List.of(GroupBy.of(Factor.CALCIFICATION))),
                CUT,
                counted("north none 1 100", "north severe 9 300", "south none 2 200", "south severe 3 100"),
                STEWARD,
                5);

        assertThat(report.groups().get(0).expected()).isCloseTo(1 + 9, within(1e-9));
        assertThat(report.groups().get(0).observedOverExpected().estimate()).isCloseTo(1, within(1e-9));
    }

    @Test
    void givesAnAnalystNumbersInsteadOfTheNamesOfOtherCentres() {
        BetweenCentresReport report =
                BetweenCentresReport.of(new BetweenCentresQuery(SCOPE, List.of()), CUT, CENTRES, analystOf("north"), 5);

        assertThat(json(report).toString()).doesNotContain("east", "south", "west", "mid\"", "far");
        assertThat(report.groups())
                .extracting(point -> point.level().get("centre"))
                .containsExactly("centre-1", "centre-2", "centre-3", "centre-4", "centre-5", "north");
    }

    @Test
    void hidesFromAnAnalystTheSmallCountsOfOthersAndWhatWouldGiveThemAway() {
        BetweenCentresReport report =
                BetweenCentresReport.of(new BetweenCentresQuery(SCOPE, List.of()), CUT, CENTRES, analystOf("north"), 5);

        List<BetweenCentresReport.Point> hidden = report.groups().stream()
                .filter(BetweenCentresReport.Point::suppressed)
                .toList();
        assertThat(hidden).extracting(BetweenCentresReport.Point::uses).containsExactlyInAnyOrder(1000L, 1400L);
        assertThat(hidden).allSatisfy(point -> {
            assertThat(point.events()).isNull();
            assertThat(point.estimate()).isNull();
            assertThat(point.upper()).isNull();
            assertThat(point.flag()).isNull();
            assertThat(point.observedOverExpected().estimate()).isNull();
            assertThat(point.shrunken().estimate()).isNull();
            assertThat(point.sentence()).doesNotContain("4 entrapments", "8 entrapments");
        });
        long shown = report.groups().stream()
                .mapToLong(point -> point.events() == null ? 0 : point.events())
                .sum();
        assertThat(51 - shown)
                .as("what the rate of all tells of the two hidden counts")
                .isEqualTo(4 + 8);
        assertThat(report.notes()).anyMatch(note -> note.startsWith("Of 2 other centres the counts are hidden"));
    }

    @Test
    void saysWhereTooFewCentresHideTheSmallCountOfAnother() {
        BetweenCentresReport report = BetweenCentresReport.of(
                new BetweenCentresQuery(SCOPE, List.of()),
                CUT,
                counted("north 30 1200", "south 3 900"),
                analystOf("north"),
                5);

        assertThat(report.notes()).anyMatch(note -> note.contains("the rate of all still tells"));
    }

    @Test
    void givesNoRateAllowingForChanceFromFewCentres() {
        BetweenCentresReport report = centres(counted("north 30 1200", "south 9 1500"));

        assertThat(report.groups())
                .allSatisfy(point -> assertThat(point.shrunken().estimate()).isNull());
        assertThat(report.notes()).contains("No rate allowing for chance: that needs five centres and ten events.");
    }

    private static PooledReport pooled(Counting counting) {
        return PooledReport.of(new PooledQuery(SCOPE, List.of()), CUT, counting);
    }

    /** R metadat::dat.pritz1997; reference glmm-pritz: mu 1.37659438155288, so the median centre is at 0.798. */
    @Test
    void poolsCentresWithoutAddedHalves() {
        PooledReport report = pooled(counted(
                "a 16 17", "b 10 12", "c 4 8", "d 43 58", "e 10 10", "f 25 42", "g 13 14", "h 12 12", "i 22 41",
                "j 4 5", "k 5 6", "l 18 23", "m 58 68", "n 6 10"));

        assertThat(report.groups()).singleElement().satisfies(group -> {
            assertThat(group.estimate()).isCloseTo(1 / (1 + Math.exp(-1.37659438155288)), within(1e-5));
            assertThat(group.centres()).isEqualTo(14);
            assertThat(group.predictionLower()).isLessThan(group.lower());
        });
    }

    @Test
    void doesNotPoolFewCentresOrEvents() {
        for (Counting few : List.of(
                counted("a 9 90", "b 9 90", "c 9 90", "d 9 90"),
                counted("a 1 90", "b 0 90", "c 2 90", "d 3 90", "e 0 9"))) {
            assertThat(pooled(few).groups()).singleElement().satisfies(group -> {
                assertThat(group.estimate()).isNull();
                assertThat(group.sentence()).contains("too few to pool");
            });
        }
    }

    private static PlanningReport planning(Counting counting) {
        return PlanningReport.of(new PlanningQuery(SCOPE, List.of(), null, 0.8), CUT, counting);
    }

    /** Reference plan-detectable-1200: 1,200 uses a year at 0.5 % show a rise to 2.458897556 times the rate. */
    @Test
    void saysWhatAYearOfThisVolumeCouldShow() {
        PlanningReport report = planning(counted("2029-Q1 1 300", "2029-Q2 2 300", "2029-Q3 1 300", "2029-Q4 2 300"));

        assertThat(report.groups()).singleElement().satisfies(plan -> {
            assertThat(plan.usesPerYear()).isEqualTo(1_200);
            assertThat(plan.detectableRatio()).isCloseTo(2.45889755611852, within(1e-6));
            assertThat(plan.usesForHalfWidth()).isEqualTo(3_233);
            assertThat(plan.sentence()).contains("only a rise to 2.46 times the rate of 5.0 per 1,000");
        });
    }

    @Test
    void plansNothingFromNoEvent() {
        assertThat(planning(counted("2029-Q1 0 300")).groups()).singleElement().satisfies(plan -> assertThat(
                        plan.sentence())
                .isEqualTo("0 entrapments in 300 uses: no rate to plan from."));
    }

    @Test
    void answersForNothing() {
        Counting nothing = counted();

        assertThat(stratified(nothing).groups()).isEmpty();
        assertThat(AdjustedRiskFactorsReport.of(adjusted(Factor.VESSEL), CUT, nothing)
                        .groups())
                .isEmpty();
        assertThat(centres(nothing).groups()).isEmpty();
        assertThat(pooled(nothing).groups()).isEmpty();
        assertThat(planning(nothing).groups()).isEmpty();
    }

    @Test
    void writesTheApprovedCsv() {
        ApprovedFile.assertHolds(
                expected("analyst-reports.csv"),
                csv(stratified(ADMISSIONS))
                        + csv(AdjustedRiskFactorsReport.of(
                                adjusted(Factor.TOTAL_OCCLUSION),
                                CUT,
                                counted("yes north 7 34", "no north 1 34", "unknown north 3 60")))
                        + csv(centres(CENTRES))
                        + csv(pooled(CENTRES))
                        + csv(planning(counted("2029-Q1 1 300", "2029-Q2 2 300"))));
    }
}
