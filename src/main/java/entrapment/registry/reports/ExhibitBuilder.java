package entrapment.registry.reports;

import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Limits;
import entrapment.registry.exports.NumberText;
import entrapment.registry.vocabulary.Labels;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** The table of an exhibit in the making: what its columns are called, and where their cells come from. */
record ExhibitBuilder(List<Column> columns, List<List<@Nullable Object>> rows) {

    /** A column with the way to its cells. */
    record Part<T>(Column column, Function<T, @Nullable Object> cell) {}

    static <T> Part<T> column(String title, Column.Kind kind, Function<T, @Nullable Object> cell) {
        return new Part<>(Column.of(title, kind), cell);
    }

    /** A column for which a slide has no room. */
    static <T> Part<T> onPage(String title, Column.Kind kind, Function<T, @Nullable Object> cell) {
        return new Part<>(Column.onPage(title, kind), cell);
    }

    /** Both ends of an interval at the level of the report. */
    static <T> Part<T> interval(
            ReportHeading heading,
            Column.Kind kind,
            Function<T, @Nullable Double> lower,
            Function<T, @Nullable Double> upper) {
        return column(
                NumberText.level(heading.confidence()) + " % interval",
                kind,
                group -> new Limits(lower.apply(group), upper.apply(group)));
    }

    /** A column for each thing that the groups are split by. */
    static <T> List<Part<T>> levels(List<String> by, Function<T, ? extends Map<String, ?>> level) {
        return by.stream()
                .map(name -> column(
                        Labels.field(name),
                        Column.Kind.TEXT,
                        (T group) -> Labels.level(
                                name, String.valueOf(level.apply(group).get(name)))))
                .toList();
    }

    @SafeVarargs
    static <T> ExhibitBuilder of(List<T> groups, List<Part<T>> first, Part<T>... then) {
        List<Part<T>> parts = new ArrayList<>(first);
        for (Part<T> part : then) {
            parts.add(part);
        }
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (T group : groups) {
            List<@Nullable Object> row = new ArrayList<>();
            parts.forEach(part -> row.add(part.cell().apply(group)));
            rows.add(row);
        }
        return new ExhibitBuilder(parts.stream().map(Part::column).toList(), rows);
    }

    Exhibit exhibit(String title, String sentence, @Nullable Figure figure) {
        return new Exhibit(title, sentence, figure, columns, rows);
    }
}
