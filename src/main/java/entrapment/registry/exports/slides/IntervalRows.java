package entrapment.registry.exports.slides;

import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Figure.Item;
import entrapment.registry.exports.NumberText;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** Where each item of a chart of intervals stands, and what is written at its sides. Lengths are points, heights are rows. */
final class IntervalRows {

    static final double BOTTOM = 40;

    private static final double TOP = 4;
    private static final double LEAST_ROW = 13.5;
    private static final double BETWEEN_LABELS = 0.6;
    private static final double SMALLEST_TEXT = 10;
    private static final double LARGEST_TEXT = 13;

    /** How much of the width a name may take, and up to where it stays on one line where two have room. */
    private static final double WIDEST_NAME = 0.5;

    private static final double ONE_LINE = 0.38;

    /** An item and how far below the top it stands. */
    record Row(Item item, double down) {}

    /** From the top; items of the same label stand together. */
    final List<Row> all = new ArrayList<>();

    final List<String> series;

    /** What is above the plot. */
    final double top;

    /** How high the plot is, with a row above the items for the name of each reference line. */
    final double height;

    final double textSize;
    private final double width;
    private final double rowHeight;
    private final Map<String, List<Row>> byLabel = new LinkedHashMap<>();

    /** The first items, as many as can be read. */
    IntervalRows(ChartBuilder builder, Figure figure, List<Figure.Line> lines) {
        this.width = builder.width;
        this.series = figure.series();
        this.top = TOP + (areOfSeveralSeries() ? builder.legendHeight(series) : 0);
        int most = (int) ((builder.height - top - BOTTOM) / LEAST_ROW) - lines.size();
        int fit = Math.max(1, areOfSeveralSeries() ? (int) (most / (1 + BETWEEN_LABELS / 2)) : most);
        List<Item> items =
                together(figure.items()).subList(0, Math.min(figure.items().size(), fit));
        double down = 0;
        for (Item item : items) {
            List<Row> same = byLabel.computeIfAbsent(item.label(), label -> new ArrayList<>());
            down += same.isEmpty() && areOfSeveralSeries() && !all.isEmpty() ? BETWEEN_LABELS : 0;
            Row row = new Row(item, down + 0.5);
            same.add(row);
            all.add(row);
            down++;
        }
        this.height =
                down + lines.stream().filter(line -> !line.label().isEmpty()).count();
        this.rowHeight = (builder.height - top - BOTTOM) / height;
        this.textSize = Math.min(LARGEST_TEXT, Math.max(SMALLEST_TEXT, rowHeight * 0.62));
    }

    private static List<Item> together(List<Item> items) {
        Map<String, List<Item>> labels = new LinkedHashMap<>();
        items.forEach(item ->
                labels.computeIfAbsent(item.label(), label -> new ArrayList<>()).add(item));
        return labels.values().stream().flatMap(List::stream).toList();
    }

    boolean areOfSeveralSeries() {
        return series.size() > 1;
    }

    List<Row> of(String one) {
        return all.stream().filter(row -> row.item.series().equals(one)).toList();
    }

    /** How far above the bottom of the plot a row stands. */
    double up(Row row) {
        return Math.round((highest() - row.down) * 1e6) / 1e6;
    }

    /** How far above the bottom of the plot the items end. */
    double highest() {
        return all.isEmpty() ? 0 : all.get(all.size() - 1).down + 0.5;
    }

    /** How far above the bottom of the plot each name stands: amid the items of its label. */
    List<Double> upOfNames() {
        return byLabel.values().stream()
                .map(rows -> (up(rows.get(0)) + up(rows.get(rows.size() - 1))) / 2)
                .toList();
    }

    /** The labels with their marks in words, and with counts where they have one item each. */
    List<String> names() {
        return byLabel.entrySet().stream()
                .map(label -> name(label.getKey(), label.getValue()))
                .toList();
    }

    /** What stands at the right of each row; empty where its name says it. */
    List<String> counts() {
        return all.stream()
                .map(row -> areOfSeveralSeries() ? counts(row.item) : "")
                .toList();
    }

    /** How wide the widest of some texts is. */
    double widest(List<String> texts) {
        return TextWidth.widest(
                texts.stream().flatMap(text -> Stream.of(text.split("\n", -1))).toList(), textSize);
    }

    private String name(String label, List<Row> rows) {
        Item first = rows.get(0).item;
        String counts = areOfSeveralSeries() || counts(first).isEmpty() ? "" : " (" + counts(first) + ")";
        String tail = counts + (first.mark() == Figure.Mark.NONE ? "" : ", " + Marker.word(first.mark()));
        if (rowHeight * rows.size() < 2.3 * textSize || TextWidth.of(label + tail, textSize) <= width * ONE_LINE) {
            return TextWidth.cut(label, textSize, width * WIDEST_NAME - TextWidth.of(tail, textSize)) + tail;
        }
        String kept = label;
        double room = width * ONE_LINE;
        for (int length = label.length();
                TextWidth.lines(kept + tail, textSize, room).size() > 2;
                length--) {
            kept = label.substring(0, length - 1).strip() + "…";
        }
        return String.join("\n", TextWidth.lines(kept + tail, textSize, room));
    }

    private static String counts(Item item) {
        Long of = item.of();
        Long events = item.events();
        if (of == null) {
            return events == null ? "" : NumberText.count(events);
        }
        return events == null ? "n = " + NumberText.count(of) : NumberText.count(events) + "/" + NumberText.count(of);
    }
}
