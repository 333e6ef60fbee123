package entrapment.registry.stats;

import static entrapment.registry.stats.IntervalMethod.CLOPPER_PEARSON;
import static entrapment.registry.stats.IntervalMethod.WILSON;
import static entrapment.registry.stats.PublishedSeries.figure;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.stats.PublishedSeries.Digits;
import entrapment.registry.stats.PublishedSeries.Figure;
import entrapment.registry.stats.PublishedSeries.Kind;
import entrapment.registry.stats.PublishedSeries.Percentage;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The counts of published series in, our figures out, held against the digits of {@link PublishedSeries}. */
class PublishedSeriesTests {

    static Stream<Figure> withWilson() {
        return having(Figure::wilson);
    }

    static Stream<Figure> withExact() {
        return having(Figure::exact);
    }

    static Stream<Figure> withPercentage() {
        return having(Figure::printed);
    }

    static Stream<Figure> withInterval() {
        return having(Figure::printedInterval);
    }

    private static Stream<Figure> having(Function<Figure, ?> digits) {
        return PublishedSeries.figures().stream().filter(figure -> digits.apply(figure) != null);
    }

    @ParameterizedTest
    @MethodSource("withWilson")
    void givesWilsonLimits(Figure figure) {
        Digits computed = Objects.requireNonNull(figure.wilson());

        assertThat(computed.like(figure.limits(WILSON))).isEqualTo(computed);
    }

    @ParameterizedTest
    @MethodSource("withExact")
    void givesExactLimits(Figure figure) {
        Digits computed = Objects.requireNonNull(figure.exact());

        assertThat(computed.like(figure.limits(CLOPPER_PEARSON))).isEqualTo(computed);
    }

    /** A percentage is marked truncated only where rounding gives another one, and off only where neither gives it. */
    @ParameterizedTest
    @MethodSource("withPercentage")
    void theMarkSaysHowThePaperCameToItsPercentage(Figure figure) {
        BigDecimal printed = Objects.requireNonNull(figure.printed());
        boolean rounded = figure.rounded().compareTo(printed) == 0;
        boolean truncated = figure.truncated().compareTo(printed) == 0;

        assertThat(figure.percentage())
                .isEqualTo(rounded ? Percentage.ROUNDED : truncated ? Percentage.TRUNCATED : Percentage.OFF);
    }

    /** So a reader who recomputes them with Wilson finds another lower limit; the upper ones mostly agree. */
    @ParameterizedTest
    @MethodSource("withInterval")
    void anIntervalOfOneSeriesIsExactAndNotWilsons(Figure figure) {
        Digits printed = Objects.requireNonNull(figure.printedInterval());

        assertThat(printed.like(figure.limits(WILSON))).isNotEqualTo(printed);
        assertThat(printed.like(figure.limits(CLOPPER_PEARSON)).equals(printed))
                .isEqualTo(figure.interval() == Kind.EXACT);
    }

    @Test
    void everyMarkOccurs() {
        assertThat(PublishedSeries.figures()).extracting(Figure::percentage).contains(Percentage.values());
        assertThat(PublishedSeries.figures()).extracting(Figure::interval).contains(Kind.values());
        assertThat(PublishedSeries.figures())
                .filteredOn(Figure::inferred)
                .isNotEmpty()
                .allSatisfy(figure ->
                        assertThat(figure.percentage()).as("%s", figure).isEqualTo(Percentage.ROUNDED));
    }

    /** What parts of one series add up to, and what they don't. */
    @Test
    void partsOfASeriesAddUpOrAreKnownNotTo() {
        assertThat(events("S01", "stents lost per PCI", "guidewires entrapped per PCI")
                        + 6 * events("S01", "each of six single devices per PCI"))
                .isEqualTo(events("S01", "entrapments per PCI", "losses per PCI"));
        assertThat(events(
                        "S05",
                        "guidewire per CTO PCI",
                        "microcatheter per CTO PCI",
                        "balloon per CTO PCI",
                        "rotational burr per CTO PCI",
                        "guide extension per CTO PCI"))
                .isEqualTo(events("S05", "any entrapment per CTO PCI"));
        assertThat(events(
                        "S21",
                        "retrieved per lost stent",
                        "deployed per lost stent",
                        "crushed per lost stent",
                        "left per lost stent",
                        "not reported per lost stent"))
                .isEqualTo(
                        figure("S21", "retrieved per lost stent").proportion().of());
        assertThat(events("S22", "thin-strut stents lost", "thick-strut stents lost"))
                .isEqualTo(events("S22", "all stents lost"));
    }

    /** A case can involve several devices, and a composite counts a patient with two components once. */
    @Test
    void devicesAndComponentsCanOutnumberCases() {
        assertThat(events(
                        "S06",
                        "guidewire per CTO PCI",
                        "microcatheter per CTO PCI",
                        "stent per CTO PCI",
                        "balloon per CTO PCI"))
                .isEqualTo(45)
                .isGreaterThan(events("S06", "any entrapment or loss per CTO PCI"));
        assertThat(events(
                        "S12",
                        "death per burr procedure",
                        "tamponade per burr procedure",
                        "emergency surgery per burr procedure"))
                .isEqualTo(190)
                .isGreaterThan(events("S12", "death or tamponade or emergency surgery per burr procedure"));
    }

    /** The abstract accounts for 17 of its 20 lost stents. */
    @Test
    void threeLostStentsAreNotDescribed() {
        assertThat(events(
                        "S15",
                        "retrieval per case",
                        "emergency bypass per lost stent",
                        "crushed per lost stent",
                        "lost to the periphery per lost stent"))
                .isEqualTo(figure("S15", "stents lost per stent").events() - 3);
    }

    /** The arms of the strut comparison make 0.572 %, the abstract says 0.56 %; nor is 3.2 times 8,564 its 25,692 stents. */
    @Test
    void aPaperContradictsItsOwnArms() {
        Figure all = figure("S22", "all stents lost");

        assertThat(figure("S22", "thin-strut stents lost").proportion().of()
                        + figure("S22", "thick-strut stents lost").proportion().of())
                .isEqualTo(all.proportion().of());
        assertThat(100 * estimate(all)).isCloseTo(0.572, within(half(3)));
        assertThat(Math.round(8_564 * 3.2)).isNotEqualTo(all.proportion().of());
    }

    /** 171 complicated of 968 procedures is 17.7 %; the 19 % printed is 171 of the 919 of another line of the abstract. */
    @Test
    void aPercentageBelongsToAnotherDenominator() {
        Figure complicated = figure("S21", "complicated per PCI with a loss");

        assertThat(100 * estimate(complicated)).isCloseTo(17.7, within(half(1)));
        assertThat(100.0 * complicated.events() / events("S21", "stents lost per PCI"))
                .isCloseTo(19, within(half(0)));
    }

    /** The six percentages of a method mix: the smallest numbers of uses from which all six follow. */
    @Test
    void theMethodMixFollowsFrom42UsesAndNoFewer() {
        List<Figure> mix = PublishedSeries.of("S20")
                .filter(figure -> figure.what().endsWith(" per use of a method"))
                .toList();
        List<Integer> possible = new ArrayList<>();
        for (int uses = 1; uses <= 82; uses++) {
            if (follows(mix, uses)) {
                possible.add(uses);
            }
        }

        assertThat(mix).hasSize(6);
        assertThat(mix.stream().mapToLong(Figure::events).sum()).isEqualTo(42);
        assertThat(possible).startsWith(42, 58).endsWith(82);
    }

    /** Whether counts exist that round to every printed percentage and add up to the uses. */
    private static boolean follows(List<Figure> mix, int uses) {
        int fewest = 0;
        int most = 0;
        for (Figure figure : mix) {
            List<Integer> counts = new ArrayList<>();
            int percent = Objects.requireNonNull(figure.printed()).intValueExact();
            for (int count = 0; count <= uses; count++) {
                if ((200 * count + uses) / (2 * uses) == percent) {
                    counts.add(count);
                }
            }
            if (counts.isEmpty()) {
                return false;
            }
            fewest += Collections.min(counts);
            most += Collections.max(counts);
        }
        return fewest <= uses && uses <= most;
    }

    /** Stent loss by mounting, 12 of 1,147 hand-crimped against 8 of 2,919 premounted, printed p &lt; 0.01 (S15). */
    @Test
    void comparesStentLossByMounting() {
        Proportion crimped = figure("S15", "hand-crimped stents lost").proportion();
        Proportion premounted = figure("S15", "premounted stents lost").proportion();
        TwoByTwo table = TwoByTwo.of(crimped, premounted);

        OddsRatioAnalysis analysis = OddsRatioAnalysis.of(table, Confidence.DEFAULT);

        assertThat(table).isEqualTo(new TwoByTwo(12, 1135, 8, 2911));
        assertThat(analysis.oddsRatio()).isCloseTo(3.8471, within(half(4)));
        assertThat(analysis.woolf().lower()).isCloseTo(1.5685, within(half(4)));
        assertThat(analysis.woolf().upper()).isCloseTo(9.4362, within(half(4)));
        assertThat(table.haldaneAnscombe(Confidence.DEFAULT).oddsRatio()).isCloseTo(3.7707, within(half(4)));
        assertThat(table.haldaneAnscombe(Confidence.DEFAULT).lower()).isCloseTo(1.5734, within(half(4)));
        assertThat(table.haldaneAnscombe(Confidence.DEFAULT).upper()).isCloseTo(9.0368, within(half(4)));
        assertThat(analysis.fisherPValue()).isCloseTo(0.004161, within(half(6))).isLessThan(0.01);
        assertThat(RelativeRiskAnalysis.of(crimped, premounted, Confidence.DEFAULT)
                        .relativeRisk())
                .isCloseTo(3.8173, within(half(4)));
        OverallTest overall = OverallTest.of(List.of(crimped, premounted));
        assertThat(overall.pearsonPValue()).isCloseTo(0.00154, within(half(5)));
    }

    /** Per patient and per stent the same 20 losses give 0.90 and 0.49 per cent (S15). */
    @Test
    void theDenominatorHalvesTheRate() {
        assertThat(100 * estimate(figure("S15", "stents lost per patient"))).isCloseTo(0.90, within(half(2)));
        assertThat(100 * estimate(figure("S15", "stents lost per stent"))).isCloseTo(0.49, within(half(2)));
        assertThat(events("S15", "hand-crimped stents lost", "premounted stents lost"))
                .isEqualTo(events("S15", "stents lost per stent"));
    }

    /**
     * 10 retrievals in 14 cases and 17 attempts (S15). The abstract does not say which of the three second attempts
     * succeeded; neither figure depends on it, the first attempts' does.
     */
    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 3})
    void attemptsAndCasesAnswerDifferently(int rescued) {
        Figure perCase = figure("S15", "retrieval per case");
        Figure perAttempt = figure("S15", "retrieval per attempt");

        AttemptsAnalysis analysis = AttemptsAnalysis.of(
                List.of(
                        new AttemptPattern(List.of(true), 10 - rescued),
                        new AttemptPattern(List.of(false, true), rescued),
                        new AttemptPattern(List.of(false, false), 3 - rescued),
                        new AttemptPattern(List.of(false), 1 + rescued)),
                Confidence.DEFAULT);

        assertThat(analysis.cases()).isEqualTo(perCase.proportion().of());
        assertThat(analysis.attempts()).isEqualTo(perAttempt.proportion().of());
        assertThat(analysis.perCase().estimate()).isCloseTo(0.7143, within(half(4)));
        assertThat(Objects.requireNonNull(perCase.wilson())
                        .like(analysis.perCase().wilson()))
                .isEqualTo(perCase.wilson());
        assertThat(analysis.perAttempt().estimate()).isCloseTo(0.5882, within(half(4)));
        assertThat(Objects.requireNonNull(perAttempt.wilson())
                        .like(analysis.perAttempt().naiveWilson()))
                .isEqualTo(perAttempt.wilson());
        assertThat(analysis.firstAttempt().successes()).isEqualTo(10 - rescued);
    }

    /** Small balloon against forceps or snare, whose 17 attempts are the attempts of all cases (S15). */
    @Test
    void comparesTwoRetrievalTechniques() {
        Proportion balloon =
                figure("S15", "retrieval by small balloon per attempt").proportion();
        Proportion snare =
                figure("S15", "retrieval by forceps or snare per attempt").proportion();
        Proportion all = figure("S15", "retrieval per attempt").proportion();

        OddsRatioAnalysis analysis = OddsRatioAnalysis.of(TwoByTwo.of(balloon, snare), Confidence.DEFAULT);

        assertThat(new Proportion(balloon.events() + snare.events(), balloon.of() + snare.of()))
                .isEqualTo(all);
        assertThat(analysis.oddsRatio()).isCloseTo(3.1111, within(half(4)));
        assertThat(analysis.woolf().lower()).isCloseTo(0.4138, within(half(4)));
        assertThat(analysis.woolf().upper()).isCloseTo(23.39, within(half(2)));
        assertThat(analysis.fisherPValue()).isCloseTo(0.350, within(half(3)));
    }

    /** First try 2 of 7, at last 6 of 7: the published argument for reporting the two apart (S01). */
    @Test
    void firstAttemptsAndFinalSuccessLieFarApart() {
        assertThat(100 * estimate(figure("S01", "retrieval at the first attempt per tried")))
                .isCloseTo(28.57, within(half(2)));
        assertThat(100 * estimate(figure("S01", "retrieval at last per tried"))).isCloseTo(85.71, within(half(2)));
    }

    /** Perforation 8 of 40 against 4.9 per cent of 10,679 (S06): any count that prints as 4.9 tells the same. */
    @ParameterizedTest
    @CsvSource({"518, 4.90", "523, 4.85", "528, 4.81"})
    void anInferredCountHardlyMovesTheOddsRatio(long others, double oddsRatio) {
        Figure perforated = figure("S06", "perforation per entrapment or loss");
        Proportion rest = new Proportion(
                others,
                figure("S06", "guidewire per CTO PCI").proportion().of()
                        - perforated.proportion().of());

        Woolf woolf = TwoByTwo.of(perforated.proportion(), rest).woolf(Confidence.DEFAULT);

        assertThat(rest.of()).isEqualTo(10_679);
        assertThat(100.0 * others / rest.of()).isCloseTo(4.9, within(half(1)));
        assertThat(woolf.oddsRatio()).isCloseTo(oddsRatio, within(half(2)));
        if (others == 523) {
            assertThat(woolf.lower()).isCloseTo(2.23, within(half(2)));
            assertThat(woolf.upper()).isCloseTo(10.59, within(half(2)));
        }
    }

    private static long events(String id, String... what) {
        return Stream.of(what).mapToLong(each -> figure(id, each).events()).sum();
    }

    private static double estimate(Figure figure) {
        return Objects.requireNonNull(figure.proportion().estimate());
    }

    private static double half(int decimals) {
        return 0.5 * Math.pow(10, -decimals) * (1 + 1e-9);
    }
}
