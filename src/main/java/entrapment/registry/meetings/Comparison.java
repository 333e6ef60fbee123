package entrapment.registry.meetings;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Limits;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.Reports;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.DifferenceAnalysis;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Method;
import entrapment.registry.stats.Proportion;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The meeting's rate against that of the periods before and that of other centres, with Newcombe's differences. */
final class Comparison {

    static final String NAME = "comparison";

    private static final double LEVEL = Confidence.DEFAULT.level();

    /** One line: what it is about, its counts; as a proportion only where events do not outnumber uses. */
    record Line(String label, long events, long uses) {

        @Nullable
        Proportion proportion() {
            return events > uses ? null : new Proportion(events, uses);
        }
    }

    private Comparison() {}

    /**
     * @param now of the meeting's periods
     * @param others what it is held against, in order
     */
    static Answer of(Line now, List<Line> others, List<String> notes, Answer.Basis basis) {
        List<List<@Nullable Object>> rows = new ArrayList<>();
        List<Figure.Item> items = new ArrayList<>();
        List<String> sentences = new ArrayList<>();
        add(now, null, rows, items, sentences);
        others.forEach(other -> add(other, now, rows, items, sentences));
        Exhibit exhibit = new Exhibit(
                "Entrapments per 1,000 uses, compared",
                "",
                new Figure(
                        Figure.Kind.INTERVALS,
                        Unit.PER_THOUSAND,
                        "Entrapments per 1,000 uses",
                        "",
                        items,
                        List.of(),
                        List.of()),
                List.of(
                        Column.of("Compared", Column.Kind.TEXT),
                        Column.onPage("Cases", Column.Kind.COUNT),
                        Column.onPage("Uses", Column.Kind.COUNT),
                        Column.of("Rate", Column.Kind.PER_THOUSAND),
                        Column.of("95 % CI", Column.Kind.PER_THOUSAND),
                        Column.of("Difference", Column.Kind.PER_THOUSAND),
                        Column.of("95 % CI of it", Column.Kind.PER_THOUSAND)),
                rows);
        return new Answer(
                NAME,
                "Is it more than before, or than elsewhere?",
                String.join(" ", sentences),
                List.of(exhibit),
                notes,
                Reports.CAUTIONS,
                basis);
    }

    static Method method() {
        return Calculation.DIFFERENCE.method();
    }

    private static void add(
            Line line,
            @Nullable Line now,
            List<List<@Nullable Object>> rows,
            List<Figure.Item> items,
            List<String> sentences) {
        Proportion proportion = line.proportion();
        Proportion own = now == null ? null : now.proportion();
        Interval interval = proportion == null
                ? Interval.NOT_ESTIMABLE
                : proportion.interval(IntervalMethod.WILSON, Confidence.DEFAULT);
        DifferenceAnalysis difference =
                proportion == null || own == null ? null : DifferenceAnalysis.of(own, proportion, Confidence.DEFAULT);
        Double estimate = proportion == null ? null : proportion.estimate();
        String sentence = sentence(line, estimate, interval, difference);
        rows.add(Arrays.asList(
                line.label(),
                line.events(),
                line.uses(),
                estimate,
                new Limits(interval.lower(), interval.upper()),
                difference == null ? null : difference.difference(),
                difference == null
                        ? null
                        : new Limits(
                                difference.newcombe().lower(),
                                difference.newcombe().upper())));
        items.add(new Figure.Item(
                line.label(),
                "",
                line.events(),
                line.uses(),
                estimate,
                interval.lower(),
                interval.upper(),
                now == null ? Figure.Mark.OWN : Figure.Mark.NONE,
                sentence));
        sentences.add(sentence);
    }

    private static String sentence(
            Line line, @Nullable Double estimate, Interval interval, @Nullable DifferenceAnalysis difference) {
        String counted = "%s: %s in %s"
                .formatted(
                        line.label(),
                        line.events() == 1 ? "1 entrapment" : NumberText.count(line.events()) + " entrapments",
                        line.uses() == 1 ? "1 use" : NumberText.count(line.uses()) + " uses");
        Double lower = interval.lower();
        Double upper = interval.upper();
        if (estimate == null || lower == null || upper == null) {
            return counted + ", no rate.";
        }
        String rate = "%s, %s per 1,000 (%s %% CI %s to %s)"
                .formatted(
                        counted,
                        NumberText.perThousand(estimate),
                        NumberText.level(LEVEL),
                        NumberText.perThousand(lower),
                        NumberText.perThousand(upper));
        Double less = difference == null ? null : difference.difference();
        Double least = difference == null ? null : difference.newcombe().lower();
        Double most = difference == null ? null : difference.newcombe().upper();
        return less == null || least == null || most == null
                ? rate + "."
                : "%s; difference of this meeting %s per 1,000 (%s to %s)."
                        .formatted(
                                rate,
                                Effect.signed(Unit.PER_THOUSAND, less),
                                Effect.signed(Unit.PER_THOUSAND, least),
                                Effect.signed(Unit.PER_THOUSAND, most));
    }
}
