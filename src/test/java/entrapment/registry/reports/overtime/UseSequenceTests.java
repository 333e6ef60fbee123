package entrapment.registry.reports.overtime;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import entrapment.registry.reports.overtime.UseSequence.Gap;
import entrapment.registry.reports.overtime.UseSequence.Quarter;
import entrapment.registry.vocabulary.Period;
import java.util.List;
import org.junit.jupiter.api.Test;

class UseSequenceTests {

    private static final Period FIRST = new Period(2030, 1);
    private static final Period SECOND = new Period(2030, 2);

    private static UseSequence sequence(long firstEvents, long firstUses, long secondEvents, long secondUses) {
        return new UseSequence(
                List.of(new Quarter(FIRST, firstEvents, firstUses), new Quarter(SECOND, secondEvents, secondUses)));
    }

    @Test
    void placesTheEventsOfAQuarterEvenlyAmongItsUses() {
        assertThat(sequence(2, 8, 0, 0).outcomes())
                .containsExactly(false, false, true, false, false, false, true, false);
        assertThat(sequence(3, 3, 1, 1).outcomes()).containsExactly(true, true, true, true);
    }

    @Test
    void keepsEveryEventWhateverTheirNumber() {
        for (long uses = 1; uses <= 40; uses++) {
            for (long events = 0; events <= uses; events++) {
                UseSequence sequence = sequence(events, uses, 0, 0);

                assertThat(sequence.outcomes()).hasSize((int) uses);
                assertThat(sequence.outcomes().stream().filter(event -> event)).hasSize((int) events);
            }
        }
    }

    @Test
    void countsTheUneventfulUsesBetweenEventsAcrossQuarters() {
        UseSequence sequence = sequence(2, 8, 1, 10);

        assertThat(sequence.gaps()).containsExactly(new Gap(FIRST, 2, 3), new Gap(SECOND, 3, 6));
        assertThat(sequence.openGap()).isEqualTo(4);
    }

    @Test
    void hasAnOpenGapOfAllUsesWithoutAnEvent() {
        assertThat(sequence(0, 8, 0, 10).openGap()).isEqualTo(18);
        assertThat(sequence(0, 8, 0, 10).gaps()).isEmpty();
        assertThat(sequence(1, 1, 0, 10).openGap()).isEqualTo(10);
    }

    @Test
    void tellsAYearsVolume() {
        assertThat(sequence(0, 30, 0, 50).usesPerYear()).isEqualTo(160);
    }

    @Test
    void refusesMoreEventsThanUses() {
        assertThatThrownBy(() -> new Quarter(FIRST, 3, 2)).hasMessage("events must be in [0, 2], got 3");
    }

    @Test
    void countsTheUsesOfAYearInQuartersAsInYears() {
        Period year = new Period(2030, 0);

        assertThat(new UseSequence(List.of(new Quarter(FIRST, 1, 100), new Quarter(SECOND, 0, 100))).usesPerYear())
                .isEqualTo(400);
        assertThat(new UseSequence(List.of(new Quarter(year, 1, 100), new Quarter(year.next(), 0, 300))).usesPerYear())
                .isEqualTo(200);
    }
}
