package entrapment.registry.reports.riskfactors;

import static entrapment.registry.reports.question.ReportSamples.CUT;
import static entrapment.registry.reports.question.ReportSamples.SCOPE;
import static entrapment.registry.reports.question.ReportSamples.counted;
import static entrapment.registry.reports.question.ReportSamples.json;
import static entrapment.registry.reports.question.ReportSamples.notes;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Comparisons within strata, on hand-made counts. */
class StratifiedReportTests {

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
            SCOPE, RiskFactorsQuery.Model.STRATIFIED, List.of(Factor.TOTAL_OCCLUSION), List.of(GroupBy.CENTRE));

    private static StratifiedReport stratified(Counting counting) {
        return StratifiedReport.of(STRATIFIED, CUT, List.of(counting));
    }

    @Test
    void comparesWithinStrataAsMantelAndHaenszelDid() {
        StratifiedReport report = stratified(ADMISSIONS);

        assertThat(report.groups()).singleElement().satisfies(odds -> {
            assertThat(odds.reference()).isEqualTo(Level.of(Factor.TOTAL_OCCLUSION, "yes"));
            assertThat(odds.oddsRatio()).isCloseTo(1 / 0.9046968, within(1e-6));
            assertThat(odds.shown()).isEqualTo("mantel-haenszel");
            assertThat(odds.informativeStrata()).isEqualTo(6);
        });
        assertThat(notes(report)).anyMatch(note -> note.contains("read the strata, not the summary"));
    }

    @Test
    void showsTheExactLineWhereEventsAreFew() {
        StratifiedReport report = stratified(counted("yes A 2 40", "yes B 1 30", "no A 1 90", "no B 2 80", "no C 1 9"));

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

    @Test
    void answersForNothing() {
        assertThat(stratified(counted()).groups()).isEmpty();
    }
}
