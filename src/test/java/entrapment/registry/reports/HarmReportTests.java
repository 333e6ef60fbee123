package entrapment.registry.reports;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.ApprovedFile;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.OutcomeTally;
import entrapment.registry.stats.MissingOutcomeBoundsAnalysis;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Tally;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Interval limits: R 4.2.2, {@code prop.test(x, n, correct = FALSE)}. */
class HarmReportTests {

    private static final GroupBy DEVICE_CLASS = GroupBy.of(Factor.DEVICE_CLASS);
    private static final GroupBy CENTRE = GroupBy.CENTRE;

    /** {@code "north balloon harm severe 3"}. */
    static List<OutcomeTally> outcomes(String... lines) {
        return Stream.of(lines)
                .map(line -> line.split(" ", -1))
                .map(part -> new OutcomeTally(
                        new Tally(
                                part[0], new Period(2031, 1), part[1], List.of(part[1]), true, Long.parseLong(part[4])),
                        part[2],
                        part[3]))
                .toList();
    }

    private static final List<OutcomeTally> SOME = outcomes(
            "north balloon harm none 30",
            "north balloon harm mild 6",
            "south balloon harm severe 2",
            "north balloon harm death 3",
            "north balloon complications in-hospital-death 3",
            "south balloon complications tamponade 2",
            "north balloon perforation none 31",
            "south balloon perforation III 1",
            "north balloon perforation III-cavity 1",
            "north balloon perforation I 6",
            "north balloon perforation unknown 2",
            "north balloon fragment none 39",
            "north balloon fragment stented-over 1",
            "south balloon fragment in-aorta 1",
            "north balloon release intact 39",
            "south balloon release none 2",
            "south stent harm none 1",
            "south stent perforation unknown 1",
            "south stent fragment unknown 1",
            "south stent release intact 1");

    private static HarmReport report(List<OutcomeTally> tallies, Viewer viewer, GroupBy... by) {
        return HarmReport.of(new HarmQuery(ReportSamples.SCOPE, List.of(by)), ReportSamples.CUT, tallies, viewer);
    }

    @Test
    void givesEachDegreeOfHarmItsShareOfTheCases() {
        HarmReport.Cost balloon =
                report(SOME, ReportSamples.STEWARD, DEVICE_CLASS).groups().get(0);

        assertThat(balloon.level()).isEqualTo(Map.of("deviceClass", "balloon"));
        assertThat(balloon.cases()).isEqualTo(41);
        assertThat(balloon.harm()).containsOnlyKeys("none", "mild", "moderate", "severe", "death");
        Occurrence death = Objects.requireNonNull(balloon.harm().get("death"));
        assertThat(death.events()).isEqualTo(3);
        assertThat(death.of()).isEqualTo(41);
        assertThat(death.lower()).isCloseTo(0.02519783063, within(1e-10));
        assertThat(death.upper()).isCloseTo(0.1942744854, within(1e-10));
        assertThat(balloon.sentence())
                .isEqualTo(
                        "Harm: death 3 of 41 cases (7.3 %, 95 % CI 2.5 to 19.4); severe 2 of 41 cases (4.9 %, 95 % CI 1.3"
                                + " to 16.1). perforation-iii unknown in 2 cases: whatever the unknown ones were,"
                                + " between 4.9 and 9.8 % of all cases.");
    }

    @Test
    void countsTypeThreeWithAndWithoutCavityAndLeavesTheUnknownOut() {
        HarmReport report = report(SOME, ReportSamples.STEWARD, DEVICE_CLASS);
        HarmReport.Cost balloon = report.groups().get(0);

        assertThat(balloon.emergencies().get("perforation-iii"))
                .extracting(Occurrence::events, Occurrence::of)
                .containsExactly(2L, 39L);
        assertThat(balloon.emergencies().get("fragment-left"))
                .extracting(Occurrence::events, Occurrence::of)
                .containsExactly(2L, 41L);
        assertThat(balloon.emergencies().get("not-released"))
                .extracting(Occurrence::events, Occurrence::of)
                .containsExactly(2L, 41L);
        assertThat(balloon.unknown()).isEqualTo(Map.of("perforation-iii", 2L));
        assertThat(report.notes())
                .contains(
                        "perforation-iii: unknown in 3 of 42 cases, left out of its denominator: whatever the unknown"
                                + " ones were, between 4.8 and 11.9 % of all cases.",
                        "perforation-iii: More outcomes are unknown than events are known: read the bounds, not the"
                                + " single figure. (MISSING_OUTCOMES)",
                        "fragment-left: unknown in 1 of 42 cases, left out of its denominator: whatever the unknown"
                                + " ones were, between 4.8 and 7.1 % of all cases.");
    }

    /** The envelope: R 4.2.2, lower limit of {@code prop.test(2, 41)}, upper limit of {@code prop.test(4, 41)}. */
    @Test
    void saysBetweenWhichSharesAnEmergencyLiesWhateverTheUnknownOnesWere() {
        HarmReport.Cost balloon =
                report(SOME, ReportSamples.STEWARD, DEVICE_CLASS).groups().get(0);

        assertThat(balloon.bounds()).containsOnlyKeys("perforation-iii");
        MissingOutcomeBoundsAnalysis bounds =
                Objects.requireNonNull(balloon.bounds().get("perforation-iii"));
        assertThat(bounds.lowestPossible()).isCloseTo(2 / 41.0, within(1e-12));
        assertThat(bounds.highestPossible()).isCloseTo(4 / 41.0, within(1e-12));
        assertThat(bounds.envelope().lower()).isCloseTo(0.01348094537, within(1e-10));
        assertThat(bounds.envelope().upper()).isCloseTo(0.2254768130552, within(1e-10));
    }

    @Test
    void givesNoShareWhereAllIsUnknown() {
        HarmReport.Cost stent =
                report(SOME, ReportSamples.STEWARD, DEVICE_CLASS).groups().get(1);

        assertThat(stent.emergencies().get("perforation-iii")).isEqualTo(new Occurrence(0, 0, null, null, null));
        assertThat(stent.unknown()).isEqualTo(Map.of("perforation-iii", 1L, "fragment-left", 1L));
        assertThat(stent.bounds().values())
                .extracting(MissingOutcomeBoundsAnalysis::lowestPossible, MissingOutcomeBoundsAnalysis::highestPossible)
                .containsExactly(tuple(0.0, 1.0), tuple(0.0, 1.0));
    }

    @Test
    void saysOfOneCaseHowLittleItTells() {
        HarmReport.Cost stent =
                report(SOME, ReportSamples.STEWARD, DEVICE_CLASS).groups().get(1);

        assertThat(Objects.requireNonNull(stent.harm().get("none")).lower()).isCloseTo(0.2065493144, within(1e-10));
        assertThat(stent.sentence())
                .isEqualTo(
                        "Harm: death 0 of 1 case (the data still fit up to 95.0 %); severe 0 of 1 case (the data still"
                                + " fit up to 95.0 %). perforation-iii unknown in 1 case: whatever the unknown ones"
                                + " were, between 0 and 100 % of all cases. fragment-left unknown in 1 case: whatever"
                                + " the unknown ones were, between 0 and 100 % of all cases.");
    }

    @Test
    void saysThatNothingMatches() {
        HarmReport report = report(List.of(), ReportSamples.STEWARD);

        assertThat(report.groups()).isEmpty();
        assertThat(report.table().rows()).isEmpty();
        assertThat(report.notes()).contains("Nothing in the registry matches these filters.");
        assertThat(report.cautions()).isEqualTo(ReportHeading.CAUTIONS);
    }

    @Test
    void poolsTheCentresThatAnAnalystMayNotSee() {
        HarmReport report = report(SOME, ReportSamples.analystOf("north"), CENTRE);

        assertThat(report.groups())
                .extracting(group -> group.level().get("centre"), HarmReport.Cost::cases)
                .containsExactlyInAnyOrder(tuple("north", 39L), tuple("other-centres", 3L));
    }

    @Test
    void writesARowForEachOutcomeOfAGroup() {
        String csv = ReportSamples.csv(report(SOME, ReportSamples.STEWARD, DEVICE_CLASS));

        ApprovedFile.assertHolds(ReportSamples.expected("harm.csv"), csv);
    }
}
