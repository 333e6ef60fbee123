package entrapment.registry.reports.incidence;

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
import entrapment.registry.reports.incidence.IncidenceReport.Rate;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

/**
 * Intervals for comparison: Newcombe RG, Stat Med 1998;17:857, Table I (81 of 263, 15 of 148, 0 of 20, 1 of 29), and the
 * rows of the same counts in reference-values.json.
 */
class IncidenceReportTests {

    private static final IncidenceQuery BY_CALCIFICATION =
            new IncidenceQuery(SCOPE, List.of(GroupBy.of(Factor.CALCIFICATION)), IntervalMethod.WILSON);

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "15|148|15 entrapments in 148 uses: 101.4 per 1,000 (95 % CI 62.4 to 160.5).",
                "81|263|81 entrapments in 263 uses: 308.0 per 1,000 (95 % CI 255.3 to 366.2).",
                "1|29|1 entrapment in 29 uses: 34.5 per 1,000 (95 % CI 6.1 to 171.8).",
                "7|1842|7 entrapments in 1,842 uses: 3.8 per 1,000 (95 % CI 1.8 to 7.8).",
                "1|1|1 entrapment in 1 use: 1000.0 per 1,000 (95 % CI 206.5 to 1000.0).",
                "0|20|No entrapment in 20 uses; the data still fit a true rate of up to 139.1 per 1,000 (about 1 in 7).",
                "0|3000|No entrapment in 3,000 uses; the data still fit a true rate of up to 1.00 per 1,000 (about 1 in 1,002).",
                "0|1|No entrapment in 1 use; the data still fit a true rate of up to 950.0 per 1,000 (about 1 in 1).",
                "0|0|No use was reported, so no rate can be given.",
                "3|2|3 entrapments in 2 uses: these contradict each other, so no rate is given.",
                "1|0|1 entrapment in 0 uses: these contradict each other, so no rate is given."
            })
    void saysItInASentence(long events, long uses, String sentence) {
        assertThat(rate(BY_CALCIFICATION, events, uses).sentence()).isEqualTo(sentence);
    }

    @Test
    void givesProportionsWithTheirLimits() {
        Rate rate = rate(BY_CALCIFICATION, 15, 148);

        assertThat(rate.level()).isEqualTo(Levels.of("calcification", Level.of(Factor.CALCIFICATION, "severe")));
        assertThat(rate.events()).isEqualTo(15);
        assertThat(rate.uses()).isEqualTo(148);
        assertThat(rate.estimate()).isCloseTo(15.0 / 148, within(1e-15));
        assertThat(rate.lower()).isCloseTo(0.0623863995307363, within(1e-12));
        assertThat(rate.upper()).isCloseTo(0.160487241723308, within(1e-12));
        assertThat(rate.upperBoundIfNone()).isNull();
    }

    @Test
    void givesAnUpperBoundWhereNothingHappened() {
        Rate rate = rate(BY_CALCIFICATION, 0, 20);

        assertThat(rate.estimate()).isZero();
        assertThat(rate.lower()).isZero();
        assertThat(rate.upper()).isCloseTo(0.161125158052819, within(1e-12));
        assertThat(rate.upperBoundIfNone()).isCloseTo(0.139108340668265, within(1e-12));
    }

    @ParameterizedTest
    @CsvSource({"0, 0", "3, 2", "1, 0"})
    void givesNoEstimateWithoutUsesOrWithFewerUsesThanEvents(long events, long uses) {
        Rate rate = rate(BY_CALCIFICATION, events, uses);

        assertThat(rate.estimate()).isNull();
        assertThat(rate.lower()).isNull();
        assertThat(rate.upper()).isNull();
        assertThat(rate.upperBoundIfNone()).isNull();
        assertThat(rate.events()).isEqualTo(events);
        assertThat(rate.uses()).isEqualTo(uses);
    }

    /** Clopper-Pearson and Jeffreys from reference-values.json; at 90 per cent, R: prop.test(81, 263, conf.level = 0.9, correct = FALSE). */
    @Test
    void usesTheMethodAndTheLevelThatWereAskedFor() {
        Rate exact = rate(method(IntervalMethod.CLOPPER_PEARSON, 0.95), 81, 263);
        Rate jeffreys = rate(method(IntervalMethod.JEFFREYS, 0.95), 81, 263);
        Rate ninety = rate(method(IntervalMethod.WILSON, 0.9), 81, 263);

        assertThat(exact.lower()).isCloseTo(0.252736745585271, within(1e-11));
        assertThat(exact.upper()).isCloseTo(0.367621922601351, within(1e-11));
        assertThat(jeffreys.lower()).isCloseTo(0.254521934991023, within(1e-11));
        assertThat(ninety.lower()).isCloseTo(0.263313617188481, within(1e-9));
        assertThat(ninety.upper()).isCloseTo(0.356566349608488, within(1e-9));
        assertThat(ninety.sentence()).contains(" (90 % CI ");
    }

    private static IncidenceQuery method(IntervalMethod method, double level) {
        return new IncidenceQuery(
                new ReportScope(STEWARD, Selection.ALL, new Confidence(level), null),
                List.of(GroupBy.of(Factor.CALCIFICATION)),
                method);
    }

    @Test
    void quotesTheMethodItUsed() {
        for (IntervalMethod method : IntervalMethod.values()) {
            IncidenceReport report = IncidenceReport.of(method(method, 0.95), CUT, counted("severe 1 9"));

            assertThat(report.heading().method()).isEqualTo(method.method());
        }
    }

    @Test
    void showsTheUnknownLevelLikeAnyOther() {
        assertThat(IncidenceReport.of(BY_CALCIFICATION, CUT, counted("severe 1 9", "unknown 2 50"))
                        .groups())
                .extracting(Rate::sentence)
                .last()
                .asString()
                .startsWith("2 entrapments in 50 uses: 40.0 per 1,000");
    }

    @Test
    void saysWhatWasLeftOutAndWhereLevelsContradictEachOther() {
        assertThat(notes(IncidenceReport.of(
                        BY_CALCIFICATION, CUT, withExclusions(counted("none 1 9", "mild 0 0"), 2, 31, 1_204, 3))))
                .containsExactly(
                        "2 cells of centre, period and device class left out, because cases have no return or outnumber the"
                                + " uses: 31 entrapments and 1,204 uses not counted here.",
                        "In 3 places of centre, period, device class and level the cases outnumber the uses reported at"
                                + " that level: a case and its return may have been coded differently, so read this split"
                                + " with care.",
                        "A group without uses has no rate.");
        assertThat(notes(IncidenceReport.of(BY_CALCIFICATION, CUT, withExclusions(counted("none 1 9"), 1, 1, 1, 1))))
                .containsExactly(
                        "1 cell of centre, period and device class left out, because cases have no return or outnumber the"
                                + " uses: 1 entrapment and 1 use not counted here.",
                        "In 1 place of centre, period, device class and level the cases outnumber the uses reported at"
                                + " that level: a case and its return may have been coded differently, so read this split"
                                + " with care.");
        assertThat(notes(IncidenceReport.of(BY_CALCIFICATION, CUT, counted("none 1 9"))))
                .isEmpty();
    }

    @Test
    void doesNotSayThatNothingMatchesWhereAllWasLeftOut() {
        assertThat(notes(IncidenceReport.of(BY_CALCIFICATION, CUT, withExclusions(counted(), 1, 2, 0, 0))))
                .singleElement()
                .asString()
                .startsWith("1 cell of centre");
    }

    @Test
    void neverWritesAPositiveRateAsNought() {
        assertThat(rate(BY_CALCIFICATION, 1, 1_000_000).sentence()).doesNotContain("0.00 per 1,000", "CI 0.00 ");
    }

    @Test
    void saysThatNothingMatches() {
        IncidenceReport report = IncidenceReport.of(BY_CALCIFICATION, CUT, counted());

        assertThat(report.groups()).isEmpty();
        assertThat(notes(report)).containsExactly("Nothing in the registry matches these filters.");
        assertThat(CsvWriter.write(report.table(), false))
                .isEqualTo("calcification,events,uses,estimate,lower,upper,perThousand,perThousandLower,"
                        + "perThousandUpper,sentence\r\n");
    }

    @Test
    void hasTheFieldsOfTheContract() {
        IncidenceQuery query = new IncidenceQuery(
                new ReportScope(
                        STEWARD,
                        new Selection(
                                List.of("north"),
                                new Period(2030, 1),
                                new Period(2031, 1),
                                Map.of(Factor.DEVICE_CLASS, List.of("rotational-burr"))),
                        Confidence.DEFAULT,
                        812L),
                List.of(GroupBy.of(Factor.CALCIFICATION), GroupBy.YEAR),
                IntervalMethod.WILSON);

        JsonNode report = json(IncidenceReport.of(
                query,
                CUT,
                new Counting(
                        List.of(new Counting.Group(
                                List.of(Level.of(Factor.CALCIFICATION, "severe"), new Level.OfYear(2031)), 7, 1842)),
                        new Counting.Excluded(1, 2, 3),
                        0)));

        assertThat(names(report))
                .containsExactly(
                        "report",
                        "question",
                        "dataCut",
                        "filters",
                        "by",
                        "confidence",
                        "method",
                        "groups",
                        "excluded",
                        "notes",
                        "cautions");
        assertThat(names(report.at("/groups/0")))
                .containsExactly(
                        "level", "events", "uses", "estimate", "lower", "upper", "upperBoundIfNone", "sentence");
        assertThat(report.at("/report").stringValue()).isEqualTo("incidence");
        assertThat(report.at("/dataCut").toString()).isEqualTo("{\"revision\":812,\"at\":\"2031-04-02T08:30:00Z\"}");
        assertThat(report.at("/filters").toString())
                .isEqualTo("{\"centre\":[\"north\"],\"from\":\"2030-Q1\",\"to\":\"2031-Q1\","
                        + "\"deviceClass\":[\"rotational-burr\"]}");
        assertThat(report.at("/by").toString()).isEqualTo("[\"calcification\",\"year\"]");
        assertThat(report.at("/confidence").doubleValue()).isEqualTo(0.95);
        assertThat(names(report.at("/method"))).containsExactly("code", "name", "citation");
        assertThat(report.at("/groups/0/level").toString())
                .isEqualTo("{\"calcification\":\"severe\",\"year\":\"2031\"}");
        assertThat(report.at("/excluded").toString()).isEqualTo("{\"cells\":1,\"events\":2,\"uses\":3}");
    }

    @Test
    void carriesEveryCaution() {
        assertThat(IncidenceReport.of(BY_CALCIFICATION, CUT, counted()).cautions())
                .containsExactly(
                        "Retrospective registry data: associations in recorded cases, not proof of cause.",
                        "Not advice during a procedure: local protocols, the device's instructions for use and the licensed"
                                + " operator decide.",
                        "Small numbers mislead: read the counts and the interval, not the estimate alone.");
    }

    @Test
    void writesTheApprovedCsv() {
        ApprovedFile.assertHolds(expected("incidence.csv"), csv(approved()));
    }

    @Test
    void writesLinesForATerminal() {
        assertThat(approved().asText())
                .containsExactly(
                        "How often is a device entrapped? (revision 812)",
                        "  none                 15 entrapments in 148 uses: 101.4 per 1,000 (95 % CI 62.4 to 160.5).",
                        "  mild                 No entrapment in 20 uses; the data still fit a true rate of up to 139.1 per"
                                + " 1,000 (about 1 in 7).",
                        "  moderate             No use was reported, so no rate can be given.",
                        "  severe               3 entrapments in 2 uses: these contradict each other, so no rate is given.",
                        "  unknown              7 entrapments in 1,842 uses: 3.8 per 1,000 (95 % CI 1.8 to 7.8).",
                        "  Note: " + notes(approved()).get(0),
                        "  Note: " + notes(approved()).get(1),
                        "  Note: A group without uses has no rate.",
                        "  Caution: " + ReportHeading.CAUTIONS.get(0),
                        "  Caution: " + ReportHeading.CAUTIONS.get(1),
                        "  Caution: " + ReportHeading.CAUTIONS.get(2));
    }

    private static IncidenceReport approved() {
        return IncidenceReport.of(
                BY_CALCIFICATION,
                CUT,
                withExclusions(
                        counted("none 15 148", "mild 0 20", "moderate 0 0", "severe 3 2", "unknown 7 1842"),
                        1,
                        2,
                        0,
                        1));
    }

    private static Rate rate(IncidenceQuery query, long events, long uses) {
        return IncidenceReport.of(query, CUT, counted("severe " + events + " " + uses))
                .groups()
                .get(0);
    }
}
