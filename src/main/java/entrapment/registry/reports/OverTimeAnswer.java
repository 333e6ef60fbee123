package entrapment.registry.reports;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.NUMBER;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;
import static entrapment.registry.exports.Column.Kind.P_VALUE;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Limits;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.stats.ChartSignal;
import entrapment.registry.stats.TrendAnalysis;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The report over time for people, one shape for each of its three charts. */
final class OverTimeAnswer {

    /** Of more events than this the last are shown; a figure has no room for more, and the CSV has them all. */
    private static final int MOST_EVENTS = 400;

    private OverTimeAnswer() {}

    static Answer of(OverTimeReport report) {
        Exhibit chart =
                switch (report.chart()) {
                    case "between-events" -> gaps(report);
                    case "cusum" -> cusum(report);
                    default -> proportions(report);
                };
        List<Exhibit> exhibits = new ArrayList<>(List.of(chart));
        trend(report.trend()).ifPresent(exhibits::add);
        List<String> notes = new ArrayList<>(report.notes());
        List<OverTimeReport.Point> unseen = report.groups()
                .subList(0, report.groups().size() - points(report).size());
        if (!unseen.isEmpty()) {
            long signals = signals(unseen);
            notes.add("Shown are the last %d of %s events; of the others %s. The CSV has all."
                    .formatted(
                            MOST_EVENTS,
                            NumberText.count(report.groups().size()),
                            signals == 0 ? "none signals" : NumberText.count(signals) + " signal"));
        }
        return report.heading().answer(report.verdict(), exhibits, notes);
    }

    private static List<OverTimeReport.Point> points(OverTimeReport report) {
        List<OverTimeReport.Point> all = report.groups();
        return all.subList(Math.max(0, all.size() - MOST_EVENTS), all.size());
    }

    /** How many points signal. */
    static long signals(OverTimeReport report) {
        return signals(report.groups());
    }

    private static long signals(List<OverTimeReport.Point> points) {
        return points.stream()
                .filter(point -> mark(point.signal()) != Figure.Mark.NONE)
                .count();
    }

    private static Exhibit proportions(OverTimeReport report) {
        return ExhibitBuilder.of(
                        report.groups(),
                        List.of(period()),
                        ExhibitBuilder.column("Entrapments", COUNT, OverTimeReport.Point::events),
                        ExhibitBuilder.column("Uses", COUNT, OverTimeReport.Point::uses),
                        ExhibitBuilder.column("Rate", PER_THOUSAND, OverTimeReport.Point::value),
                        ExhibitBuilder.<OverTimeReport.Point>column(
                                "Limits of chance", PER_THOUSAND, OverTimeAnswer::limits),
                        signal())
                .exhibit(
                        "Entrapments per 1,000 uses, period by period",
                        "",
                        figure(report, Unit.PER_THOUSAND, "Entrapments per 1,000 uses", "Period", "baseline"));
    }

    private static Exhibit gaps(OverTimeReport report) {
        return ExhibitBuilder.of(
                        points(report),
                        List.of(
                                ExhibitBuilder.column(
                                        "Event",
                                        TEXT,
                                        point -> String.valueOf(point.level().get("event"))),
                                period()),
                        ExhibitBuilder.column("Uses since the one before", COUNT, OverTimeAnswer::whole),
                        ExhibitBuilder.<OverTimeReport.Point>column("Limits of chance", COUNT, OverTimeAnswer::limits),
                        signal())
                .exhibit(
                        "Uses between one entrapment and the next",
                        "",
                        figure(report, Unit.COUNT, "Uses without an entrapment", "Entrapments in their order", ""));
    }

    private static Exhibit cusum(OverTimeReport report) {
        return ExhibitBuilder.of(
                        report.groups(),
                        List.of(period()),
                        ExhibitBuilder.column("Entrapments", COUNT, OverTimeReport.Point::events),
                        ExhibitBuilder.column("Uses", COUNT, OverTimeReport.Point::uses),
                        ExhibitBuilder.column("Highest sum", NUMBER, OverTimeReport.Point::value),
                        ExhibitBuilder.column("Signals above", NUMBER, OverTimeReport.Point::upper),
                        signal())
                .exhibit(
                        "Evidence for a rise, summed up",
                        "",
                        figure(report, Unit.NUMBER, "Highest sum in the period", "Period", ""));
    }

    private static ExhibitBuilder.Part<OverTimeReport.Point> period() {
        return ExhibitBuilder.column(
                "Period", TEXT, point -> String.valueOf(point.level().get("period")));
    }

    private static ExhibitBuilder.Part<OverTimeReport.Point> signal() {
        return ExhibitBuilder.column(
                "Signal",
                TEXT,
                point -> point.signal() == ChartSignal.NONE
                        ? null
                        : point.signal().toString());
    }

    private static @Nullable Limits limits(OverTimeReport.Point point) {
        return new Limits(point.lower(), point.upper());
    }

    private static @Nullable Long whole(OverTimeReport.Point point) {
        Double value = point.value();
        return value == null ? null : Math.round(value);
    }

    /** The baseline is drawn where it is measured as the points are. */
    private static Figure figure(OverTimeReport report, Unit unit, String axis, String across, String line) {
        Double baseline = report.baseline();
        return new Figure(
                Figure.Kind.CONTROL,
                unit,
                axis,
                across,
                points(report).stream()
                        .map(point -> new Figure.Item(
                                label(point),
                                "",
                                point.events(),
                                point.uses(),
                                point.value(),
                                point.lower(),
                                point.upper(),
                                mark(point.signal()),
                                ""))
                        .toList(),
                baseline == null || line.isEmpty() ? List.of() : List.of(Figure.Line.at(line, baseline)),
                List.of());
    }

    private static String label(OverTimeReport.Point point) {
        String period = String.valueOf(point.level().get("period"));
        Object event = point.level().get("event");
        return event == null ? period : "event " + event + ", " + period;
    }

    private static Figure.Mark mark(ChartSignal signal) {
        return signal == ChartSignal.HIGH
                ? Figure.Mark.HIGH
                : signal == ChartSignal.LOW ? Figure.Mark.LOW : Figure.Mark.NONE;
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
