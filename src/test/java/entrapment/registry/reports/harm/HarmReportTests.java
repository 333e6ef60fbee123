package entrapment.registry.reports.harm;

import static entrapment.registry.reports.question.ReportSamples.notes;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.ApprovedFile;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.OutcomeTally;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.ReportSamples;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.MissingOutcomeBoundsAnalysis;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Harm;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import entrapment.registry.vocabulary.Selection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** Interval limits: R 4.2.2, {@code prop.test(x, n, correct = FALSE)}. */
class HarmReportTests {

    private static final GroupBy DEVICE_CLASS = GroupBy.of(Factor.DEVICE_CLASS);
    private static final GroupBy CENTRE = GroupBy.CENTRE;

    private static final List<OutcomeTally> SOME = ReportSamples.outcomes(
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
        ReportScope scope = new ReportScope(viewer, Selection.ALL, Confidence.DEFAULT, null);
        return HarmReport.of(new HarmQuery(scope, List.of(by)), ReportSamples.CUT, tallies);
    }

    @Test
    void givesEachDegreeOfHarmItsShareOfTheCases() {
        HarmReport.Cost balloon =
                report(SOME, ReportSamples.STEWARD, DEVICE_CLASS).groups().get(0);

        assertThat(balloon.level()).isEqualTo(Levels.of("deviceClass", Level.of(Factor.DEVICE_CLASS, "balloon")));
        assertThat(balloon.cases()).isEqualTo(41);
        assertThat(balloon.harm()).containsOnlyKeys(Harm.NONE, Harm.MILD, Harm.MODERATE, Harm.SEVERE, Harm.DEATH);
        ProportionEstimate death = Objects.requireNonNull(balloon.harm().get(Harm.DEATH));
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

        assertThat(balloon.emergencies().get(Emergency.PERFORATION_III))
                .extracting(ProportionEstimate::events, ProportionEstimate::of)
                .containsExactly(2L, 39L);
        assertThat(balloon.emergencies().get(Emergency.FRAGMENT_LEFT))
                .extracting(ProportionEstimate::events, ProportionEstimate::of)
                .containsExactly(2L, 41L);
        assertThat(balloon.emergencies().get(Emergency.NOT_RELEASED))
                .extracting(ProportionEstimate::events, ProportionEstimate::of)
                .containsExactly(2L, 41L);
        assertThat(balloon.unknown()).isEqualTo(Map.of(Emergency.PERFORATION_III, 2L));
        assertThat(notes(report))
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

        assertThat(balloon.bounds()).containsOnlyKeys(Emergency.PERFORATION_III);
        MissingOutcomeBoundsAnalysis bounds =
                Objects.requireNonNull(balloon.bounds().get(Emergency.PERFORATION_III));
        assertThat(bounds.lowestPossible()).isCloseTo(2 / 41.0, within(1e-12));
        assertThat(bounds.highestPossible()).isCloseTo(4 / 41.0, within(1e-12));
        assertThat(bounds.envelope().lower()).isCloseTo(0.01348094537, within(1e-10));
        assertThat(bounds.envelope().upper()).isCloseTo(0.2254768130552, within(1e-10));
    }

    @Test
    void givesNoShareWhereAllIsUnknown() {
        HarmReport.Cost stent =
                report(SOME, ReportSamples.STEWARD, DEVICE_CLASS).groups().get(1);

        assertThat(stent.emergencies().get(Emergency.PERFORATION_III))
                .isEqualTo(new ProportionEstimate(0, 0, null, null, null));
        assertThat(stent.unknown()).isEqualTo(Map.of(Emergency.PERFORATION_III, 1L, Emergency.FRAGMENT_LEFT, 1L));
        assertThat(stent.bounds().values())
                .extracting(MissingOutcomeBoundsAnalysis::lowestPossible, MissingOutcomeBoundsAnalysis::highestPossible)
                .containsExactly(tuple(0.0, 1.0), tuple(0.0, 1.0));
    }

    @Test
    void saysOfOneCaseHowLittleItTells() {
        HarmReport.Cost stent =
                report(SOME, ReportSamples.STEWARD, DEVICE_CLASS).groups().get(1);

        assertThat(Objects.requireNonNull(stent.harm().get(Harm.NONE)).lower()).isCloseTo(0.2065493144, within(1e-10));
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
        assertThat(notes(report)).contains("Nothing in the registry matches these filters.");
        assertThat(report.cautions()).isEqualTo(ReportHeading.CAUTIONS);
    }

    @Test
    void poolsTheCentresThatAnAnalystMayNotSee() {
        HarmReport report = report(SOME, ReportSamples.analystOf("north"), CENTRE);

        assertThat(report.groups())
                .extracting(group -> group.level().codes(), HarmReport.Cost::cases)
                .containsExactlyInAnyOrder(tuple("north", 39L), tuple("other-centres", 3L));
    }

    @Test
    void writesARowForEachOutcomeOfAGroup() {
        String csv = ReportSamples.csv(report(SOME, ReportSamples.STEWARD, DEVICE_CLASS));

        ApprovedFile.assertHolds(ReportSamples.expected("harm.csv"), csv);
    }
}
