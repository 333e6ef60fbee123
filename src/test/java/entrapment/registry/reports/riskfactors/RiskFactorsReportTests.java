package entrapment.registry.reports.riskfactors;

import static entrapment.registry.reports.question.ReportSamples.CUT;
import static entrapment.registry.reports.question.ReportSamples.SCOPE;
import static entrapment.registry.reports.question.ReportSamples.STEWARD;
import static entrapment.registry.reports.question.ReportSamples.counted;
import static entrapment.registry.reports.question.ReportSamples.csv;
import static entrapment.registry.reports.question.ReportSamples.expected;
import static entrapment.registry.reports.question.ReportSamples.json;
import static entrapment.registry.reports.question.ReportSamples.names;
import static entrapment.registry.reports.question.ReportSamples.notes;
import static entrapment.registry.reports.question.ReportSamples.withExclusions;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.ApprovedFile;
import entrapment.registry.exports.CsvWriter;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.reports.riskfactors.CrudeReport.Odds;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Confidence;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Selection;
import java.util.List;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * Counts for comparison: alcohol and oesophageal cancer, R datasets::esoph (Breslow NE, Day NE, IARC 1980), and Ritland
 * 2007 as in Fagerland MW, Lydersen S, Laake P, CRC 2017; both are rows of reference-values.json, computed with R 4.2.2.
 */
class RiskFactorsReportTests {

    /** The four levels of alcohol under the names of four levels of calcium. */
    private static final Counting ESOPH = counted("none 29 415", "mild 75 355", "moderate 51 138", "severe 45 67");

    private static final double REFERENCE = 1e-6;

    @Test
    void comparesEachLevelWithTheOneOfMostUses() {
        CrudeReport report = report(ESOPH);

        assertThat(report.groups())
                .extracting(odds -> "%s %s %d/%d v %s %d/%d"
                        .formatted(
                                odds.factor().code(),
                                odds.level().code(),
                                odds.events(),
                                odds.uses(),
                                odds.reference().code(),
                                odds.referenceEvents(),
                                odds.referenceUses()))
                .containsExactly(
                        "calcification mild 75/355 v none 29/415",
                        "calcification moderate 51/138 v none 29/415",
                        "calcification severe 45/67 v none 29/415");
        assertThat(report(counted("none 1 9", "mild 2 90", "severe 1 90")).groups())
                .extracting(odds -> odds.reference().code())
                .containsOnly("mild");
    }

    @Test
    void givesTheOddsRatiosOfTheReferenceRow() {
        Odds severe = report(ESOPH).groups().get(2);

        assertThat(severe.estimable()).isTrue();
        assertThat(severe.oddsRatio()).isCloseTo(27.2257053291536, within(27 * REFERENCE));
        assertThat(severe.lower()).isCloseTo(14.356000139516, within(14 * REFERENCE));
        assertThat(severe.upper()).isCloseTo(51.4764938177175, within(51 * REFERENCE));
        assertThat(severe.pValue()).isCloseTo(3.53296962914309e-27, within(4e-27 * REFERENCE));
        assertThat(severe.fisherPValue()).isCloseTo(3.41116907368836e-27, within(4e-27 * REFERENCE));
        assertThat(severe.woolf().lower()).isCloseTo(14.4373207944194, within(14 * REFERENCE));
        assertThat(severe.woolf().upper()).isCloseTo(51.3418688428964, within(51 * REFERENCE));
        assertThat(severe.woolf().haldaneAnscombeApplied()).isFalse();
        assertThat(severe.haldaneAnscombe().haldaneAnscombeApplied()).isTrue();
        assertThat(severe.haldaneAnscombe().oddsRatio())
                .isCloseTo(45.5 * 386.5 / (22.5 * 29.5), within(27 * REFERENCE));
    }

    @Test
    void testsAllLevelsOfAFactorTogether() {
        assertThat(report(ESOPH).overall()).singleElement().satisfies(overall -> {
            assertThat(overall.factor()).isEqualTo(Factor.CALCIFICATION);
            assertThat(overall.test().df()).isEqualTo(3);
            assertThat(overall.test().pearsonChi2()).isCloseTo(158.954571135674, within(159 * REFERENCE));
            assertThat(overall.test().lrPValue()).isCloseTo(1.50057688576789e-31, within(2e-31 * REFERENCE));
        });
    }

    @Test
    void saysItInASentence() {
        assertThat(report(ESOPH).groups())
                .extracting(Odds::sentence)
                .containsExactly(
                        "Odds of entrapment were 3.57 times as high with calcification mild (95 % CI 2.27 to 5.68; mid-P p"
                                + " < 0.001); 75 of 355 against 29 of 415 with none; an association in recorded cases, not"
                                + " proof of cause.",
                        "Odds of entrapment were 7.80 times as high with calcification moderate (95 % CI 4.67 to 13.1; mid-P p"
                                + " < 0.001); 51 of 138 against 29 of 415 with none; an association in recorded cases, not"
                                + " proof of cause.",
                        "Odds of entrapment were 27.2 times as high with calcification severe (95 % CI 14.4 to 51.5; mid-P p"
                                + " < 0.001); 45 of 67 against 29 of 415 with none; an association in recorded cases, not"
                                + " proof of cause.");
    }

    @Test
    void groupsTheThousandsOfUsesAndNamesTheLevelOfConfidence() {
        RiskFactorsQuery query = new RiskFactorsQuery(
                new ReportScope(STEWARD, Selection.ALL, new Confidence(0.9), null),
                RiskFactorsQuery.Model.CRUDE,
                List.of(Factor.CALCIFICATION),
                List.of());

        assertThat(CrudeReport.of(query, CUT, List.of(counted("none 48 17114", "mild 38 14502")))
                        .groups()
                        .get(0)
                        .sentence())
                .startsWith("Odds of entrapment were 0.93 times as high with calcification mild (90 % CI ")
                .contains("; 38 of 14,502 against 48 of 17,114 with none;");
    }

    @Test
    void givesNoLowerLimitWhereTheLevelHadNoEvent() {
        Odds severe = report(counted("none 15 72", "severe 0 16")).groups().get(0);

        assertThat(severe.oddsRatio()).isZero();
        assertThat(severe.lower()).isZero();
        assertThat(severe.upper()).isCloseTo(0.885843576544438, within(REFERENCE));
        assertThat(severe.pValue()).isCloseTo(0.0364139468564686, within(REFERENCE));
        assertThat(severe.woolf().haldaneAnscombeApplied()).isTrue();
        assertThat(severe.woolf().upper()).isCloseTo(1.98040385071324, within(REFERENCE));
        assertThat(severe.sentence())
                .isEqualTo("No entrapment with calcification severe, so no lower limit can be given; the data fit odds"
                        + " ratios of 0.89 and below (0 of 16 against 15 of 72 with none).");
    }

    /** The lower limit from the definition: bisection on the noncentral hypergeometric law in Python 3. */
    @Test
    void givesNoUpperLimitWhereTheReferenceHadNoEvent() {
        Odds severe = report(counted("none 0 72", "severe 3 16")).groups().get(0);

        assertThat(severe.oddsRatio()).isInfinite();
        assertThat(severe.lower()).isCloseTo(2.8503860887704358, within(3 * REFERENCE));
        assertThat(severe.upper()).isInfinite();
        assertThat(severe.sentence())
                .isEqualTo("No entrapment with calcification none, so no upper limit can be given; the data fit odds"
                        + " ratios of 2.85 and above (3 of 16 against 0 of 72 with none).");
    }

    @Test
    void doesNotCallAReferenceWithEventsOneWithout() {
        assertThat(report(counted("none 3 100", "severe 5 5")).groups().get(0).sentence())
                .doesNotContain("No entrapment with calcification none")
                .contains("5 of 5 against 3 of 100 with none");
    }

    @Test
    void doesNotCallALevelWithEventsOneWithout() {
        assertThat(report(counted("none 100 100", "severe 4 16"))
                        .groups()
                        .get(0)
                        .sentence())
                .doesNotContain("No entrapment with calcification severe")
                .contains("4 of 16 against 100 of 100 with none");
    }

    @Test
    void doesNotSayThatOddsAreNoughtTimesAsHigh() {
        assertThat(report(counted("none 999000 1000000", "severe 1 1000"))
                        .groups()
                        .get(0)
                        .sentence())
                .doesNotContain("were 0.00 times");
    }

    @Test
    void givesNoLimitsWhereThereIsNoEstimate() {
        Odds empty = report(counted("none 3 72", "severe 0 0")).groups().get(0);

        assertThat(empty.oddsRatio()).isNull();
        assertThat(empty.lower()).isNull();
        assertThat(empty.upper()).isNull();
    }

    @Test
    void givesNoOddsRatioWhereNothingHappenedAtAll() {
        CrudeReport report = report(counted("none 0 72", "severe 0 16"));

        assertThat(report.groups().get(0).estimable()).isFalse();
        assertThat(report.groups().get(0).oddsRatio()).isNull();
        assertThat(report.groups().get(0).woolf().oddsRatio()).isNull();
        assertThat(report.groups().get(0).pValue()).isEqualTo(1);
        assertThat(report.groups().get(0).sentence())
                .isEqualTo("calcification severe: no odds ratio can be given; 0 of 16 against 0 of 72 with none.");
        assertThat(report.overall().get(0).test().pearsonChi2()).isNull();
        assertThat(notes(report))
                .contains(
                        "calcification: severe: A row or column of the table is empty: any odds ratio is compatible with"
                                + " these counts. (EMPTY_MARGIN)");
    }

    @Test
    void givesNoOddsRatioOfALevelWithoutUses() {
        CrudeReport report = report(counted("none 3 72", "mild 0 0", "severe 4 16"));

        assertThat(report.groups())
                .extracting(Odds::sentence)
                .first()
                .isEqualTo("calcification mild: no odds ratio can be given; 0 of 0 against 3 of 72 with none.");
        assertThat(report.groups().get(0).oddsRatio()).isNull();
        assertThat(report.groups().get(1).oddsRatio()).isCloseTo(4 * 69 / (12.0 * 3), within(REFERENCE));
        assertThat(report.overall().get(0).test().df()).isEqualTo(1);
    }

    @Test
    void leavesTheUnknownLevelOutAndTellsItsCounts() {
        CrudeReport report = report(counted("none 3 72", "severe 4 16", "unknown 1 1842"));

        assertThat(report.groups()).extracting(odds -> odds.level().code()).containsExactly("severe");
        assertThat(report.groups()).extracting(odds -> odds.reference().code()).containsExactly("none");
        assertThat(report.overall().get(0).test().df()).isEqualTo(1);
        assertThat(notes(report)).contains("calcification: left out as unknown, 1 entrapment in 1,842 uses.");
    }

    @Test
    void leavesOutALevelWithMoreEventsThanUsesAndTellsItsCounts() {
        CrudeReport report = report(counted("none 3 72", "mild 5 4", "severe 4 16"));

        assertThat(report.groups()).extracting(odds -> odds.level().code()).containsExactly("severe");
        assertThat(notes(report))
                .contains("calcification mild: left out, because 5 entrapments in 4 uses contradict each other.");
    }

    @Test
    void comparesNothingWhereThereIsOneLevel() {
        for (Counting counting : List.of(
                counted("severe 4 16"),
                counted("severe 4 16", "unknown 9 900"),
                counted("none 5 4", "severe 4 16"),
                counted())) {
            CrudeReport report = report(counting);

            assertThat(report.groups()).isEmpty();
            assertThat(report.overall()).isEmpty();
            assertThat(notes(report))
                    .contains("calcification: fewer than two levels in use, so there is nothing to compare.");
            assertThat(CsvWriter.write(report.table(), false).lines()).hasSize(1);
        }
    }

    @Test
    void beginsItsNotesByCallingTheFiguresCrude() {
        assertThat(report(ESOPH).model()).isEqualTo(RiskFactorsQuery.Model.CRUDE);
        assertThat(notes(report(ESOPH))).containsExactly("Crude figures: other factors may explain a difference.");
    }

    @Test
    void saysWhatWasLeftOutOncePerSentence() {
        CrudeReport report = CrudeReport.of(
                query(Factor.CALCIFICATION, Factor.VESSEL),
                CUT,
                List.of(
                        withExclusions(ESOPH, 1, 7, 5, 0),
                        withExclusions(counted("lad 30 720", "rca 40 720"), 1, 7, 5, 2)));

        assertThat(report.excluded()).isEqualTo(new Counting.Excluded(1, 7, 5));
        assertThat(notes(report))
                .containsExactly(
                        "Crude figures: other factors may explain a difference.",
                        "1 cell of centre, period and device class left out, because cases have no return or outnumber the"
                                + " uses: 7 entrapments and 5 uses not counted here.",
                        "In 2 places of centre, period, device class and level the cases outnumber the uses reported at"
                                + " that level: a case and its return may have been coded differently, so read this split"
                                + " with care.");
        assertThat(report.groups()).extracting(Odds::factor).containsOnly(Factor.CALCIFICATION, Factor.VESSEL);
        assertThat(report.overall())
                .extracting(CrudeReport.Overall::factor)
                .containsExactly(Factor.CALCIFICATION, Factor.VESSEL);
    }

    @Test
    void hasTheFieldsOfTheContract() {
        JsonNode report = json(report(counted("none 0 72", "severe 3 16")));

        assertThat(names(report))
                .containsExactly(
                        "report",
                        "question",
                        "dataCut",
                        "filters",
                        "by",
                        "confidence",
                        "method",
                        "model",
                        "groups",
                        "overall",
                        "excluded",
                        "notes",
                        "cautions");
        assertThat(report.at("/report").stringValue()).isEqualTo("risk-factors");
        assertThat(names(report.at("/groups/0")))
                .contains(
                        "factor",
                        "level",
                        "reference",
                        "events",
                        "uses",
                        "referenceEvents",
                        "referenceUses",
                        "oddsRatio",
                        "lower",
                        "upper",
                        "pValue",
                        "woolf");
        assertThat(names(report.at("/groups/0/woolf")))
                .contains("oddsRatio", "lower", "upper", "haldaneAnscombeApplied");
        assertThat(report.at("/method/code").stringValue()).isEqualTo(Calculation.ODDS_RATIO_LEVELS.code());
        assertThat(report.at("/by").toString()).isEqualTo("[\"calcification\"]");
        assertThat(report.at("/cautions")).hasSize(3);
    }

    @Test
    void writesTheApprovedCsv() {
        List<Counting> countings = List.of(
                withExclusions(
                        counted("none 29 415", "mild 75 355", "moderate 51 138", "severe 45 67", "unknown 3 50"),
                        1,
                        7,
                        5,
                        1),
                withExclusions(counted("0 15 72", "1 0 16", "2-or-more 0 0"), 1, 7, 5, 0),
                withExclusions(counted("lad 0 72", "rca 3 16", "graft 2 1"), 1, 7, 5, 0),
                withExclusions(counted("unknown 9 900"), 1, 7, 5, 0));

        ApprovedFile.assertHolds(
                expected("risk-factors.csv"),
                csv(CrudeReport.of(
                        query(Factor.CALCIFICATION, Factor.STENT_LAYERS, Factor.VESSEL, Factor.TOTAL_OCCLUSION),
                        CUT,
                        countings)));
    }

    private static CrudeReport report(Counting counting) {
        return CrudeReport.of(query(Factor.CALCIFICATION), CUT, List.of(counting));
    }

    private static RiskFactorsQuery query(Factor... factors) {
        return new RiskFactorsQuery(SCOPE, RiskFactorsQuery.Model.CRUDE, List.of(factors), List.of());
    }
}
