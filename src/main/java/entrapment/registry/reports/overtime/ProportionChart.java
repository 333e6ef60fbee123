package entrapment.registry.reports.overtime;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Limits;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.overtime.OverTimeReport.Place;
import entrapment.registry.reports.overtime.OverTimeReport.Point;
import entrapment.registry.reports.overtime.UseSequence.Quarter;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.Note;
import entrapment.registry.stats.ChartSignal;
import entrapment.registry.stats.PChartAnalysis;
import entrapment.registry.stats.Proportion;
import java.util.ArrayList;
import java.util.List;

/** The rate of each period against limits that chance alone would cross about once in 740 on each side. */
final class ProportionChart {

    static final double TAIL = 0.00135;

    private ProportionChart() {}

    static Drawing of(OverTimeQuery query, UseSequence sequence) {
        Baseline baseline = Baseline.of(query, sequence.quarters()).orElse(null);
        if (baseline == null) {
            return Drawing.none();
        }
        PChartAnalysis chart = PChartAnalysis.of(
                sequence.quarters().stream()
                        .map(quarter -> new Proportion(quarter.events(), quarter.uses()))
                        .toList(),
                baseline.rate(),
                TAIL);
        List<Point> points = new ArrayList<>();
        List<String> signals = new ArrayList<>();
        for (int index = 0; index < chart.subgroups().size(); index++) {
            Quarter quarter = sequence.quarters().get(index);
            PChartAnalysis.Subgroup subgroup = chart.subgroups().get(index);
            points.add(new Point(
                    Place.of(quarter.period()),
                    quarter.events(),
                    quarter.uses(),
                    subgroup.estimate(),
                    subgroup.lower(),
                    subgroup.upper(),
                    subgroup.signal()));
            if (subgroup.signal() == ChartSignal.HIGH || subgroup.signal() == ChartSignal.LOW) {
                signals.add(quarter.period() + " " + subgroup.signal() + " (" + quarter.events() + " of "
                        + NumberText.count(quarter.uses()) + ")");
            }
        }
        List<Note> notes = new ArrayList<>(List.of(baseline.note()));
        chart.notes().forEach(note -> notes.add(Note.of(null, note)));
        return new Drawing(
                baseline.rate(),
                baseline.interval(),
                points,
                signals.isEmpty()
                        ? "No period lies outside the limits that chance alone would cross about once in 740 on each side."
                        : "Outside the limits: " + String.join("; ", signals) + ".",
                notes);
    }

    static Columns<Point> columns() {
        return OverTimeReport.period()
                .column("events", "Entrapments", COUNT, Point::events)
                .column("uses", "Uses", COUNT, Point::uses)
                .column("value", "Rate", PER_THOUSAND, Point::value)
                .csv("lower", Point::lower)
                .csv("upper", Point::upper)
                .shown("Limits of chance", PER_THOUSAND, point -> new Limits(point.lower(), point.upper()))
                .csv("signal", point -> point.signal().toString())
                .shown("Signal", TEXT, OverTimeReport::signal)
                .perThousand("perThousand", Point::value);
    }

    static Exhibit exhibit(OverTimeReport report) {
        Double baseline = report.baseline();
        return columns()
                .exhibit(
                        "Entrapments per 1,000 uses, period by period",
                        "",
                        OverTimeReport.figure(
                                report.groups(),
                                Unit.PER_THOUSAND,
                                "Entrapments per 1,000 uses",
                                "Period",
                                baseline == null ? List.of() : List.of(Figure.Line.at("baseline", baseline))),
                        report.groups());
    }
}
