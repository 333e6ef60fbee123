package entrapment.registry.reports.question;

import static entrapment.registry.reports.question.ReportSamples.STEWARD;
import static entrapment.registry.reports.question.ReportSamples.analystOf;
import static entrapment.registry.reports.question.ReportSamples.tally;
import static entrapment.registry.reports.question.ReportSamples.unselected;
import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.reports.question.Counting.Excluded;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Tally;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CountingTests {

    private static final String CELL = "north 2031-Q1 balloon";

    private static final Excluded NOTHING = new Excluded(0, 0, 0);

    @Test
    void bringsEventsTogetherWithTheUsesOfTheirLevel() {
        Counting counting = count(
                "calcification",
                List.of(tally(CELL, 2, "severe"), tally("south 2031-Q2 stent", 1, "severe"), tally(CELL, 1, "mild")),
                List.of(
                        tally(CELL, 50, "severe"),
                        tally("south 2031-Q2 stent", 30, "severe"),
                        tally(CELL, 20, "mild")));

        assertThat(told(counting)).containsExactly("mild 1 20", "severe 3 80");
        assertThat(counting.excluded()).isEqualTo(NOTHING);
        assertThat(counting.contradictions()).isZero();
    }

    @Test
    void leavesOutCasesThatHaveNoReturn() {
        Counting counting = count(
                "calcification",
                List.of(tally(CELL, 2, "severe"), tally("south 2031-Q1 balloon", 1, "severe")),
                List.of(tally("south 2031-Q1 balloon", 30, "severe")));

        assertThat(told(counting)).containsExactly("severe 1 30");
        assertThat(counting.excluded()).isEqualTo(new Excluded(1, 2, 0));
    }

    @Test
    void leavesOutACellWithMoreCasesThanUsesOnBothSides() {
        Counting counting = count(
                "calcification",
                List.of(tally(CELL, 3, "severe"), tally(CELL, 2, "mild"), tally("south 2031-Q1 balloon", 1, "mild")),
                List.of(tally(CELL, 1, "severe"), tally(CELL, 3, "none"), tally("south 2031-Q1 balloon", 9, "mild")));

        assertThat(told(counting)).containsExactly("mild 1 9");
        assertThat(counting.excluded()).isEqualTo(new Excluded(1, 5, 4));
    }

    @ParameterizedTest
    @CsvSource({"4, 4, true", "5, 4, false", "0, 0, true", "1, 0, false", "0, 4, true"})
    void drawsTheLineWhereCasesOutnumberUses(long events, long uses, boolean counted) {
        Counting counting =
                count("calcification", List.of(tally(CELL, events, "none")), List.of(tally(CELL, uses, "none")));

        assertThat(told(counting)).isEqualTo(counted ? List.of("none " + events + " " + uses) : List.of());
        assertThat(counting.excluded()).isEqualTo(counted ? NOTHING : new Excluded(1, events, uses));
    }

    @Test
    void keepsUsesWithoutCases() {
        assertThat(told(count("calcification", List.of(), List.of(tally(CELL, 40, "none")))))
                .containsExactly("none 0 40");
    }

    @ParameterizedTest
    @ValueSource(strings = {"south 2031-Q1 balloon", "north 2031-Q2 balloon", "north 2031-Q1 stent"})
    void aReturnOfAnotherCentreQuarterOrClassIsNoReturnOfTheCases(String other) {
        Counting counting = count("calcification", List.of(tally(CELL, 1, "none")), List.of(tally(other, 40, "none")));

        assertThat(told(counting)).containsExactly("none 0 40");
        assertThat(counting.excluded()).isEqualTo(new Excluded(1, 1, 0));
    }

    @Test
    void countsEachDiscordantCellOnce() {
        Counting counting = count(
                "calcification",
                List.of(
                        tally(CELL, 2, "none"),
                        tally(CELL, 3, "mild"),
                        tally("south 2031-Q1 balloon", 1, "none"),
                        tally("south 2031-Q2 balloon", 7, "none")),
                List.of(tally(CELL, 1, "none"), tally(CELL, 1, "severe"), tally("south 2031-Q2 balloon", 7, "none")));

        assertThat(counting.excluded()).isEqualTo(new Excluded(2, 6, 2));
    }

    @Test
    void judgesACellByAllItsLevelsNotOnlyTheSelectedOnes() {
        Counting good = count(
                "calcification",
                List.of(tally(CELL, 5, "severe")),
                List.of(tally(CELL, 6, "severe"), unselected(CELL, 100, "none")));
        Counting bad = count(
                "calcification",
                List.of(tally(CELL, 1, "severe"), unselected(CELL, 10, "none")),
                List.of(tally(CELL, 6, "severe")));

        assertThat(told(good)).containsExactly("severe 5 6");
        assertThat(good.excluded()).isEqualTo(NOTHING);
        assertThat(told(bad)).isEmpty();
        assertThat(bad.excluded()).isEqualTo(new Excluded(1, 1, 6));
    }

    @Test
    void reportsNothingLeftOutWhereNothingSelectedWas() {
        Counting counting = count("calcification", List.of(unselected(CELL, 9, "none")), List.of());

        assertThat(told(counting)).isEmpty();
        assertThat(counting.excluded()).isEqualTo(NOTHING);
    }

    @Test
    void countsThePlacesWhereALevelOfAGoodCellContradictsItself() {
        Counting counting = count(
                "calcification",
                List.of(tally(CELL, 3, "severe"), tally(CELL, 1, "mild"), tally("south 2031-Q1 balloon", 2, "severe")),
                List.of(tally(CELL, 2, "severe"), tally(CELL, 9, "none"), tally("south 2031-Q1 balloon", 2, "severe")));

        assertThat(told(counting)).containsExactly("none 0 9", "mild 1 0", "severe 5 4");
        assertThat(counting.contradictions()).isEqualTo(2);
    }

    @Test
    void showsTheStewardEveryCentre() {
        assertThat(told(centres(STEWARD))).containsExactly("east 2 20", "north 1 10", "west 4 40");
    }

    @Test
    void showsAnAnalystTheOwnCentreAndAllOthersAsOne() {
        assertThat(told(centres(analystOf("north")))).containsExactly("north 1 10", "other-centres 6 60");
        assertThat(told(centres(analystOf("west")))).containsExactly("other-centres 3 30", "west 4 40");
    }

    @Test
    void showsASubmitterNoOtherCentresNameEither() {
        assertThat(told(centres(new Viewer("key", Role.SUBMITTER, "east"))))
                .containsExactly("east 2 20", "other-centres 5 50");
    }

    private static Counting centres(Viewer viewer) {
        return Counting.of(
                List.of(
                        tally("west 2031-Q1 stent", 4),
                        tally("north 2031-Q1 stent", 1),
                        tally("east 2031-Q1 stent", 2)),
                List.of(
                        tally("west 2031-Q1 stent", 40),
                        tally("north 2031-Q1 stent", 10),
                        tally("east 2031-Q1 stent", 20)),
                axes("centre"),
                GroupBy.masking(viewer));
    }

    @Test
    void judgesMaskedCentresOneByOne() {
        Counting counting = Counting.of(
                List.of(tally("west 2031-Q1 stent", 4), tally("east 2031-Q1 stent", 1)),
                List.of(tally("west 2031-Q1 stent", 3), tally("east 2031-Q1 stent", 50)),
                axes("centre"),
                GroupBy.masking(analystOf("north")));

        assertThat(told(counting)).containsExactly("other-centres 1 50");
        assertThat(counting.excluded()).isEqualTo(new Excluded(1, 4, 3));
    }

    @ParameterizedTest
    @CsvSource({
        "calcification, none mild moderate severe unknown",
        "stentLayers, 0 1 2-or-more unknown",
        "operatorStage, in-training early-independent established unknown",
        "deviceClass, guidewire balloon stent rotational-burr other",
        "deviceSizeMm, 0.36 0.9 1.25 1.5 3 unknown"
    })
    void putsLevelsInTheOrderOfTheirListAndUnknownLast(String axis, String order) {
        List<String> levels = new ArrayList<>(List.of(order.split(" ")));
        Random random = new Random(7);
        for (int round = 0; round < 20; round++) {
            Collections.shuffle(levels, random);
            List<Tally> uses =
                    levels.stream().map(level -> tally(CELL, 9, level)).toList();

            assertThat(count(axis, List.of(), uses).groups())
                    .extracting(group -> group.levels().get(0).code())
                    .containsExactly(order.split(" "));
        }
    }

    @Test
    void putsQuartersAndYearsInTheOrderOfTime() {
        List<Tally> uses = List.of(
                tally("north 2031-Q2 stent", 1), tally("north 2030-Q4 stent", 2), tally("south 2031-Q1 stent", 4));

        assertThat(told(count("period", List.of(), uses))).containsExactly("2030-Q4 0 2", "2031-Q1 0 4", "2031-Q2 0 1");
        assertThat(told(count("year", List.of(), uses))).containsExactly("2030 0 2", "2031 0 5");
    }

    @Test
    void splitsByTheFirstAxisFirstWhereverTheFactorsStand() {
        List<Tally> uses = List.of(
                tally("south 2031-Q1 stent", 1, "severe", "lad"),
                tally("north 2031-Q1 stent", 2, "none", "rca"),
                tally("north 2031-Q1 stent", 4, "none", "lad"),
                tally("south 2031-Q1 stent", 8, "none", "lad"));

        assertThat(told(count("calcification centre vessel", List.of(), uses)))
                .containsExactly(
                        "none north lad 0 4", "none north rca 0 2", "none south lad 0 8", "severe south lad 0 1");
        assertThat(told(count("centre calcification vessel", List.of(), uses)))
                .containsExactly(
                        "north none lad 0 4", "north none rca 0 2", "south none lad 0 8", "south severe lad 0 1");
    }

    @Test
    void addsEverythingUpWhereNothingIsSplit() {
        Counting counting = Counting.of(
                List.of(tally(CELL, 3), tally("south 2031-Q2 stent", 4)),
                List.of(tally(CELL, 30), tally("south 2031-Q2 stent", 40)),
                List.of(),
                GroupBy.masking(STEWARD));

        assertThat(counting.groups()).containsExactly(new Counting.Group(List.of(), 7, 70));
    }

    @Test
    void countsNothingInAnEmptyRegistry() {
        assertThat(count("calcification", List.of(), List.of())).isEqualTo(new Counting(List.of(), NOTHING, 0));
    }

    @Test
    void countsTheSameInWhateverOrderTheTalliesCome() {
        Random random = new Random(20310401);
        List<Tally> events = tallies(random, 6);
        List<Tally> uses = tallies(random, 30);
        Counting counting = count("centre calcification", events, uses);
        for (int round = 0; round < 50; round++) {
            Collections.shuffle(events, random);
            Collections.shuffle(uses, random);

            assertThat(count("centre calcification", events, uses)).isEqualTo(counting);
        }
        assertThat(counting.excluded().cells()).isBetween(1L, 30L);
        assertThat(counting.contradictions()).isPositive();
    }

    @Test
    void countsEachEventAndUseInAGroupOrAsLeftOut() {
        Random random = new Random(20310402);
        for (int round = 0; round < 200; round++) {
            List<Tally> events = tallies(random, 6);
            List<Tally> uses = tallies(random, 30);
            Counting counting = count("calcification period", events, uses);

            assertThat(counting.groups().stream()
                                    .mapToLong(Counting.Group::events)
                                    .sum()
                            + counting.excluded().events())
                    .isEqualTo(events.stream().mapToLong(Tally::count).sum());
            assertThat(counting.groups().stream()
                                    .mapToLong(Counting.Group::uses)
                                    .sum()
                            + counting.excluded().uses())
                    .isEqualTo(uses.stream().mapToLong(Tally::count).sum());
        }
    }

    private static List<Tally> tallies(Random random, int most) {
        List<Tally> tallies = new ArrayList<>();
        for (String centre : List.of("north", "south", "east")) {
            for (String cell : List.of(" 2031-Q1 stent", " 2031-Q2 stent", " 2031-Q1 balloon")) {
                for (String level : List.of("none", "severe", "unknown")) {
                    tallies.add(tally(centre + cell, random.nextInt(most), level));
                }
            }
        }
        return tallies;
    }

    private static Counting count(String axes, List<Tally> events, List<Tally> uses) {
        return Counting.of(events, uses, axes(axes), GroupBy.masking(STEWARD));
    }

    private static List<GroupBy> axes(String codes) {
        return Stream.of(codes.split(" "))
                .map(code -> GroupBy.ALL.stream()
                        .filter(axis -> axis.code().equals(code))
                        .findFirst()
                        .orElseThrow())
                .toList();
    }

    private static List<String> told(Counting counting) {
        return counting.groups().stream()
                .map(group -> group.levels().stream().map(Level::code).collect(Collectors.joining(" ")) + " "
                        + group.events() + " " + group.uses())
                .toList();
    }
}
