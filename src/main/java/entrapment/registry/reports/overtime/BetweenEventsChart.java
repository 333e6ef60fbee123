package entrapment.registry.reports.overtime;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Limits;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.overtime.OverTimeReport.Place;
import entrapment.registry.reports.overtime.OverTimeReport.Point;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.Note;
import entrapment.registry.stats.ChartSignal;
import entrapment.registry.stats.GChartAnalysis;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The uses between one event and the next. */
final class BetweenEventsChart {

    private static final int FEWEST_GAPS = 10;

    /** Of more events than this the last are shown; a figure has no room for more, and the CSV has them all. */
    private static final int MOST_EVENTS = 400;

    private static final Note.Wording LAST_SHOWN =
            Note.Wording.of("last-shown", "Shown are the last %s of %s events; of the others %s. The CSV has all.");

    private BetweenEventsChart() {}

    static Drawing of(OverTimeQuery query, UseSequence sequence) {
        List<UseSequence.Gap> gaps = sequence.gaps();
        List<Long> uses = gaps.stream().map(UseSequence.Gap::uses).toList();
        GChartAnalysis chart = GChartAnalysis.of(uses, ProportionChart.TAIL);
        boolean limits = gaps.size() >= FEWEST_GAPS;
        Double upper = limits ? decimal(chart.probability().upper()) : null;
        Double lower = limits ? decimal(chart.probability().lower()) : null;
        List<Point> points = new ArrayList<>();
        for (int index = 0; index < gaps.size(); index++) {
            UseSequence.Gap gap = gaps.get(index);
            points.add(new Point(
                    new Place(gap.event(), gap.period()),
                    null,
                    null,
                    (double) gap.uses(),
                    lower,
                    upper,
                    limits ? chart.signals().get(index) : ChartSignal.NONE));
        }
        List<Note> notes = new ArrayList<>(List.of(Note.of(Drawing.ORDER_ASSUMED)));
        chart.notes().forEach(note -> notes.add(Note.of(null, note)));
        long uneventful = uses.stream().mapToLong(Long::longValue).sum();
        return new Drawing(
                chart.pHat(),
                new Proportion(gaps.size(), gaps.size() + uneventful)
                        .interval(IntervalMethod.WILSON, query.scope().confidence()),
                points,
                limits
                        ? "%s uses since the last event; gaps of up to %s are within what chance allows."
                                .formatted(
                                        NumberText.count(sequence.openGap()),
                                        upper == null ? "any" : NumberText.count(upper.longValue()))
                        : "%s uses since the last event; fewer than ten gaps, so no limits are drawn."
                                .formatted(NumberText.count(sequence.openGap())),
                notes);
    }

    private static @Nullable Double decimal(@Nullable Long limit) {
        return limit == null ? null : Double.valueOf(limit);
    }

    static Columns<Point> columns() {
        return Columns.of(
                new Columns<Point>()
                        .csv("event", point -> point.level().event())
                        .shown(
                                "Event",
                                TEXT,
                                point -> String.valueOf(point.level().event())),
                OverTimeReport.period(),
                new Columns<Point>()
                        .csv("events", Point::events)
                        .csv("uses", Point::uses)
                        .csv("value", Point::value)
                        .shown("Uses since the one before", COUNT, BetweenEventsChart::whole)
                        .csv("lower", Point::lower)
                        .csv("upper", Point::upper)
                        .shown("Limits of chance", COUNT, point -> new Limits(point.lower(), point.upper()))
                        .csv("signal", point -> point.signal().toString())
                        .shown("Signal", TEXT, OverTimeReport::signal));
    }

    private static @Nullable Long whole(Point point) {
        Double value = point.value();
        return value == null ? null : Math.round(value);
    }

    static Exhibit exhibit(OverTimeReport report) {
        List<Point> shown = shown(report.groups());
        return columns()
                .exhibit(
                        "Uses between one entrapment and the next",
                        "",
                        OverTimeReport.figure(
                                shown,
                                Unit.COUNT,
                                "Uses without an entrapment",
                                "Entrapments in their order",
                                List.of()),
                        shown);
    }

    private static List<Point> shown(List<Point> all) {
        return all.subList(Math.max(0, all.size() - MOST_EVENTS), all.size());
    }

    /** What is said of the points that are not shown. */
    static List<Note> unseen(List<Point> all) {
        List<Point> unseen = all.subList(0, all.size() - shown(all).size());
        long signals = OverTimeReport.signals(unseen);
        return unseen.isEmpty()
                ? List.of()
                : List.of(Note.of(
                        LAST_SHOWN,
                        MOST_EVENTS,
                        NumberText.count(all.size()),
                        signals == 0 ? "none signals" : NumberText.count(signals) + " signal"));
    }
}
