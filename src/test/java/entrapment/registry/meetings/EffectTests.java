package entrapment.registry.meetings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.access.DataCut;
import entrapment.registry.meetings.Measure.Reported;
import entrapment.registry.vocabulary.Harm;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** Before and after, and whether the data could show a change at all. */
class EffectTests {

    private static Effect effect(Reported report, long events, long of, long eventsAfter, long ofAfter) {
        Measure measure = new Measure(
                report,
                report == Reported.HARM ? Harm.SEVERE : null,
                Map.of(),
                PeriodRange.of("2025-Q1", "2025-Q4"),
                PeriodRange.of("2026-Q1", "2026-Q2"));
        return Effect.of(
                measure,
                new DataCut(7, null),
                true,
                new Comparison.Line("before", events, of),
                new Comparison.Line("after", eventsAfter, ofAfter));
    }

    @Test
    void saysInWordsWhatAMeasureCounts() {
        Map<String, List<String>> filters = new LinkedHashMap<>();
        filters.put("deviceClass", List.of("rotational-burr", "orbital-crown"));
        filters.put("calcification", List.of("severe"));

        assertThat(new Measure(
                                Reported.HARM,
                                Harm.SEVERE,
                                filters,
                                PeriodRange.of("2025-Q1", "2025-Q4"),
                                PeriodRange.of("2026-Q1", "2026-Q2"))
                        .words())
                .isEqualTo("harm severe (Device: Rotational atherectomy burr, Orbital atherectomy crown; Calcification:"
                        + " Severe)");
    }

    /** R: qbinom and qbeta as in PlanDetectableChangeAnalysis; d = 27 and c = 54 of 2000 at 0.02. */
    @Test
    void saysWhichFallTheNumbersCouldShow() {
        Effect effect = effect(Reported.INCIDENCE, 40, 2000, 20, 2000);

        assertThat(effect.couldShow()).isTrue();
        assertThat(Objects.requireNonNull(effect.detectableFall())).isCloseTo(0.011749181, within(1e-9));
        assertThat(Objects.requireNonNull(effect.detectableRise())).isCloseTo(0.02998047, within(1e-9));
        assertThat(effect.sentence())
                .contains(
                        "The rate has fallen by more than chance alone explains.",
                        "With 2,000 uses a fall to 11.7 per 1,000 or beyond would probably show (4 in 5)");
    }

    @Test
    void saysThatNoImprovementCouldShowWithSoFew() {
        Effect effect = effect(Reported.INCIDENCE, 2, 200, 0, 100);

        assertThat(effect.couldShow()).isFalse();
        assertThat(effect.detectableFall()).isNull();
        assertThat(effect.sentence())
                .contains(
                        "The data fit a rise, a fall or no change.",
                        "With 100 uses no fall could show: the numbers are too small.");
    }

    @Test
    void countsARiseAsBetterWhereItIs() {
        Effect effect = effect(Reported.RETRIEVAL, 20, 60, 34, 60);

        assertThat(effect.couldShow()).isTrue();
        assertThat(effect.sentence())
                .contains("freed at the first attempt in 60 cases", "The rate has risen", "With 60 cases a rise to ");
    }

    @Test
    void hasNothingToCompareWithoutUsesAndPromisesNothing() {
        Effect effect = effect(Reported.INCIDENCE, 3, 90, 0, 0);

        assertThat(effect.difference()).isNull();
        assertThat(effect.couldShow()).isFalse();
        assertThat(effect.sentence())
                .isEqualTo("Nothing to compare: 3 entrapments in 90 uses before and 0 entrapments in 0 uses after. No"
                        + " change could show.");
    }

    @Test
    void cannotFallFromNothingAndPlansNothingFromNothing() {
        assertThat(effect(Reported.INCIDENCE, 0, 90, 1, 90).sentence())
                .endsWith("Nothing better than before could show.");
        Effect rise = effect(Reported.RETRIEVAL, 0, 9, 1, 9);
        assertThat(rise.couldShow()).isNull();
        assertThat(rise.sentence()).contains("what change could show is not known");
    }

    @Test
    void leavesOutCountsThatContradictEachOther() {
        Effect effect = effect(Reported.INCIDENCE, 3, 2, 1, 50);

        assertThat(effect.before().of()).isZero();
        assertThat(effect.notes().get(0)).contains("contradict each other");
    }
}
