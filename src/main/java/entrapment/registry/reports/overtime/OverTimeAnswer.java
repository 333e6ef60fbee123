package entrapment.registry.reports.overtime;

import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;
import static entrapment.registry.exports.Column.Kind.P_VALUE;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.overtime.OverTimeQuery.Chart;
import entrapment.registry.reports.overtime.OverTimeReport.Point;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.Note;
import entrapment.registry.stats.ChartSignal;
import entrapment.registry.stats.TrendAnalysis;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The report over time as it is shown, whichever its chart. */
final class OverTimeAnswer {

    private OverTimeAnswer() {}

    static Answer of(OverTimeReport report) {
        List<Exhibit> exhibits = new ArrayList<>();
        exhibits.add(
                switch (report.chart()) {
                    case PROPORTION -> ProportionChart.exhibit(report);
                    case BETWEEN_EVENTS -> BetweenEventsChart.exhibit(report);
                    case CUSUM -> CusumChart.exhibit(report);
                });
        trend(report.trend()).ifPresent(exhibits::add);
        List<Note> notes = new ArrayList<>(report.notes());
        if (report.chart() == Chart.BETWEEN_EVENTS) {
            notes.addAll(BetweenEventsChart.unseen(report.groups()));
        }
        return report.heading().answer(report.verdict(), exhibits, notes);
    }

    static Columns<Point> columns(OverTimeReport report) {
        return switch (report.chart()) {
            case PROPORTION -> ProportionChart.columns();
            case BETWEEN_EVENTS -> BetweenEventsChart.columns();
            case CUSUM -> CusumChart.columns();
        };
    }

    static Columns<Point> period() {
        return new Columns<Point>().column("period", "Period", TEXT, point -> point.level()
                .period()
                .toString());
    }

    static @Nullable String signal(Point point) {
        return point.signal() == ChartSignal.NONE ? null : point.signal().toString();
    }

    static Figure figure(List<Point> points, Unit unit, String axis, String across, List<Figure.Line> lines) {
        return new Figure(
                Figure.Kind.CONTROL,
                unit,
                axis,
                across,
                points.stream()
                        .map(point -> new Figure.Item(
                                point.level().label(),
                                "",
                                point.events(),
                                point.uses(),
                                point.value(),
                                point.lower(),
                                point.upper(),
                                point.mark(),
                                ""))
                        .toList(),
                lines,
                List.of());
    }

    private static Optional<Exhibit> trend(TrendAnalysis trend) {
        Double slope = trend.slope();
        Double p = trend.pValue();
        if (slope == null || p == null) {
            return Optional.empty();
        }
        return Optional.of(new Exhibit(
                "Steady trend over the years",
                "The rate %s by %s per 1,000 uses a year (Cochran-Armitage, p %s); that speaks of a steady change only."
                        .formatted(
                                slope < 0 ? "fell" : "rose",
                                NumberText.perThousand(Math.abs(slope)),
                                NumberText.pValue(p)),
                null,
                List.of(Column.of("Change a year", PER_THOUSAND), Column.of("p", P_VALUE)),
                List.of(List.of(slope, p))));
    }
}
