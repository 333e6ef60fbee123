package entrapment.registry.exports.slides;

import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Figure.Item;
import entrapment.registry.exports.Table;
import entrapment.registry.exports.Unit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/** A deck as a table: every point, table row, order of techniques or line of text of every slide is a row. */
public final class SlideCsv {

    private static final List<String> COLUMNS = List.of(
            "slide",
            "slideTitle",
            "item",
            "series",
            "events",
            "of",
            "estimate",
            "lower",
            "upper",
            "unit",
            "sentence",
            "note",
            "method",
            "dataCut");

    private SlideCsv() {}

    /** The slides in their order, with the caution that stands on each of them. */
    public static Table of(Deck deck) {
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (int number = 0; number < deck.slides().size(); number++) {
            rows(deck.slides().get(number), number + 1L, rows);
        }
        return new Table(List.of(" " + deck.title(), " caution: " + SlideFrame.CAUTION), COLUMNS, rows);
    }

    private static void rows(Slide slide, long number, List<List<@Nullable Object>> rows) {
        int before = rows.size();
        Exhibit exhibit = slide.exhibit();
        Figure figure = exhibit == null ? null : exhibit.figure();
        if (figure != null && !(figure.items().isEmpty() && figure.paths().isEmpty())) {
            figure.items().forEach(item -> rows.add(item(slide, number, item, figure.unit())));
            figure.paths().forEach(path -> rows.add(path(slide, number, path)));
        } else if (exhibit != null) {
            exhibit.rows().forEach(row -> rows.add(row(slide, number, exhibit.columns(), row)));
        }
        slide.lines().forEach(line -> rows.add(words(slide, number, line)));
        if (rows.size() == before) {
            rows.add(words(slide, number, slide.sentence()));
        }
    }

    private static List<@Nullable Object> item(Slide slide, long number, Item item, Unit unit) {
        return row(
                slide,
                number,
                item.label(),
                item.series(),
                item.events(),
                item.of(),
                item.estimate(),
                item.lower(),
                item.upper(),
                name(unit),
                item.sentence());
    }

    private static List<@Nullable Object> path(Slide slide, long number, Figure.Path path) {
        String steps = path.steps().isEmpty() ? "nothing" : String.join(" → ", path.steps());
        return row(slide, number, steps, path.result(), path.cases(), null, null, null, null, "cases", "");
    }

    private static List<@Nullable Object> row(
            Slide slide, long number, List<Column> columns, List<@Nullable Object> cells) {
        String rest = IntStream.range(1, columns.size())
                .mapToObj(column -> columns.get(column).heading() + ": "
                        + columns.get(column).text(cells.get(column)))
                .collect(Collectors.joining("; "));
        String first = columns.isEmpty() ? "" : columns.get(0).text(cells.get(0));
        return row(slide, number, first, "", null, null, null, null, null, "", rest);
    }

    private static List<@Nullable Object> words(Slide slide, long number, String words) {
        return row(slide, number, "", "", null, null, null, null, null, "", words);
    }

    private static List<@Nullable Object> row(Slide slide, long number, @Nullable Object... cells) {
        List<@Nullable Object> row = new ArrayList<>();
        row.add(number);
        row.add(slide.title());
        row.addAll(Arrays.asList(cells));
        row.add(String.join(" ", slide.notes()));
        row.add(slide.method());
        row.add(slide.dataCut());
        return row;
    }

    /** The numbers are exact proportions and ratios; what people see them in is said in words. */
    private static String name(Unit unit) {
        return switch (unit) {
            case PER_THOUSAND, PERCENT -> "proportion";
            case RATIO, COUNT, NUMBER -> unit.name().toLowerCase(Locale.ROOT);
        };
    }
}
