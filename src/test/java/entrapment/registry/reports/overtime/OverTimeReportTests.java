package entrapment.registry.reports.overtime;

import static entrapment.registry.reports.question.ReportSamples.CUT;
import static entrapment.registry.reports.question.ReportSamples.SCOPE;
import static entrapment.registry.reports.question.ReportSamples.counted;
import static entrapment.registry.reports.question.ReportSamples.csv;
import static entrapment.registry.reports.question.ReportSamples.expected;
import static entrapment.registry.reports.question.ReportSamples.notes;
import static entrapment.registry.stats.ChartSignal.HIGH;
import static entrapment.registry.stats.ChartSignal.NONE;
import static entrapment.registry.stats.ChartSignal.NO_DATA;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.ApprovedFile;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.reports.overtime.OverTimeQuery.Chart;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.vocabulary.Period;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class OverTimeReportTests {

    /** A rate of 1 in 100 for six quarters, then of 4 in 100. */
    private static final Counting WORSE = counted(
            "2029-Q1 3 300",
            "2029-Q2 3 300",
            "2029-Q3 3 300",
            "2029-Q4 3 300",
            "2030-Q1 3 300",
            "2030-Q2 3 300",
            "2030-Q3 12 300",
            "2030-Q4 12 300");

    private static OverTimeReport report(Chart chart, Counting counting) {
        return OverTimeReport.of(query(chart, null, null), CUT, counting);
    }

    private static OverTimeQuery query(Chart chart, @Nullable Double baseline, @Nullable Period to) {
        return new OverTimeQuery(SCOPE, chart, baseline, null, to, 2, 3.5);
    }

    @Test
    void takesTheEarliestFourQuartersWithTenEventsAsTheBaseline() {
        OverTimeReport report = report(Chart.PROPORTION, WORSE);

        assertThat(report.baseline()).isEqualTo(0.01);
        assertThat(notes(report))
                .anyMatch(note -> note.startsWith("The baseline is 2029-Q1 to 2029-Q4: 12 entrapments"));
    }

    @Test
    void takesTheEarliestYearWithTenEventsAsTheBaselineWhereTheNetworkKeepsYears() {
        OverTimeReport report =
                report(Chart.PROPORTION, counted("2028 9 900", "2029 3 300", "2030 12 1200", "2031 48 1200"));

        assertThat(report.baseline()).isEqualTo(0.01);
        assertThat(notes(report)).anyMatch(note -> note.startsWith("The baseline is 2028 to 2029: 12 entrapments"));
        assertThat(report.groups())
                .extracting(point -> point.level().period() + " " + point.signal())
                .containsExactly("2028 none", "2029 none", "2030 none", "2031 high");
        assertThat(notes(report(Chart.PROPORTION, counted("2029 12 1200", "2030 12 1200"))))
                .anyMatch(note -> note.startsWith("The baseline is 2029: 12 entrapments"));
    }

    /** Limits: qbinom(1 - 0.00135, 300, 0.01) is 9 in R 4.2; a count above it signals. */
    @Test
    void signalsTheQuartersAboveTheExactLimit() {
        OverTimeReport report = report(Chart.PROPORTION, WORSE);

        assertThat(report.groups())
                .extracting(OverTimeReport.Point::signal)
                .containsExactly(NONE, NONE, NONE, NONE, NONE, NONE, HIGH, HIGH);
        assertThat(report.groups().get(0).upper()).isCloseTo(9 / 300.0, within(1e-12));
        assertThat(report.verdict())
                .isEqualTo("Outside the limits: 2030-Q3 high (12 of 300); 2030-Q4 high (12 of 300).");
    }

    @Test
    void findsTheChangeByCusumAndSaysHowOftenChanceWouldDoSo() {
        OverTimeReport report = report(Chart.CUSUM, WORSE);

        assertThat(report.groups()).extracting(OverTimeReport.Point::signal).containsExactly(NONE, NONE, HIGH, HIGH);
        assertThat(report.verdict())
                .startsWith("Signal in 2030-Q3 after event ")
                .contains("By chance alone such a signal comes about once in ")
                .endsWith("Check data and case mix before anything else.");
    }

    /** Statistics, table of 8.4: at R = 2 and h = 3.5 a false alarm about every 121 events, a doubling seen after 14. */
    @Test
    void saysWithoutASignalHowLongAChangeWouldStayUnseen() {
        Counting steady = counted("2029-Q1 3 600", "2029-Q2 3 600", "2029-Q3 3 600", "2029-Q4 3 600", "2030-Q1 3 600");

        OverTimeReport report = report(Chart.CUSUM, steady);

        assertThat(report.groups()).extracting(OverTimeReport.Point::signal).containsExactly(NONE);
        assertThat(report.verdict())
                .startsWith("No signal. By chance alone such a signal comes about once in 12")
                .contains("the chart would notice after about 0.6 years on average");
    }

    @Test
    void saysOfAQuarterWithoutUseThatThereIsNoDataAsTheCalculationsDo() {
        for (Chart chart : new Chart[] {Chart.PROPORTION, Chart.CUSUM}) {
            OverTimeReport report = OverTimeReport.of(
                    query(chart, 0.01, null), CUT, counted("2029-Q1 3 300", "2029-Q2 0 0", "2029-Q3 3 300"));

            assertThat(report.groups()).extracting(OverTimeReport.Point::signal).containsExactly(NONE, NO_DATA, NONE);
            assertThat(csv(report)).containsPattern("\n2029-Q2,0,0,,.*,no data,");
        }
    }

    @Test
    void drawsNoChartWithoutABaseline() {
        for (Chart chart : new Chart[] {Chart.PROPORTION, Chart.CUSUM}) {
            OverTimeReport report = report(chart, counted("2029-Q1 1 300", "2029-Q2 2 300"));

            assertThat(report.baseline()).isNull();
            assertThat(report.groups()).isEmpty();
            assertThat(report.verdict()).startsWith("No baseline of at least ten events");
        }
    }

    @Test
    void holdsTheDataAgainstABaselineThatIsGiven() {
        OverTimeReport report =
                OverTimeReport.of(query(Chart.CUSUM, 0.01, null), CUT, counted("2029-Q1 9 300", "2029-Q2 9 300"));

        assertThat(report.baseline()).isEqualTo(0.01);
        assertThat(report.verdict()).startsWith("Signal in 2029-Q");
    }

    @Test
    void drawsDotsWithoutLimitsBelowTenGaps() {
        OverTimeReport report = report(Chart.BETWEEN_EVENTS, counted("2029-Q1 3 300", "2029-Q2 3 300"));

        assertThat(report.groups()).hasSize(5).allSatisfy(point -> {
            assertThat(point.value()).isEqualTo(99);
            assertThat(point.upper()).isNull();
            assertThat(point.signal()).isEqualTo(NONE);
        });
        assertThat(report.verdict())
                .isEqualTo("49 uses since the last event; fewer than ten gaps, so no limits are drawn.");
    }

    @Test
    void showsTheOpenGapBesideTheLimits() {
        OverTimeReport report = report(Chart.BETWEEN_EVENTS, WORSE);

        assertThat(report.groups()).hasSize(41);
        assertThat(report.openGap()).isEqualTo(12);
        assertThat(notes(report))
                .contains(
                        "The registry keeps quarters or years, not days: the events of a period are placed evenly among its"
                                + " uses, so the order within a period is assumed.")
                .anyMatch(note -> note.contains("(ONE_SIDED)"));
    }

    @Test
    void showsPeopleTheLastEventsOfMany() {
        OverTimeReport report = report(Chart.BETWEEN_EVENTS, counted("2029-Q1 300 9000", "2029-Q2 202 6060"));
        Exhibit chart = report.answer().exhibits().get(0);

        assertThat(report.groups()).hasSize(501);
        assertThat(chart.rows()).hasSize(400);
        assertThat(chart.rows().get(399).get(0)).isEqualTo("502");
        assertThat(chart.figure()).isNotNull().satisfies(figure -> assertThat(figure.items())
                .hasSize(400));
        assertThat(report.answer().notes())
                .contains("Shown are the last 400 of 501 events; of the others none signals. The CSV has all.");
    }

    @Test
    void leavesOutAQuarterThatContradictsItself() {
        OverTimeReport report = report(Chart.PROPORTION, counted("2029-Q1 5 4", "2029-Q2 9 900"));

        assertThat(notes(report)).contains("2029-Q1: left out, because 5 entrapments in 4 uses contradict each other.");
    }

    @Test
    void answersForNothing() {
        OverTimeReport report = report(Chart.CUSUM, counted());

        assertThat(report.groups()).isEmpty();
        assertThat(report.trend().pValue()).isNull();
    }

    @Test
    void writesTheApprovedCsv() {
        ApprovedFile.assertHolds(
                expected("over-time.csv"),
                csv(report(Chart.PROPORTION, WORSE))
                        + csv(report(Chart.BETWEEN_EVENTS, counted("2029-Q1 3 300", "2029-Q2 3 300")))
                        + csv(report(Chart.CUSUM, WORSE)));
    }
}
