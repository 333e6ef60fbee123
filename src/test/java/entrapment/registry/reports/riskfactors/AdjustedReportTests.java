package entrapment.registry.reports.riskfactors;

import static entrapment.registry.reports.question.ReportSamples.CUT;
import static entrapment.registry.reports.question.ReportSamples.SCOPE;
import static entrapment.registry.reports.question.ReportSamples.counted;
import static entrapment.registry.reports.question.ReportSamples.json;
import static entrapment.registry.reports.question.ReportSamples.notes;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.vocabulary.Factor;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The model that allows for other factors, on hand-made counts. */
class AdjustedReportTests {

    private static RiskFactorsQuery adjusted(Factor... factors) {
        return new RiskFactorsQuery(SCOPE, RiskFactorsQuery.Model.ADJUSTED, List.of(factors), List.of());
    }

    /** With one factor of two levels Firth's estimate is the log odds ratio with ½ in each cell (Firth 1993). */
    @Test
    void adjustsByFirthsPenaltyWhichForOneFactorAddsHalves() {
        AdjustedReport report =
                AdjustedReport.of(adjusted(Factor.TOTAL_OCCLUSION), CUT, counted("yes north 7 34", "no north 1 34"));

        double withHalves = 7.5 * 33.5 / (27.5 * 1.5);
        assertThat(report.groups()).singleElement().satisfies(odds -> assertThat(
                        Math.abs(Math.log(odds.oddsRatio() == null ? 0 : odds.oddsRatio())))
                .isCloseTo(Math.log(withHalves), within(1e-6)));
        assertThat(report.centres()).isEqualTo("not in the model");
    }

    @Test
    void namesSeparationAndStillGivesLimits() {
        AdjustedReport report =
                AdjustedReport.of(adjusted(Factor.TOTAL_OCCLUSION), CUT, counted("no north 12 400", "yes north 0 60"));

        assertThat(report.separation()).isEqualTo("quasi-complete");
        assertThat(report.groups().get(0).upper()).isNotNull();
        assertThat(notes(report)).anyMatch(note -> note.contains("(SEPARATION)"));
    }

    @Test
    void refusesAModelOfManyFactorsFromFewEvents() {
        AdjustedReport report = AdjustedReport.of(
                adjusted(Factor.TOTAL_OCCLUSION, Factor.CALCIFICATION),
                CUT,
                counted("yes none north 1 40", "no none north 1 90", "yes mild north 1 30", "no severe north 1 50"));

        assertThat(report.groups()).isNotEmpty().allSatisfy(odds -> assertThat(odds.oddsRatio())
                .isNull());
        assertThat(notes(report)).anyMatch(note -> note.contains("(TOO_FEW_EVENTS)"));
    }

    @Test
    void tellsWhatWasDroppedForUnknownValuesAndItsRate() {
        AdjustedReport report = AdjustedReport.of(
                adjusted(Factor.TOTAL_OCCLUSION),
                CUT,
                counted("yes north 7 34", "no north 1 34", "unknown north 3 60"));

        assertThat(report.dropped()).isEqualTo(new AdjustedReport.Dropped(3, 60, 0.05));
        assertThat(notes(report)).contains("Left out for unknown values: 3 entrapments in 60 uses, 50.0 per 1,000.");
    }

    @Test
    void holdsCentreEqualWhereFewCentresHaveEventsEach() {
        AdjustedReport report = AdjustedReport.of(
                adjusted(Factor.TOTAL_OCCLUSION),
                CUT,
                counted("yes north 7 90", "no north 6 300", "yes south 9 90", "no south 8 300"));

        assertThat(report.centres()).isEqualTo("columns");
        assertThat(json(report).toString()).doesNotContain("north", "south");
    }

    @Test
    void answersForNothing() {
        assertThat(AdjustedReport.of(adjusted(Factor.VESSEL), CUT, counted()).groups())
                .isEmpty();
    }
}
