package entrapment.registry.reports;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.reports.UseSequence.Quarter;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.ChartSignal;
import entrapment.registry.stats.CusumAnalysis;
import entrapment.registry.stats.CusumRule;
import entrapment.registry.stats.GChartAnalysis;
import entrapment.registry.stats.PChartAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ScoredGroup;
import entrapment.registry.stats.TrendAnalysis;
import entrapment.registry.vocabulary.Period;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Is it changing? A chart of the periods, of the gaps between events, or a CUSUM, and the trend over all periods.
 *
 * @param baseline the rate that the chart holds the data against; null where there is none to be had
 * @param trend over all periods
 * @param openGap uses since the last event: a lower bound of the next gap
 * @param verdict the chart in a sentence
 */
@JsonPropertyOrder({
    "heading",
    "chart",
    "baseline",
    "groups",
    "trend",
    "openGap",
    "verdict",
    "excluded",
    "notes",
    "cautions"
})
public record OverTimeReport(
        @JsonUnwrapped ReportHeading heading,
        String chart,
        @Nullable Double baseline,
        List<Point> groups,
        TrendAnalysis trend,
        long openGap,
        String verdict,
        Counting.Excluded excluded,
        List<String> notes,
        List<String> cautions)
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
    record Point(
            Map<String, Object> level,
            @Nullable Long events,
            @Nullable Long uses,
            @Nullable Double value,
            @Nullable Double lower,
            @Nullable Double upper,
            ChartSignal signal) {}

    private static final double TAIL = 0.00135;
    private static final int FEWEST_GAPS = 10;
    private static final long MOST_USES = 2_000_000;

    static OverTimeReport of(OverTimeQuery query, DataCut cut, Counting counting) {
        List<String> notes = new ArrayList<>();
        UseSequence sequence = sequence(counting, notes);
        Drawing drawing = new Drawing(query, sequence, notes);
        Calculation method =
                switch (query.chart()) {
                    case PROPORTION -> Calculation.P_CHART;
                    case BETWEEN_EVENTS -> Calculation.G_CHART;
                    case CUSUM -> Calculation.CUSUM;
                };
        switch (query.chart()) {
            case PROPORTION -> drawing.proportions();
            case BETWEEN_EVENTS -> drawing.gaps();
            case CUSUM -> drawing.cusum();
        }
        TrendAnalysis trend = trend(sequence);
        trend.notes().forEach(note -> notes.add("trend: " + note.withCode()));
        notes.addAll(Words.exclusions(counting));
        return new OverTimeReport(
                new ReportHeading(
                        "over-time",
                        "Is it changing?",
                        cut,
                        query.scope().filters(),
                        List.of(query.chart() == OverTimeQuery.Chart.BETWEEN_EVENTS ? "event" : "period"),
                        query.scope().confidence().level(),
                        method.method()),
                query.chart().name().toLowerCase(Locale.ROOT).replace('_', '-'),
                drawing.baseline,
                List.copyOf(drawing.points),
                trend,
                sequence.openGap(),
                drawing.verdict,
                counting.excluded(),
                List.copyOf(notes),
                ReportHeading.CAUTIONS);
    }

    private static UseSequence sequence(Counting counting, List<String> notes) {
        List<Quarter> quarters = new ArrayList<>();
        for (Counting.Group group : counting.groups()) {
            Period period = Period.parse(group.levels().get(0)).orElseThrow();
            if (group.events() > group.uses()) {
                notes.add("%s: left out, because %s in %s contradict each other."
                        .formatted(period, Words.entrapments(group.events()), Words.uses(group.uses())));
            } else {
                quarters.add(new Quarter(period, group.events(), group.uses()));
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

    /** One chart in the making: its points, its baseline and its sentence. */
    private static final class Drawing {

        private final OverTimeQuery query;
        private final UseSequence sequence;
        private final List<String> notes;
        private final List<Point> points = new ArrayList<>();
        private @Nullable Double baseline;
        private String verdict = "No baseline of at least ten events over at least a year, so no chart is drawn;"
                + " give baseline, or a wider selection.";

        Drawing(OverTimeQuery query, UseSequence sequence, List<String> notes) {
            this.query = query;
            this.sequence = sequence;
            this.notes = notes;
        }

        private @Nullable Baseline baseline() {
            Baseline found = Baseline.of(query, sequence.quarters()).orElse(null);
            if (found != null) {
                baseline = found.rate();
                notes.add(found.words());
            }
            return found;
        }

        void proportions() {
            Baseline found = baseline();
            if (found == null) {
                return;
            }
            PChartAnalysis chart = PChartAnalysis.of(
                    sequence.quarters().stream()
                            .map(quarter -> new Proportion(quarter.events(), quarter.uses()))
                            .toList(),
                    found.rate(),
                    TAIL);
            List<String> signals = new ArrayList<>();
            for (int index = 0; index < chart.subgroups().size(); index++) {
                Quarter quarter = sequence.quarters().get(index);
                PChartAnalysis.Subgroup subgroup = chart.subgroups().get(index);
                points.add(new Point(
                        Map.of("period", quarter.period()),
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
            chart.notes().forEach(note -> notes.add(note.withCode()));
            verdict = signals.isEmpty()
                    ? "No period lies outside the limits that chance alone would cross about once in 740 on each side."
                    : "Outside the limits: " + String.join("; ", signals) + ".";
        }

        void gaps() {
            List<UseSequence.Gap> gaps = sequence.gaps();
            notes.add(UseSequence.NOTE);
            GChartAnalysis chart =
                    GChartAnalysis.of(gaps.stream().map(UseSequence.Gap::uses).toList(), TAIL);
            boolean limits = gaps.size() >= FEWEST_GAPS;
            baseline = chart.pHat();
            Long upper = limits ? chart.probability().upper() : null;
            Long lower = limits ? chart.probability().lower() : null;
            for (int index = 0; index < gaps.size(); index++) {
                UseSequence.Gap gap = gaps.get(index);
                Map<String, Object> level = new LinkedHashMap<>();
                level.put("event", gap.event());
                level.put("period", gap.period());
                points.add(new Point(
                        level,
                        null,
                        null,
                        (double) gap.uses(),
                        lower == null ? null : Double.valueOf(lower),
                        upper == null ? null : Double.valueOf(upper),
                        limits ? chart.signals().get(index) : ChartSignal.NONE));
            }
            chart.notes().forEach(note -> notes.add(note.withCode()));
            verdict = limits
                    ? "%s uses since the last event; gaps of up to %s are within what chance allows."
                            .formatted(
                                    NumberText.count(sequence.openGap()),
                                    upper == null ? "any" : NumberText.count(upper))
                    : "%s uses since the last event; fewer than ten gaps, so no limits are drawn."
                            .formatted(NumberText.count(sequence.openGap()));
        }

        void cusum() {
            Baseline found = baseline();
            if (found == null) {
                return;
            }
            UseSequence watched = new UseSequence(found.watched());
            if (watched.uses() == 0 || watched.uses() > MOST_USES) {
                verdict = watched.uses() == 0
                        ? "Nothing was reported after the baseline yet, so there is nothing to watch."
                        : "More than " + NumberText.count(MOST_USES)
                                + " uses after the baseline; choose fewer centres or" + " a device class.";
                return;
            }
            notes.add(UseSequence.NOTE);
            CusumAnalysis chart = CusumAnalysis.of(
                    watched.outcomes(), found.rate(), new CusumRule(query.oddsRatio(), query.threshold(), true));
            WatchWords words = new WatchWords(query, found.rate(), sequence.usesPerYear());
            List<String> signals = new ArrayList<>();
            long end = 0;
            long eventsSoFar = 0;
            for (Quarter quarter : watched.quarters()) {
                long start = end;
                end += quarter.uses();
                for (long use : chart.signals()) {
                    if (use > start && use <= end) {
                        long upTo = use - start;
                        long inQuarter = 0;
                        for (long event = 0; event < quarter.events(); event++) {
                            inQuarter += quarter.place(event) < upTo ? 1 : 0;
                        }
                        signals.add(
                                quarter.period() + " after event " + (eventsSoFar + inQuarter) + " since the baseline");
                    }
                }
                long from = start;
                long to = end;
                boolean signalled = chart.signals().stream().anyMatch(use -> use > from && use <= to);
                points.add(new Point(
                        Map.of("period", quarter.period()),
                        quarter.events(),
                        quarter.uses(),
                        quarter.uses() == 0
                                ? null
                                : Collections.max(chart.path().subList((int) start, (int) end)),
                        null,
                        query.threshold(),
                        quarter.uses() == 0 ? ChartSignal.NO_DATA : signalled ? ChartSignal.HIGH : ChartSignal.NONE));
                eventsSoFar += quarter.events();
            }
            chart.notes().forEach(note -> notes.add(note.withCode()));
            verdict = signals.isEmpty() ? words.noSignal() : words.signal(signals);
        }
    }

    @Override
    public Answer answer() {
        return OverTimeAnswer.of(this);
    }

    @Override
    public Table table() {
        boolean gaps = chart.equals("between-events");
        List<String> columns = new ArrayList<>();
        if (gaps) {
            columns.add("event");
        }
        columns.addAll(List.of("period", "events", "uses", "value", "lower", "upper", "signal"));
        boolean proportions = chart.equals("proportion");
        if (proportions) {
            columns.add("perThousand");
        }
        columns.add("verdict");
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (Point point : groups) {
            List<@Nullable Object> row = new ArrayList<>();
            if (gaps) {
                row.add(point.level().get("event"));
            }
            row.add(String.valueOf(point.level().get("period")));
            row.add(point.events());
            row.add(point.uses());
            row.add(point.value());
            row.add(point.lower());
            row.add(point.upper());
            row.add(point.signal().toString());
            if (proportions) {
                row.add(Words.thousandfold(point.value()));
            }
            row.add(verdict);
            rows.add(row);
        }
        return new Table(heading.comments(notes), columns, rows);
    }
}
