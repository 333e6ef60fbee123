package entrapment.registry.reports.overtime;

import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;
import static entrapment.registry.exports.Column.Kind.P_VALUE;
import static entrapment.registry.exports.Column.Kind.TEXT;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.overtime.OverTimeQuery.Chart;
import entrapment.registry.reports.overtime.UseSequence.Quarter;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.CommonNote;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.question.Report;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.ChartSignal;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ScoredGroup;
import entrapment.registry.stats.TrendAnalysis;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Period;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Is it changing? A chart of the periods, of the gaps between events, or a CUSUM, and the trend over all periods.
 *
 * @param baseline the rate that the chart holds the data against; null where there is none to be had
 * @param baselineInterval how far the true baseline may lie from that, by Wilson at the report's level; no limits where the
 *     baseline was given
 * @param trend over all periods
 * @param openGap uses since the last event: a lower bound of the next gap
 * @param verdict the chart in a sentence
 */
public record OverTimeReport(
        @JsonUnwrapped ReportHeading heading,
        Chart chart,
        @Nullable Double baseline,
        Interval baselineInterval,
        List<Point> groups,
        TrendAnalysis trend,
        long openGap,
        String verdict,
        Counting.Excluded excluded,
        List<Note> notes)
        implements Report {

    /**
     * A period of the chart, or an event of the between-events chart.
     *
     * @param value a proportion (periods), the uneventful uses since the event before (events), or the highest sum
     *     within the period (CUSUM)
     * @param lower the lower limit; null where there is none
     * @param upper the upper limit or, of the CUSUM, the decision limit
     * @param signal in the words of the calculations; of the CUSUM {@code high} where it signalled
     */
    public record Point(
            Place level,
            @Nullable Long events,
            @Nullable Long uses,
            @Nullable Double value,
            @Nullable Double lower,
            @Nullable Double upper,
            ChartSignal signal) {

        /** What is special about it on a figure. */
        Figure.Mark mark() {
            return signal == ChartSignal.HIGH
                    ? Figure.Mark.HIGH
                    : signal == ChartSignal.LOW ? Figure.Mark.LOW : Figure.Mark.NONE;
        }
    }

    /**
     * Where a point stands.
     *
     * @param event its number, from 1; null where a point is a period
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Place(@Nullable Long event, Period period) {

        static Place of(Period period) {
            return new Place(null, period);
        }

        String label() {
            return event == null ? period.toString() : "event " + event + ", " + period;
        }
    }

    static OverTimeReport of(OverTimeQuery query, DataCut cut, Counting counting) {
        List<Note> notes = new ArrayList<>();
        UseSequence sequence = sequence(counting, notes);
        Drawing drawing =
                switch (query.chart()) {
                    case PROPORTION -> ProportionChart.of(query, sequence);
                    case BETWEEN_EVENTS -> BetweenEventsChart.of(query, sequence);
                    case CUSUM -> CusumChart.of(query, sequence);
                };
        notes.addAll(drawing.notes());
        TrendAnalysis trend = trend(sequence);
        trend.notes().forEach(note -> notes.add(Note.of(Note.Subject.named("trend"), note)));
        notes.addAll(CommonNote.exclusions(counting));
        return new OverTimeReport(
                ReportHeading.of(
                        "over-time",
                        "Is it changing?",
                        cut,
                        query.scope(),
                        List.of(query.chart() == Chart.BETWEEN_EVENTS ? "event" : "period"),
                        query.chart().method()),
                query.chart(),
                drawing.baseline(),
                drawing.baselineInterval(),
                drawing.points(),
                trend,
                sequence.openGap(),
                drawing.verdict(),
                counting.excluded(),
                List.copyOf(notes));
    }

    private static UseSequence sequence(Counting counting, List<Note> notes) {
        List<Quarter> quarters = new ArrayList<>();
        for (Counting.Group group : counting.groups()) {
            if (!(group.levels().get(0) instanceof Level.OfPeriod of)) {
                throw new IllegalArgumentException("over time, counts must be by period");
            }
            if (group.contradicts()) {
                notes.add(Note.about(
                        Note.Subject.named(of.code()),
                        CommonNote.CONTRADICTION,
                        Words.entrapments(group.events()),
                        Words.uses(group.uses())));
            } else {
                quarters.add(new Quarter(of.period(), group.events(), group.uses()));
            }
        }
        return new UseSequence(quarters);
    }

    private static TrendAnalysis trend(UseSequence sequence) {
        List<ScoredGroup> groups = new ArrayList<>();
        for (Quarter quarter : sequence.quarters()) {
            groups.add(new ScoredGroup(quarter.period().begins(), new Proportion(quarter.events(), quarter.uses())));
        }
        return TrendAnalysis.of(groups);
    }

    /** How many points signal. */
    public long signals() {
        return signals(groups);
    }

    static long signals(List<Point> points) {
        return points.stream().filter(point -> point.mark() != Figure.Mark.NONE).count();
    }

    @Override
    public Answer answer() {
        List<Exhibit> exhibits = new ArrayList<>();
        exhibits.add(
                switch (chart) {
                    case PROPORTION -> ProportionChart.exhibit(this);
                    case BETWEEN_EVENTS -> BetweenEventsChart.exhibit(this);
                    case CUSUM -> CusumChart.exhibit(this);
                });
        trend(trend).ifPresent(exhibits::add);
        List<Note> all = new ArrayList<>(notes);
        if (chart == Chart.BETWEEN_EVENTS) {
            all.addAll(BetweenEventsChart.unseen(groups));
        }
        return heading.answer(verdict, exhibits, all);
    }

    @Override
    public Table table() {
        return columns().csv("verdict", point -> verdict).table(heading, notes, groups);
    }

    private Columns<Point> columns() {
        return switch (chart) {
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
