package entrapment.registry.reports.betweencentres;

import static entrapment.registry.reports.question.ReportSamples.CUT;
import static entrapment.registry.reports.question.ReportSamples.STEWARD;
import static entrapment.registry.reports.question.ReportSamples.analystOf;
import static entrapment.registry.reports.question.ReportSamples.counted;
import static entrapment.registry.reports.question.ReportSamples.json;
import static entrapment.registry.reports.question.ReportSamples.notes;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.access.Viewer;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.vocabulary.Factor;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The comparison of centres, on hand-made counts. */
class BetweenCentresReportTests {

    private static final Counting CENTRES =
            counted("east 4 1000", "north 30 1200", "south 0 90", "west 9 1500", "mid 8 1400", "far 0 1900");

    private static BetweenCentresReport centres(Counting counting, GroupBy... adjustFor) {
        return centres(STEWARD, counting, adjustFor);
    }

    private static BetweenCentresReport centres(Viewer viewer, Counting counting, GroupBy... adjustFor) {
        return BetweenCentresReport.of(
                new BetweenCentresQuery(ReportScope.of(viewer), List.of(adjustFor)), CUT, counting, 5);
    }

    @Test
    void flagsCentresByExactTailsInTheOrderOfTheirNames() {
        BetweenCentresReport report = centres(CENTRES);

        assertThat(report.groups())
                .extracting(point -> point.level().codes() + " " + point.flag())
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
        BetweenCentresReport report = centres(
                counted("north none 1 100", "north severe 9 300", "south none 2 200", "south severe 3 100"),
                GroupBy.of(Factor.CALCIFICATION));

        assertThat(report.groups().get(0).expected()).isCloseTo(1 + 9, within(1e-9));
        assertThat(report.groups().get(0).observedOverExpected().estimate()).isCloseTo(1, within(1e-9));
    }

    @Test
    void givesAnAnalystNumbersInsteadOfTheNamesOfOtherCentres() {
        BetweenCentresReport report = centres(analystOf("north"), CENTRES);

        assertThat(json(report).toString()).doesNotContain("east", "south", "west", "mid\"", "far");
        assertThat(report.groups())
                .extracting(point -> point.level().codes())
                .containsExactly("centre-1", "centre-2", "centre-3", "centre-4", "centre-5", "north");
    }

    @Test
    void hidesFromAnAnalystTheSmallCountsOfOthersAndWhatWouldGiveThemAway() {
        BetweenCentresReport report = centres(analystOf("north"), CENTRES);

        List<CentrePoint> hidden =
                report.groups().stream().filter(CentrePoint::suppressed).toList();
        assertThat(hidden).extracting(CentrePoint::uses).containsExactlyInAnyOrder(1000L, 1400L);
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
        assertThat(notes(report)).anyMatch(note -> note.startsWith("Of 2 other centres the counts are hidden"));
    }

    @Test
    void saysWhereTooFewCentresHideTheSmallCountOfAnother() {
        BetweenCentresReport report = centres(analystOf("north"), counted("north 30 1200", "south 3 900"));

        assertThat(notes(report)).anyMatch(note -> note.contains("the rate of all still tells"));
    }

    @Test
    void givesNoRateAllowingForChanceFromFewCentres() {
        BetweenCentresReport report = centres(counted("north 30 1200", "south 9 1500"));

        assertThat(report.groups())
                .allSatisfy(point -> assertThat(point.shrunken().estimate()).isNull());
        assertThat(notes(report)).contains("No rate allowing for chance: that needs five centres and ten events.");
    }

    @Test
    void answersForNothing() {
        assertThat(centres(counted()).groups()).isEmpty();
    }
}
