package entrapment.registry.reports.overtime;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.NUMBER;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.overtime.OverTimeReport.Place;
import entrapment.registry.reports.overtime.OverTimeReport.Point;
import entrapment.registry.reports.overtime.UseSequence.Quarter;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.Note;
import entrapment.registry.stats.ChartSignal;
import entrapment.registry.stats.CusumAnalysis;
import entrapment.registry.stats.CusumRule;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** The evidence for a rise since the baseline, summed up use by use. */
final class CusumChart {

    private static final long MOST_USES = 2_000_000;

    private CusumChart() {}

    static Drawing of(OverTimeQuery query, UseSequence sequence) {
        Baseline baseline = Baseline.of(query, sequence.quarters()).orElse(null);
        if (baseline == null) {
            return Drawing.none();
        }
        UseSequence watched = new UseSequence(baseline.watched());
        if (watched.uses() == 0) {
            return Drawing.empty(
                    baseline, "Nothing was reported after the baseline yet, so there is nothing to watch.");
        }
        if (watched.uses() > MOST_USES) {
            return Drawing.empty(
                    baseline,
                    "More than " + NumberText.count(MOST_USES) + " uses after the baseline; choose fewer centres or"
                            + " a device class.");
        }
        CusumRule rule = new CusumRule(query.oddsRatio(), query.threshold(), true);
        CusumAnalysis chart = CusumAnalysis.of(watched.outcomes(), baseline.rate(), rule);
        List<Point> points = new ArrayList<>();
        List<String> signals = new ArrayList<>();
        long end = 0;
        long eventsSoFar = 0;
        for (Quarter quarter : watched.quarters()) {
            long start = end;
            end += quarter.uses();
            boolean signalled = false;
            for (long use : chart.signals()) {
                if (use > start && use <= end) {
                    signalled = true;
                    signals.add(quarter.period() + " after event " + (eventsSoFar + quarter.eventsUpTo(use - start))
                            + " since the baseline");
                }
            }
            points.add(new Point(
                    Place.of(quarter.period()),
                    quarter.events(),
                    quarter.uses(),
                    quarter.uses() == 0 ? null : Collections.max(chart.path().subList((int) start, (int) end)),
                    null,
                    query.threshold(),
                    quarter.uses() == 0 ? ChartSignal.NO_DATA : signalled ? ChartSignal.HIGH : ChartSignal.NONE));
            eventsSoFar += quarter.events();
        }
        List<Note> notes = new ArrayList<>(List.of(baseline.note(), Note.of(Drawing.ORDER_ASSUMED)));
        chart.notes().forEach(note -> notes.add(Note.of(null, note)));
        WatchWords words = new WatchWords(query, rule, baseline.rate(), sequence.usesPerYear());
        return new Drawing(
                baseline.rate(),
                baseline.interval(),
                points,
                signals.isEmpty() ? words.noSignal() : words.signal(signals),
                notes);
    }

    static Columns<Point> columns() {
        return OverTimeReport.period()
                .column("events", "Entrapments", COUNT, Point::events)
                .column("uses", "Uses", COUNT, Point::uses)
                .column("value", "Highest sum", NUMBER, Point::value)
                .csv("lower", Point::lower)
                .column("upper", "Signals above", NUMBER, Point::upper)
                .csv("signal", point -> point.signal().toString())
                .shown("Signal", TEXT, OverTimeReport::signal);
    }

    static Exhibit exhibit(OverTimeReport report) {
        return columns()
                .exhibit(
                        "Evidence for a rise, summed up",
                        "",
                        OverTimeReport.figure(
                                report.groups(), Unit.NUMBER, "Highest sum in the period", "Period", List.of()),
                        report.groups());
    }
}
