package entrapment.registry.reports;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.cases.OutcomeTally;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Tally;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class YearlyCountTests {

    private static Tally tally(String centre, int year, int quarter, String deviceClass, long count) {
        return new Tally(centre, new Period(year, quarter), deviceClass, List.of(), true, count);
    }

    private static OutcomeTally outcome(Tally of, String field, String code, long count) {
        return new OutcomeTally(
                new Tally(of.centre(), of.period(), of.deviceClass(), List.of(), true, count), field, code);
    }

    @Test
    void addsUpTheCentresAndQuartersOfAYear() {
        Tally first = tally("north-lab", 2024, 1, "stent", 3);
        Tally second = tally("south-lab", 2024, 4, "stent", 1);
        List<YearlyCount> counts = YearlyCount.of(
                List.of(first, second),
                List.of(
                        tally("north-lab", 2024, 1, "stent", 90),
                        tally("south-lab", 2024, 4, "stent", 10),
                        tally("south-lab", 2025, 1, "stent", 7)),
                List.of(
                        outcome(first, "harm", "none", 2),
                        outcome(first, "harm", "mild", 1),
                        outcome(first, "release", "none", 3),
                        outcome(second, "harm", "mild", 1)));

        assertThat(counts)
                .containsExactly(
                        new YearlyCount("stent", 2024, 100, Map.of("none", 2L, "mild", 2L)),
                        new YearlyCount("stent", 2025, 7, Map.of()));
        assertThat(counts.get(0).events()).isEqualTo(4);
    }

    @Test
    void leavesOutUsesEventsAndHarmWhereTheyContradictEachOther() {
        Tally good = tally("north-lab", 2024, 1, "stent", 1);
        Tally withoutReturn = tally("south-lab", 2024, 2, "stent", 2);
        Tally tooMany = tally("south-lab", 2024, 3, "stent", 5);

        assertThat(YearlyCount.of(
                        List.of(good, withoutReturn, tooMany),
                        List.of(
                                tally("north-lab", 2024, 1, "stent", 50),
                                tally("south-lab", 2024, 3, "stent", 4),
                                tally("south-lab", 2024, 3, "filter", 0)),
                        List.of(
                                outcome(good, "harm", "severe", 1),
                                outcome(withoutReturn, "harm", "death", 2),
                                outcome(tooMany, "harm", "none", 5))))
                .containsExactly(new YearlyCount("stent", 2024, 50, Map.of("severe", 1L)));
    }
}
