package entrapment.registry.exports.slides;

import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Figure.Item;
import entrapment.registry.exports.Figure.Mark;
import entrapment.registry.exports.slides.IntervalRows.Row;
import entrapment.registry.exports.slides.Scatter.Spot;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.poi.xddf.usermodel.PresetLineDash;
import org.openxmlformats.schemas.drawingml.x2006.chart.STDLblPos;

/** Points with their intervals, one under another: proportions on an even scale, ratios on a logarithmic one around 1. */
final class IntervalChart {

    private static final double GAP = 8;
    private static final double LEAST_RIGHT = 14;
    private static final double REMARK = 10;
    private static final int MARKER = 10;

    /** What names and counts leave of the width for the plot, at least. */
    private static final double LEAST_PLOT = 0.4;

    private static final String OPEN_ABOVE = "►";
    private static final String OPEN_BELOW = "◄";

    private final ChartBuilder builder;
    private final Figure figure;
    private final List<Figure.Line> lines;
    private final IntervalRows rows;
    private final Scale scale;
    private final Scatter scatter;

    private IntervalChart(ChartBuilder builder, Figure figure) {
        this.builder = builder;
        this.figure = figure;
        this.lines =
                figure.lines().stream().filter(line -> !line.points().isEmpty()).toList();
        this.rows = new IntervalRows(builder, figure, lines);
        List<Double> values = Stream.concat(
                        rows.all.stream()
                                .map(Row::item)
                                .flatMap(item -> Stream.of(item.estimate(), item.lower(), item.upper()))
                                .filter(Objects::nonNull)
                                .map(this::value),
                        lines.stream().map(this::value))
                .toList();
        this.scale = isForest() ? Scale.logarithmic(values) : Scale.linear(values);
        this.scatter = new Scatter(builder);
    }

    /** Draws the first items, as many as can be read, and answers how many. */
    static int draw(ChartBuilder builder, Figure figure) {
        IntervalChart chart = new IntervalChart(builder, figure);
        chart.draw();
        return chart.rows.all.size();
    }

    private boolean isForest() {
        return figure.kind() == Figure.Kind.FOREST;
    }

    private void draw() {
        List<String> names = rows.names();
        List<String> counts = rows.counts();
        builder.margins(
                rows.widest(names) + GAP,
                rows.top,
                Math.max(rows.widest(counts) + GAP, LEAST_RIGHT),
                IntervalRows.BOTTOM);
        builder.scale(scatter.across, scale);
        builder.style(scatter.across, figure.axis(), true);
        scatter.up.setMinimum(0);
        scatter.up.setMaximum(rows.height);
        scatter.up.setVisible(false);

        scatter.texts(
                "labels",
                rows.upOfNames().stream().map(up -> new Spot(scale.first(), up)).toList(),
                names,
                STDLblPos.L,
                rows.textSize,
                builder.palette.text());
        referenceLines();
        IntStream.range(0, rows.series.size()).forEach(this::intervals);
        IntStream.range(0, rows.series.size()).forEach(this::points);
        arrows("open above", OPEN_ABOVE, scale.last(), figure::isOpenAbove);
        arrows("open below", OPEN_BELOW, scale.first(), figure::isOpenBelow);
        if (rows.areOfSeveralSeries()) {
            scatter.texts(
                    "counts", at(scale.last(), rows.all), counts, STDLblPos.R, rows.textSize, builder.palette.muted());
        }
        scatter.done(rows.areOfSeveralSeries());
    }

    /**
     * Reference lines stand upright here. Each has its name at its top, one row higher than the one before, so that no line
     * goes through the name of another.
     */
    private void referenceLines() {
        if (isForest()) {
            scatter.line(
                    "no difference", upright(1, rows.height), ChartBuilder.line(builder.palette.text(), 1.25, null));
        }
        double top = rows.highest();
        List<Figure.Line> named = new ArrayList<>(lines);
        named.sort(Comparator.comparing(line -> line.points().get(0).y()));
        boolean rightwards = named.isEmpty() || hasRoomAtRight(named.get(named.size() - 1));
        if (rightwards) {
            Collections.reverse(named);
        }
        for (Figure.Line line : named) {
            scatter.line(
                    line.label(),
                    upright(value(line), top + 0.5),
                    ChartBuilder.line(builder.palette.muted(), 1.25, PresetLineDash.DASH));
            if (!line.label().isEmpty()) {
                scatter.texts(
                        "name of " + line.label(),
                        List.of(new Spot(value(line), top + 0.5)),
                        List.of(line.label()),
                        rightwards ? STDLblPos.R : STDLblPos.L,
                        rows.textSize,
                        builder.palette.muted());
                top++;
            }
        }
    }

    private boolean hasRoomAtRight(Figure.Line line) {
        return (1 - scale.along(value(line))) * builder.width * LEAST_PLOT > TextWidth.of(line.label(), rows.textSize);
    }

    private static List<Spot> upright(double value, double height) {
        return List.of(new Spot(value, 0), new Spot(value, height));
    }

    private void intervals(int number) {
        String series = rows.series.get(number);
        List<List<Spot>> segments = new ArrayList<>();
        for (Row row : rows.of(series)) {
            Double lower = row.item().lower();
            Double upper = row.item().upper();
            if (lower != null && upper != null) {
                segments.add(List.of(new Spot(within(lower), rows.up(row)), new Spot(within(upper), rows.up(row))));
            }
        }
        if (!segments.isEmpty()) {
            scatter.segments(
                    "intervals" + (series.isEmpty() ? "" : " of " + series),
                    segments,
                    ChartBuilder.line(builder.palette.ink(number), 2, null));
        }
    }

    private void points(int number) {
        List<Row> ofSeries = rows.of(rows.series.get(number));
        for (Mark mark : Mark.values()) {
            List<Row> alike = ofSeries.stream()
                    .filter(row -> toldByShape(row) == mark)
                    .filter(row -> figure.shape(row.item()).isPresent())
                    .toList();
            if (!alike.isEmpty()) {
                scatter.points(
                        pointsName(number, mark),
                        alike.stream()
                                .map(row -> new Spot(value(estimate(row)), rows.up(row)))
                                .toList(),
                        marker(number, alike.get(0)));
            }
        }
        List<Row> unknown = ofSeries.stream()
                .filter(row -> row.item().estimate() == null && row.item().lower() == null)
                .toList();
        scatter.texts(
                "not estimable",
                at(scale.first(), unknown),
                unknown.stream().map(row -> "not estimable").toList(),
                STDLblPos.R,
                REMARK,
                builder.palette.muted());
    }

    /** Where shapes tell the series apart, a mark is told by its word alone. */
    private Mark toldByShape(Row row) {
        return rows.areOfSeveralSeries() ? Mark.NONE : row.item().mark();
    }

    private Marker marker(int number, Row row) {
        Mark mark = toldByShape(row);
        return mark == Mark.NONE
                ? new Marker(figure.shape(row.item()).orElseThrow(), MARKER, builder.palette.ink(number))
                : Marker.of(mark, builder.palette);
    }

    private String pointsName(int number, Mark mark) {
        String series = rows.series.get(number);
        if (mark != Mark.NONE) {
            return series.isEmpty() ? Marker.word(mark) : series + ", " + Marker.word(mark);
        }
        return series.isEmpty() ? "estimate" : series;
    }

    /** Where an item goes on beyond the axis. */
    private void arrows(String name, String arrow, double end, Predicate<Item> isOpen) {
        List<Row> open =
                rows.all.stream().filter(row -> isOpen.test(row.item())).toList();
        scatter.texts(
                name,
                at(end, open),
                open.stream().map(row -> arrow).toList(),
                STDLblPos.CTR,
                rows.textSize + 2,
                builder.palette.text());
    }

    private List<Spot> at(double across, List<Row> some) {
        return some.stream().map(row -> new Spot(across, rows.up(row))).toList();
    }

    private static double estimate(Row row) {
        return Objects.requireNonNull(row.item().estimate());
    }

    private double value(Figure.Line line) {
        return value(line.points().get(0).y());
    }

    private double value(double value) {
        return ChartBuilder.onAxis(figure.unit(), value);
    }

    private double within(double value) {
        return Math.max(scale.first(), Math.min(scale.last(), value(value)));
    }
}
