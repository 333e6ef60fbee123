package entrapment.registry.reports.overtime;

import entrapment.registry.reports.overtime.OverTimeReport.Point;
import entrapment.registry.reports.question.Note;
import entrapment.registry.stats.Interval;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One chart.
 *
 * @param baseline the rate that the points are held against; null where there is none to be had
 * @param baselineInterval its interval; no limits where it was given
 * @param verdict the chart in a sentence
 */
record Drawing(
        @Nullable Double baseline, Interval baselineInterval, List<Point> points, String verdict, List<Note> notes) {

    /** What is said of a chart. */
    static final Note.Wording BASELINE_GIVEN =
            Note.Wording.of("baseline-given", "The baseline of %s per 1,000 was given.");

    static final Note.Wording BASELINE = Note.Wording.of(
            "baseline",
            "The baseline is %s: %s in %s, %s per 1,000 (%s %% CI %s to %s); it is frozen, so later data do not move"
                    + " it.");
    static final Note.Wording ORDER_ASSUMED = Note.Wording.of(
            "order-assumed",
            "The registry keeps quarters or years, not days: the events of a period are placed evenly among its"
                    + " uses, so the order within a period is assumed.");

    Drawing {
        points = List.copyOf(points);
        notes = List.copyOf(notes);
    }

    /** No chart, as there is no baseline. */
    static Drawing none() {
        return new Drawing(
                null,
                Interval.NOT_ESTIMABLE,
                List.of(),
                "No baseline of at least ten events over at least a year, so no chart is drawn;"
                        + " give baseline, or a wider selection.",
                List.of());
    }

    /** No points, though there is a baseline. */
    static Drawing empty(Baseline baseline, String verdict) {
        return new Drawing(baseline.rate(), baseline.interval(), List.of(), verdict, List.of(baseline.note()));
    }
}
