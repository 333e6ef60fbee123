package entrapment.registry.reports.completeness;

import static entrapment.registry.reports.question.ReportSamples.notes;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.ApprovedFile;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.activity.StoredReturn;
import entrapment.registry.cases.CompletenessTally;
import entrapment.registry.cases.CompletenessTally.Unknown;
import entrapment.registry.exports.CsvWriter;
import entrapment.registry.reports.completeness.CompletenessQuestion.Evidence;
import entrapment.registry.reports.completeness.MissingPeriods.NamedPeriod;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.ReportSamples;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.DiscordanceAnalysis.Status;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Limits: R 4.2.2, {@code prop.test(x, n, correct = FALSE)}; the probability of silence by the formula beside it. */
class CompletenessReportTests {

    private static final Viewer ANALYST = ReportSamples.analystOf("north");
    private static final Evidence NOTHING = new Evidence(List.of(), List.of(), List.of(), List.of(), List.of());

    /** {@code "north 2031-Q1 balloon 3"}. */
    private static List<Tally> tallies(String... lines) {
        return Stream.of(lines)
                .map(line -> line.split(" ", -1))
                .map(part -> new Tally(
                        part[0],
                        Period.parse(part[1]).orElseThrow(),
                        part[2],
                        List.of(),
                        true,
                        Long.parseLong(part[3])))
                .toList();
    }

    private static Level deviceClass(String code) {
        return Level.of(Factor.DEVICE_CLASS, code);
    }

    private static List<StoredReturn> returns(String... centresAndPeriods) {
        return Stream.of(centresAndPeriods)
                .map(each -> each.split(" ", -1))
                .map(part -> new StoredReturn(part[0], Period.parse(part[1]).orElseThrow(), 1, 1, 1, 1))
                .toList();
    }

    private static CompletenessTally fields(String centre, String period, long cases, long unknown) {
        Map<String, Unknown> fields = new LinkedHashMap<>();
        fields.put("calcification", new Unknown(unknown, cases));
        fields.put("miDefinition", new Unknown(0, 0));
        fields.put("minutesFromEntrapment", new Unknown(cases, cases));
        return new CompletenessTally(centre, Period.parse(period).orElseThrow(), cases, cases - unknown, 1, fields);
    }

    private static CompletenessReport report(Selection selection, String by, Evidence evidence, Viewer viewer) {
        ReportScope scope = new ReportScope(viewer, selection, Confidence.DEFAULT, null);
        return CompletenessReport.of(
                new CompletenessQuery(scope, by.equals("period") ? GroupBy.PERIOD : GroupBy.CENTRE),
                ReportSamples.CUT,
                evidence);
    }

    private static Evidence some() {
        List<Tally> events = tallies(
                "north 2031-Q1 balloon 8",
                "north 2031-Q3 balloon 2",
                "south 2031-Q1 stent 3",
                "south 2031-Q2 balloon 1");
        return new Evidence(
                List.of(
                        fields("north", "2031-Q1", 8, 3),
                        fields("north", "2031-Q3", 2, 2),
                        fields("south", "2031-Q1", 3, 0),
                        fields("south", "2031-Q2", 1, 1)),
                events,
                tallies(
                        "north 2031-Q1 balloon 4000",
                        "south 2031-Q1 stent 2",
                        "south 2031-Q2 balloon 1000",
                        "west 2031-Q1 balloon 5000"),
                events,
                returns("north 2031-Q1", "south 2031-Q1", "south 2031-Q2", "west 2031-Q1", "west 2031-Q4"));
    }

    /** The same, but that the centre without a case had more of the uses. */
    private static Evidence silentWest() {
        return new Evidence(
                some().fields(),
                some().events(),
                tallies(
                        "north 2031-Q1 balloon 3000",
                        "south 2031-Q1 stent 2",
                        "south 2031-Q2 balloon 1000",
                        "west 2031-Q1 balloon 6000"),
                some().cases(),
                some().returns());
    }

    @Test
    void givesTheShareOfEachFieldThatIsUnknown() {
        CompletenessReport.Group north = report(Selection.ALL, "centre", some(), ReportSamples.STEWARD)
                .groups()
                .get(0);

        assertThat(north.level()).isEqualTo(Levels.of("centre", new Level.OfCentre("north")));
        assertThat(north.cases()).isEqualTo(10);
        assertThat(north.fields().get("calcification"))
                .extracting(ProportionEstimate::events, ProportionEstimate::of)
                .containsExactly(5L, 10L);
        assertThat(Objects.requireNonNull(north.fields().get("miDefinition")).estimate())
                .isNull();
        assertThat(north.complete().events()).isEqualTo(5);
        assertThat(north.withQueries().events()).isEqualTo(2);
        assertThat(north.sentence())
                .startsWith(
                        "5 of 10 cases (50.0 %, 95 % CI 23.7 to 76.3) complete; 2 with a query, 2 beyond the activity"
                                + " returned; 2 of 3 returns missing; most often unknown minutesFromEntrapment (10),"
                                + " calcification (5).");
    }

    @Test
    void listsTheCellsWhoseCasesContradictTheirReturn() {
        BeyondActivity beyond =
                report(Selection.ALL, "centre", some(), ReportSamples.STEWARD).beyondActivity();

        assertThat(beyond.cells()).isEqualTo(2);
        assertThat(beyond.cases()).isEqualTo(5);
        assertThat(beyond.named())
                .containsExactly(
                        new BeyondActivity.NamedCell(
                                "north",
                                new Period(2031, 3),
                                deviceClass("balloon"),
                                2,
                                null,
                                Status.DENOMINATOR_MISSING),
                        new BeyondActivity.NamedCell(
                                "south",
                                new Period(2031, 1),
                                deviceClass("stent"),
                                3,
                                2L,
                                Status.NUMERATOR_EXCEEDS_DENOMINATOR));
    }

    @Test
    void missesThePeriodsBetweenFirstAndLastContribution() {
        CompletenessReport report = report(Selection.ALL, "centre", some(), ReportSamples.STEWARD);

        assertThat(report.missingPeriods().periods()).isEqualTo(4);
        assertThat(report.missingPeriods().named())
                .containsExactly(
                        new NamedPeriod("north", new Period(2031, 2)),
                        new NamedPeriod("north", new Period(2031, 3)),
                        new NamedPeriod("west", new Period(2031, 2)),
                        new NamedPeriod("west", new Period(2031, 3)));
    }

    @Test
    void missesOnlyPeriodsThatAreAskedFor() {
        Selection second = new Selection(List.of(), new Period(2031, 2), new Period(2031, 2), Map.of());
        Evidence evidence = new Evidence(List.of(), List.of(), List.of(), some().cases(), some().returns());

        CompletenessReport report = report(second, "period", evidence, ReportSamples.STEWARD);

        assertThat(report.missingPeriods().periods()).isEqualTo(2);
        assertThat(report.groups()).singleElement().satisfies(group -> {
            assertThat(group.level()).isEqualTo(Levels.of("period", ReportSamples.level("2031-Q2")));
            assertThat(group.periods()).isEqualTo(new CompletenessReport.Periods(2, 3));
            assertThat(group.sentence()).isEqualTo("No case; 2 of 3 returns missing.");
        });
    }

    /** 9 balloons in 10,000 uses of cells that hold together; (1 − 0.0009)^5000 = 0.01109, (1 − 0.0009)^6000 = 0.0045. */
    @Test
    void asksACentreWhetherItsSilenceIsChance() {
        CompletenessReport few = report(Selection.ALL, "centre", some(), ReportSamples.STEWARD);
        assertThat(Objects.requireNonNull(few.silentCentres()).named()).isEmpty();

        SilentCentres silent =
                Objects.requireNonNull(report(Selection.ALL, "centre", silentWest(), ReportSamples.STEWARD)
                        .silentCentres());

        assertThat(silent.named()).singleElement().satisfies(west -> {
            assertThat(west.centre()).isEqualTo("west");
            assertThat(west.expected()).isCloseTo(5.4, within(1e-12));
            assertThat(west.probability()).isCloseTo(Math.pow(1 - 0.0009, 6000), within(1e-12));
            assertThat(west.question()).endsWith("Is every case being reported?");
        });
        SilentCentres masked = Objects.requireNonNull(
                report(Selection.ALL, "centre", silentWest(), ANALYST).silentCentres());
        assertThat(masked.centres()).isEqualTo(1);
        assertThat(masked.named()).isEmpty();
    }

    @Test
    void doesNotJudgeSilenceForAKeyThatSeesOneCentre() {
        CompletenessReport report = report(Selection.ALL, "centre", some(), new Viewer("key", Role.SUBMITTER, "north"));

        assertThat(report.silentCentres()).isNull();
        assertThat(notes(report)).anyMatch(note -> note.contains("which this key does not see"));
    }

    @Test
    void namesToAnAnalystTheOwnCentreAlone() {
        CompletenessReport report = report(Selection.ALL, "centre", some(), ANALYST);

        assertThat(report.groups())
                .extracting(group -> group.level().codes())
                .containsExactly("north", "other-centres");
        assertThat(report.beyondActivity().cells()).isEqualTo(2);
        assertThat(report.beyondActivity().named()).hasSize(1);
        assertThat(report.missingPeriods().periods()).isEqualTo(4);
        assertThat(report.missingPeriods().named()).hasSize(2);
        assertThat(CsvWriter.write(report.table(), true))
                .doesNotContain("south")
                .doesNotContain("west");
        CompletenessReport byPeriod = report(Selection.ALL, "period", some(), ANALYST);
        assertThat(CsvWriter.write(byPeriod.table(), true))
                .doesNotContain("south")
                .doesNotContain("west");
    }

    @Test
    void saysThatNothingMatches() {
        CompletenessReport report = report(Selection.ALL, "centre", NOTHING, ReportSamples.STEWARD);

        assertThat(report.groups()).isEmpty();
        assertThat(report.table().rows()).isEmpty();
        assertThat(notes(report)).contains("Nothing in the registry matches these filters.");
        assertThat(report.cautions()).isEqualTo(ReportHeading.CAUTIONS);
    }

    @Test
    void writesARowForEachMeasureAndForWhatToLookAt() {
        String csv = ReportSamples.csv(report(Selection.ALL, "centre", silentWest(), ReportSamples.STEWARD));

        ApprovedFile.assertHolds(ReportSamples.expected("completeness.csv"), csv);
    }
}
