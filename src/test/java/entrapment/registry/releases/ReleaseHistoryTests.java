package entrapment.registry.releases;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import entrapment.registry.releases.OutsideAttack.Row;
import entrapment.registry.reports.YearlyCount;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Years of releases from seeds, and somebody outside who has kept them all. */
class ReleaseHistoryTests {

    private static final int THRESHOLD = 5;

    @ParameterizedTest
    @CsvSource({"1, 3, 3, 0.6, 3", "2, 4, 5, 0.5, 5", "3, 4, 3, 1.5, 5", "4, 5, 5, 1.0, 5", "5, 4, 5, 3.0, 11"})
    void nothingSmallIsWorkedOutFromAllReleasesTogether(long seed, int classes, int harms, double mean, int threshold) {
        for (int round = 0; round < 3; round++) {
            History history = new History(seed * 100 + round, classes, harms, mean);

            assertThat(history.release(2022, threshold).safe()).isTrue();
            assertThat(history.recovered(history.files(), threshold)).isEmpty();
            assertThat(history.release(2023, threshold).safe()).isTrue();
            assertThat(history.release(2025, threshold).safe()).isTrue();
            assertThat(history.recovered(history.files(), threshold)).isEmpty();
        }
    }

    @Test
    void theRangesOfTheAuditAreThoseOfTheAttackFromOutside() {
        History history = new History(42, 4, 5, 0.7);
        Proposal first = history.release(2022, THRESHOLD);
        assertSmallestRange(history, first);
        assertSmallestRange(history, history.release(2023, THRESHOLD));
    }

    private static void assertSmallestRange(History history, Proposal proposal) {
        OutsideAttack attack = new OutsideAttack(history.files());
        List<OutsideAttack.Range> ranges = history.targets().stream()
                .filter(row -> small(row, history))
                .map(attack::range)
                .toList();

        assertThat(proposal.audit().audited()).isEqualTo(ranges.size());
        assertThat(proposal.audit().smallestRange())
                .isEqualTo(Math.round(ranges.stream()
                        .mapToDouble(range -> range.most() - range.least())
                        .min()
                        .orElseThrow()));
        assertThat(proposal.audit().smallestMaximum())
                .isEqualTo(Math.round(ranges.stream()
                        .mapToDouble(OutsideAttack.Range::most)
                        .min()
                        .orElseThrow()));
    }

    private static boolean small(Row row, History history) {
        long truth = History.truth(row, history.frozen());
        return truth >= 1 && truth < THRESHOLD;
    }

    @Test
    void hidesEverySmallCountAndPrintsNoneWrongly() {
        History history = new History(7, 13, 5, 0.4);
        Proposal first = history.release(2023, THRESHOLD);
        history.release(2024, THRESHOLD);
        OutsideAttack attack = new OutsideAttack(history.files());

        assertThat(first.audit().hiddenPrimary()).isPositive();
        assertThat(attack.shown()).isNotEmpty().allSatisfy(row -> {
            assertThat(Long.parseLong(row.value())).isEqualTo(History.truth(row, history.frozen()));
            assertThat(small(row, history)).as(row.toString()).isFalse();
        });
        assertThat(history.recovered(history.files(), THRESHOLD)).isEmpty();
    }

    @Test
    void aYearStaysAsItWasFirstReleased() {
        History history = new History(8, 4, 3, 1.0);
        history.release(2022, THRESHOLD);
        history.release(2024, THRESHOLD);
        Map<Sum, @Nullable Long> first = history.releases().get(0).figures();
        Map<Sum, @Nullable Long> second = history.releases().get(1).figures();

        assertThat(first.keySet())
                .filteredOn(sum -> sum.firstYear() == sum.lastYear())
                .hasSize(20)
                .allSatisfy(sum -> {
                    assertThat(second).containsKey(sum);
                    assertThat(second.get(sum)).as(sum.toString()).isEqualTo(first.get(sum));
                });
    }

    @Test
    void theSameYearsAgainAreTheSameFigures() {
        History history = new History(9, 4, 3, 1.0);
        history.release(2022, THRESHOLD);

        assertThat(history.release(2022, THRESHOLD).figures())
                .isEqualTo(history.releases().get(0).figures());
        assertThat(history.release(2022, 3).figures())
                .as("nor does a lower threshold open what was closed")
                .isEqualTo(history.releases().get(0).figures());
    }

    @Test
    void aHigherThresholdHoldsForWhatIsNew() {
        History history = new History(10, 4, 3, 2.0);
        history.release(2022, THRESHOLD);
        assertThat(history.release(2024, 11).safe()).isTrue();

        assertThat(history.releases().get(1).figures()).allSatisfy((sum, value) -> {
            if (value != null && sum.lastYear() > 2022) {
                assertThat(value == 0 || value >= 11).as("%s %d", sum, value).isTrue();
            }
        });
    }

    @Test
    void theAttackBitesWhereOnlySmallCountsAreHidden() {
        int recovered = 0;
        for (long seed = 0; seed < 5; seed++) {
            History history = new History(seed, 4, 3, 1.0);
            List<YearlyCount> counts = history.countThrough(2022);
            keepHidingSmallCountsAlone(history, counts, history.propose(counts, 2022, THRESHOLD));
            recovered += history.recovered(history.files(), THRESHOLD).isEmpty() ? 0 : 1;
        }
        assertThat(recovered).isEqualTo(5);
    }

    private static void keepHidingSmallCountsAlone(History history, List<YearlyCount> counts, Proposal proposal) {
        Map<Sum, @Nullable Long> naive = new LinkedHashMap<>();
        proposal.figures().keySet().forEach(sum -> {
            long truth = truth(history, counts, sum);
            naive.put(sum, truth >= 1 && truth < THRESHOLD ? null : Long.valueOf(truth));
        });
        history.keep(counts, naive, proposal.audit(), 2022, THRESHOLD);
    }

    private static long truth(History history, List<YearlyCount> counts, Sum sum) {
        Unknowns unknowns = new Unknowns(
                history.codes().deviceClasses(), history.codes().harms(), History.FIRST_YEAR, List.of(2022));
        return unknowns.value(sum, unknowns.truth(counts));
    }

    @Test
    void theAttackBitesWhereEarlierReleasesWereForgotten() {
        int recovered = 0;
        for (long seed = 0; seed < 10; seed++) {
            History history = new History(seed, 4, 3, 1.0);
            history.release(2022, THRESHOLD);
            List<YearlyCount> counts = history.countThrough(2023);
            Proposal alone = Proposal.of(List.of(), counts, history.codes(), History.FIRST_YEAR, 2023, THRESHOLD);
            assertThat(alone.safe()).isTrue();
            history.keep(counts, alone.figures(), alone.audit(), 2023, THRESHOLD);
            recovered += history.recovered(history.files(), THRESHOLD).isEmpty() ? 0 : 1;
        }
        assertThat(recovered).isGreaterThan(5);
    }

    @Test
    void refusesWhereAnEarlierReleaseGivesSmallCountsAway() {
        History history = new History(3, 4, 3, 1.0);
        List<YearlyCount> counts = history.countThrough(2022);
        keepHidingSmallCountsAlone(history, counts, history.propose(counts, 2022, THRESHOLD));

        Proposal next = history.propose(history.countThrough(2023), 2023, THRESHOLD);

        assertThat(next.safe()).isFalse();
        assertThat(next.audit().unprotected()).isNotEmpty();
        assertThat(next.contradicted()).isEmpty();
    }

    @Test
    void refusesWhereWhatWasPrintedIsNoLongerWhatIsCounted() {
        History history = new History(11, 4, 3, 1.0);
        history.release(2022, THRESHOLD);
        List<YearlyCount> counts = history.countThrough(2023);
        YearlyCount old = counts.get(0);
        counts.set(0, new YearlyCount(old.deviceClass(), old.year(), old.uses() + 1, old.harm()));

        Proposal next = history.propose(counts, 2023, THRESHOLD);

        assertThat(next.safe()).isFalse();
        assertThat(next.contradicted()).isNotEmpty();
    }

    @Test
    void noFillingAgreesWithContradictingFigures() {
        Unknowns unknowns = new Unknowns(List.of("a"), List.of("x"), 2021, List.of(2022));
        Map<Sum, Long> printed = Map.of(Sum.events("a", 2021, 2021), 4L, Sum.events("a", 2021, 2022), 3L);

        assertThatThrownBy(() -> new Attack(unknowns, printed, List.of()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no filling agrees with what is printed");
    }
}
