package entrapment.registry.exports.slides;

import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Figure.Item;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.slides.Scatter.Spot;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.apache.poi.xddf.usermodel.PresetLineDash;
import org.openxmlformats.schemas.drawingml.x2006.chart.STDLblPos;
import org.openxmlformats.schemas.drawingml.x2006.chart.STMarkerStyle;

/** Points with their intervals, one under another: proportions on an even scale, ratios on a logarithmic one around 1. */
final class IntervalChart {

    private static final double LEAST_ROW = 13.5;
    private static final double BETWEEN_LABELS = 0.6;
    private static final double FOOT = 40;
    private static final double HEAD = 4;
    private static final double GAP = 8;
    private static final double SMALLEST_TEXT = 10;
    private static final double LARGEST_TEXT = 13;

    /** How much of the width a name may take, and up to where it stays on one line where two have room. */
    private static final double WIDEST_NAME = 0.5;

    private static final double ONE_LINE = 0.38;

    /** What names and counts leave of the width for the plot, at least. */
    private static final double LEAST_PLOT = 0.4;

    private static final String OPEN_ABOVE = "►";
    private static final String OPEN_BELOW = "◄";

    private static final List<STMarkerStyle.Enum> SYMBOLS =
            List.of(STMarkerStyle.CIRCLE, STMarkerStyle.SQUARE, STMarkerStyle.DIAMOND, STMarkerStyle.TRIANGLE);

    /** An item and how far below the top it stands, in rows. */
    private record Row(Item item, double down) {}

    private final ChartBuilder canvas;
    private final Figure figure;
    private final List<Row> rows = new ArrayList<>();
    private final Map<String, List<Row>> labels = new LinkedHashMap<>();
    private final List<String> series;
    private final Scale scale;
    private final double head;
    private final double depth;
    private final double rowHeight;

    private IntervalChart(ChartBuilder canvas, Figure figure, int most) {
        this.canvas = canvas;
        this.figure = figure;
        List<Item> items = inOrderOfLabels(figure.items()).subList(0, most);
        this.series = items.stream().map(Item::series).distinct().toList();
        double down = 0;
        for (Item item : items) {
            List<Row> same = labels.computeIfAbsent(item.label(), label -> new ArrayList<>());
            down += same.isEmpty() && series.size() > 1 && !rows.isEmpty() ? BETWEEN_LABELS : 0;
            Row row = new Row(item, down + 0.5);
            same.add(row);
            rows.add(row);
            down++;
        }
        this.depth = down
                + lines(figure).stream().filter(line -> !line.label().isEmpty()).count();
        this.head = head(canvas, series);
        this.rowHeight = (canvas.height - head - FOOT) / depth;
        List<Double> values = Stream.concat(
                        rows.stream()
                                .flatMap(row -> Stream.of(row.item.estimate(), row.item.lower(), row.item.upper()))
                                .filter(Objects::nonNull),
                        lines(figure).stream().map(line -> line.points().get(0).y()))
                .map(value -> ChartBuilder.onAxis(figure.unit(), value))
                .toList();
        this.scale = isForest() ? Scale.logarithmic(values) : Scale.linear(values);
    }

    /** Draws the first items, as many as can be read, and answers how many. */
    static int draw(ChartBuilder canvas, Figure figure) {
        List<String> series =
                figure.items().stream().map(Item::series).distinct().toList();
        int most = (int) ((canvas.height - head(canvas, series) - FOOT) / LEAST_ROW)
                - lines(figure).size();
        int fit = Math.max(1, series.size() > 1 ? (int) (most / (1 + BETWEEN_LABELS / 2)) : most);
        int drawn = Math.min(figure.items().size(), fit);
        new IntervalChart(canvas, figure, drawn).draw();
        return drawn;
    }

    private static double head(ChartBuilder canvas, List<String> series) {
        return HEAD + (series.size() > 1 ? canvas.legendHeight(series) : 0);
    }

    private static List<Item> inOrderOfLabels(List<Item> items) {
        Map<String, List<Item>> labels = new LinkedHashMap<>();
        items.forEach(item ->
                labels.computeIfAbsent(item.label(), label -> new ArrayList<>()).add(item));
        return labels.values().stream().flatMap(List::stream).toList();
    }

    private static List<Figure.Line> lines(Figure figure) {
        return figure.lines().stream().filter(line -> !line.points().isEmpty()).toList();
    }

    private boolean isForest() {
        return figure.kind() == Figure.Kind.FOREST;
    }

    private void draw() {
        boolean several = series.size() > 1;
        double size = Math.min(LARGEST_TEXT, Math.max(SMALLEST_TEXT, rowHeight * 0.62));
        List<String> names = labels.entrySet().stream()
                .map(label -> name(label.getKey(), label.getValue(), size))
                .toList();
        List<String> counts =
                rows.stream().map(row -> several ? counts(row.item) : "").toList();
        canvas.margins(widest(names, size) + GAP, head, Math.max(widest(counts, size) + GAP, 14), FOOT);
        Scatter scatter = new Scatter(canvas);
        canvas.scale(scatter.across, scale);
        canvas.style(scatter.across, figure.axis(), true);
        scatter.up.setMinimum(0);
        scatter.up.setMaximum(depth);
        scatter.up.setVisible(false);

        scatter.texts(
                "labels",
                labels.values().stream()
                        .map(of -> new Spot(scale.first(), (up(of.get(0)) + up(of.get(of.size() - 1))) / 2))
                        .toList(),
                names,
                STDLblPos.L,
                size,
                canvas.palette.text());
        referenceLines(scatter, size);
        for (int number = 0; number < series.size(); number++) {
            intervals(scatter, number);
        }
        for (int number = 0; number < series.size(); number++) {
            points(scatter, number);
        }
        openEnds(scatter, size);
        if (several) {
            scatter.texts(
                    "counts",
                    rows.stream().map(row -> new Spot(scale.last(), up(row))).toList(),
                    counts,
                    STDLblPos.R,
                    size,
                    canvas.palette.muted());
        }
        scatter.done(several);
    }

    /**
     * Reference lines stand upright here. Each has its name at its top, one row higher than the one before, so that no line
     * goes through the name of another.
     */
    private void referenceLines(Scatter scatter, double size) {
        if (isForest()) {
            scatter.line("no difference", upright(1, depth), ChartBuilder.line(canvas.palette.text(), 1.25, null));
        }
        double top = rows.size() == 0 ? 0 : rows.get(rows.size() - 1).down + 0.5;
        List<Figure.Line> named = new ArrayList<>(lines(figure));
        named.sort(Comparator.comparing(line -> line.points().get(0).y()));
        boolean rightwards = named.isEmpty() || hasRoomAtRight(named.get(named.size() - 1), size);
        if (rightwards) {
            Collections.reverse(named);
        }
        for (Figure.Line line : named) {
            double value =
                    ChartBuilder.onAxis(figure.unit(), line.points().get(0).y());
            scatter.line(
                    line.label(),
                    upright(value, top + 0.5),
                    ChartBuilder.line(canvas.palette.muted(), 1.25, PresetLineDash.DASH));
            if (!line.label().isEmpty()) {
                scatter.texts(
                        "name of " + line.label(),
                        List.of(new Spot(value, top + 0.5)),
                        List.of(line.label()),
                        rightwards ? STDLblPos.R : STDLblPos.L,
                        size,
                        canvas.palette.muted());
                top++;
            }
        }
    }

    private boolean hasRoomAtRight(Figure.Line line, double size) {
        double part = 1
                - scale.along(
                        ChartBuilder.onAxis(figure.unit(), line.points().get(0).y()));
        return part * canvas.width * LEAST_PLOT > TextWidth.of(line.label(), size);
    }

    private static List<Spot> upright(double value, double height) {
        return List.of(new Spot(value, 0), new Spot(value, height));
    }

    private void intervals(Scatter scatter, int number) {
        List<List<Spot>> segments = new ArrayList<>();
        for (Row row : of(number)) {
            Double lower = row.item.lower();
            Double upper = row.item.upper();
            if (lower != null && upper != null) {
                segments.add(List.of(new Spot(within(lower), up(row)), new Spot(within(upper), up(row))));
            }
        }
        if (!segments.isEmpty()) {
            scatter.segments(
                    "intervals" + (series.get(number).isEmpty() ? "" : " of " + series.get(number)),
                    segments,
                    ChartBuilder.line(canvas.palette.ink(number), 2, null));
        }
    }

    private void points(Scatter scatter, int number) {
        for (Figure.Mark mark : Figure.Mark.values()) {
            List<Spot> spots = new ArrayList<>();
            for (Row row : of(number)) {
                Double estimate = row.item.estimate();
                if (shape(row) == mark && estimate != null && isWithin(estimate)) {
                    spots.add(new Spot(value(estimate), up(row)));
                }
            }
            if (!spots.isEmpty()) {
                scatter.points(pointsName(number, mark), spots, look(number, mark));
            }
        }
        List<Row> unknown = of(number).stream()
                .filter(row -> row.item.estimate() == null && row.item.lower() == null)
                .toList();
        scatter.texts(
                "not estimable",
                unknown.stream().map(row -> new Spot(scale.first(), up(row))).toList(),
                unknown.stream().map(row -> "not estimable").toList(),
                STDLblPos.R,
                SMALLEST_TEXT,
                canvas.palette.muted());
    }

    /** Where shapes tell the series apart, a mark is told by its word alone. */
    private Figure.Mark shape(Row row) {
        return series.size() > 1 ? Figure.Mark.NONE : row.item.mark();
    }

    private String pointsName(int number, Figure.Mark mark) {
        if (series.get(number).isEmpty()) {
            return mark == Figure.Mark.NONE ? "estimate" : ChartBuilder.word(mark);
        }
        return mark == Figure.Mark.NONE ? series.get(number) : series.get(number) + ", " + ChartBuilder.word(mark);
    }

    private ChartBuilder.Look look(int number, Figure.Mark mark) {
        String ink = canvas.palette.ink(number);
        if (series.size() > 1 || mark == Figure.Mark.NONE) {
            return new ChartBuilder.Look(SYMBOLS.get(number % SYMBOLS.size()), 10, ink);
        }
        return canvas.look(mark);
    }

    /** Where an interval goes on beyond the axis. */
    private void openEnds(Scatter scatter, double size) {
        List<Spot> above = new ArrayList<>();
        List<Spot> below = new ArrayList<>();
        for (Row row : rows) {
            Double lower = row.item.lower();
            Double upper = row.item.upper();
            if (upper != null && value(upper) > scale.max()) {
                above.add(new Spot(scale.last(), up(row)));
            }
            if (lower != null && upper != null && value(lower) < scale.min()) {
                below.add(new Spot(scale.first(), up(row)));
            }
        }
        scatter.texts(
                "open above",
                above,
                above.stream().map(spot -> OPEN_ABOVE).toList(),
                STDLblPos.CTR,
                size + 2,
                canvas.palette.text());
        scatter.texts(
                "open below",
                below,
                below.stream().map(spot -> OPEN_BELOW).toList(),
                STDLblPos.CTR,
                size + 2,
                canvas.palette.text());
    }

    private List<Row> of(int number) {
        return rows.stream()
                .filter(row -> row.item.series().equals(series.get(number)))
                .toList();
    }

    private double up(Row row) {
        double count = rows.get(rows.size() - 1).down + 0.5;
        return Math.round((count - row.down) * 1e6) / 1e6;
    }

    private double value(double value) {
        return ChartBuilder.onAxis(figure.unit(), value);
    }

    private boolean isWithin(double value) {
        return value(value) >= scale.min() && value(value) <= scale.max();
    }

    private double within(double value) {
        return Math.max(scale.first(), Math.min(scale.last(), value(value)));
    }

    private String name(String label, List<Row> of, double size) {
        Item first = of.get(0).item;
        String counts = series.size() > 1 || counts(first).isEmpty() ? "" : " (" + counts(first) + ")";
        String tail = counts + (first.mark() == Figure.Mark.NONE ? "" : ", " + ChartBuilder.word(first.mark()));
        if (rowHeight * of.size() < 2.3 * size || TextWidth.of(label + tail, size) <= canvas.width * ONE_LINE) {
            return TextWidth.cut(label, size, canvas.width * WIDEST_NAME - TextWidth.of(tail, size)) + tail;
        }
        String kept = label;
        double room = canvas.width * ONE_LINE;
        for (int length = label.length();
                TextWidth.lines(kept + tail, size, room).size() > 2;
                length--) {
            kept = label.substring(0, length - 1).strip() + "…";
        }
        return String.join("\n", TextWidth.lines(kept + tail, size, room));
    }

    private static String counts(Item item) {
        Long of = item.of();
        Long events = item.events();
        if (of == null) {
            return events == null ? "" : NumberText.count(events);
        }
        return events == null ? "n = " + NumberText.count(of) : NumberText.count(events) + "/" + NumberText.count(of);
    }

    private static double widest(List<String> texts, double size) {
        return texts.stream()
                .flatMap(text -> Stream.of(text.split("\n", -1)))
                .mapToDouble(text -> TextWidth.of(text, size))
                .max()
                .orElse(0);
    }
}
