package entrapment.registry.reports.question;

import entrapment.registry.exports.Column;
import entrapment.registry.exports.Column.Kind;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Limits;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Labels;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The columns of a report, declared once: programs read some of them as a CSV, people some as the table of an exhibit, in
 * the same order.
 *
 * @param <T> what a row is made of
 */
public final class Columns<T> {

    /**
     * One column.
     *
     * @param name its heading for programs; null where people alone see it
     * @param column its heading for people; null where programs alone see it
     */
    private record Part<T>(@Nullable String name, @Nullable Column column, Function<T, @Nullable Object> cell) {}

    private final List<Part<T>> parts = new ArrayList<>();

    /** The same columns as were declared elsewhere, in this order. */
    @SafeVarargs
    public static <T> Columns<T> of(Columns<T>... others) {
        Columns<T> columns = new Columns<>();
        for (Columns<T> other : others) {
            columns.parts.addAll(other.parts);
        }
        return columns;
    }

    /** A column for programs and people. */
    public Columns<T> column(String name, String title, Kind kind, Function<T, @Nullable Object> cell) {
        return with(name, Column.of(title, kind), cell);
    }

    /** A column for programs alone. */
    public Columns<T> csv(String name, Function<T, @Nullable Object> cell) {
        return with(name, null, cell);
    }

    /** A column for people alone, on pages and slides. */
    public Columns<T> shown(String title, Kind kind, Function<T, @Nullable Object> cell) {
        return with(null, Column.of(title, kind), cell);
    }

    /** A column for people alone, for which a slide has no room. */
    public Columns<T> onPage(String title, Kind kind, Function<T, @Nullable Object> cell) {
        return with(null, Column.onPage(title, kind), cell);
    }

    /** A column for programs and people, for which a slide has no room. */
    public Columns<T> onPage(String name, String title, Kind kind, Function<T, @Nullable Object> cell) {
        return with(name, Column.onPage(title, kind), cell);
    }

    /** A column for each thing that the rows are split by: codes for programs, labels for people. */
    public Columns<T> levels(List<String> by, Function<T, Levels> levels) {
        for (String name : by) {
            csv(name, row -> {
                Level level = levels.apply(row).get(name);
                return level == null ? null : level.code();
            });
            shown(Labels.field(name), Kind.TEXT, row -> {
                Level level = levels.apply(row).get(name);
                return level == null ? null : level.label();
            });
        }
        return this;
    }

    /** Both ends of an interval: two columns for programs, one for people. */
    public Columns<T> interval(
            String lowerName,
            String upperName,
            Confidence confidence,
            Kind kind,
            Function<T, @Nullable Double> lower,
            Function<T, @Nullable Double> upper) {
        return csv(lowerName, lower::apply).csv(upperName, upper::apply).interval(confidence, kind, lower, upper);
    }

    /** Both ends of an interval for people alone. */
    public Columns<T> interval(
            Confidence confidence,
            Kind kind,
            Function<T, @Nullable Double> lower,
            Function<T, @Nullable Double> upper) {
        return shown(
                NumberText.level(confidence.level()) + " % interval",
                kind,
                row -> new Limits(lower.apply(row), upper.apply(row)));
    }

    /** A proportion per 1,000, for programs. */
    public Columns<T> perThousand(String name, Function<T, @Nullable Double> proportion) {
        return csv(name, row -> Words.thousandfold(proportion.apply(row)));
    }

    /** How many, of how many, their share and its interval, for people. */
    public Columns<T> share(String title, Confidence confidence, Function<T, ProportionEstimate> share) {
        return shown(title, Kind.COUNT, row -> share.apply(row).events())
                .shown("Of", Kind.COUNT, row -> share.apply(row).of())
                .shown("Share", Kind.PERCENT, row -> share.apply(row).estimate())
                .interval(confidence, Kind.PERCENT, row -> share.apply(row).lower(), row -> share.apply(row)
                        .upper());
    }

    /** How often a technique released the device; people see the counts in one column. */
    public Columns<T> released(
            String name, String title, Confidence confidence, Function<T, ProportionEstimate> share) {
        return csv(name + "Released", row -> share.apply(row).events())
                .csv(name + "Of", row -> share.apply(row).of())
                .shown(
                        title + ": released of",
                        Kind.TEXT,
                        row -> Words.of(
                                share.apply(row).events(), share.apply(row).of()))
                .onPage(name + "Estimate", title, Kind.PERCENT, row -> share.apply(row)
                        .estimate())
                .interval(
                        name + "Lower",
                        name + "Upper",
                        confidence,
                        Kind.PERCENT,
                        row -> share.apply(row).lower(),
                        row -> share.apply(row).upper());
    }

    private Columns<T> with(@Nullable String name, @Nullable Column column, Function<T, @Nullable Object> cell) {
        parts.add(new Part<>(name, column, cell));
        return this;
    }

    /** The rows for programs, with what must be said beside them. */
    public Table table(ReportHeading heading, List<Note> notes, List<T> rows) {
        List<Part<T>> named = parts.stream().filter(part -> part.name() != null).toList();
        return new Table(
                heading.comments(notes),
                named.stream().flatMap(part -> Stream.ofNullable(part.name())).toList(),
                cells(named, rows));
    }

    /** The rows for people. */
    public Exhibit exhibit(String title, String sentence, @Nullable Figure figure, List<T> rows) {
        List<Part<T>> seen =
                parts.stream().filter(part -> part.column() != null).toList();
        return new Exhibit(
                title,
                sentence,
                figure,
                seen.stream().flatMap(part -> Stream.ofNullable(part.column())).toList(),
                cells(seen, rows));
    }

    /** A share as it is drawn. */
    public static Figure.Item item(String label, String series, ProportionEstimate share, String sentence) {
        return new Figure.Item(
                label,
                series,
                share.events(),
                share.of(),
                share.estimate(),
                share.lower(),
                share.upper(),
                Figure.Mark.NONE,
                sentence);
    }

    private static <T> List<List<@Nullable Object>> cells(List<Part<T>> parts, List<T> rows) {
        List<List<@Nullable Object>> cells = new ArrayList<>();
        for (T row : rows) {
            List<@Nullable Object> line = new ArrayList<>();
            parts.forEach(part -> line.add(part.cell().apply(row)));
            cells.add(Collections.unmodifiableList(line));
        }
        return cells;
    }
}
