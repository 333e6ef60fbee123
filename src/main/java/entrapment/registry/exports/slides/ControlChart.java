package entrapment.registry.exports.slides;

import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Figure.Item;
import entrapment.registry.exports.Figure.Mark;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Stream;
import org.apache.poi.xddf.usermodel.PresetLineDash;
import org.apache.poi.xddf.usermodel.XDDFLineProperties;
import org.apache.poi.xddf.usermodel.chart.AxisCrossBetween;
import org.apache.poi.xddf.usermodel.chart.AxisCrosses;
import org.apache.poi.xddf.usermodel.chart.AxisPosition;
import org.apache.poi.xddf.usermodel.chart.AxisTickMark;
import org.apache.poi.xddf.usermodel.chart.ChartTypes;
import org.apache.poi.xddf.usermodel.chart.Grouping;
import org.apache.poi.xddf.usermodel.chart.XDDFCategoryAxis;
import org.apache.poi.xddf.usermodel.chart.XDDFCategoryDataSource;
import org.apache.poi.xddf.usermodel.chart.XDDFLineChartData;
import org.apache.poi.xddf.usermodel.chart.XDDFValueAxis;
import org.jspecify.annotations.Nullable;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTCatAx;
import org.openxmlformats.schemas.drawingml.x2006.chart.STDLblPos;

/** A value for each period or event in their order, with centre lines, limits and signals. */
final class ControlChart {

    private static final double LEFT = 52;
    private static final double TOP = 12;
    private static final double BOTTOM = 44;
    private static final double BETWEEN_LABELS = 8;
    private static final double MOST_SLANTING = 130;

    /** 45 degrees upwards, in the unit of Office. */
    private static final int SLANT = -2_700_000;

    private static final double SIZE = 11;
    private static final double LINE_NAMES = 0.3;

    /** Limits of a period with few uses reach far above every value; they may leave the plot at the top. */
    private static final double ABOVE_ESTIMATES = 1.6;

    /** Up to so many points each has a marker of its own; more would be a band. */
    private static final int MARKERS = 80;

    private final ChartBuilder builder;
    private final Figure figure;
    private final Scale scale;
    private final XDDFCategoryAxis across;
    private final XDDFCategoryDataSource labels;
    private final XDDFLineChartData data;
    private final List<String> lineNames = new ArrayList<>();
    private final List<Double> lineEnds = new ArrayList<>();

    private ControlChart(ChartBuilder builder, Figure figure) {
        this.builder = builder;
        this.figure = figure;
        List<Double> estimates = present(values(Item::estimate));
        double highest =
                estimates.stream().mapToDouble(Double::doubleValue).max().orElse(0);
        Stream<Double> limits = Stream.of(
                        present(values(Item::lower)).stream(),
                        present(values(Item::upper)).stream(),
                        figure.lines().stream()
                                .flatMap(line -> line.points().stream())
                                .map(point -> value(point.y())))
                .flatMap(Function.identity())
                .map(limit -> highest > 0 ? Math.min(limit, highest * ABOVE_ESTIMATES) : limit);
        this.scale = Scale.linear(Stream.concat(estimates.stream(), limits).toList());

        this.across = builder.chart.createCategoryAxis(AxisPosition.BOTTOM);
        XDDFValueAxis up = builder.chart.createValueAxis(AxisPosition.LEFT);
        across.setCrosses(AxisCrosses.MIN);
        up.setCrosses(AxisCrosses.MIN);
        up.setCrossBetween(AxisCrossBetween.BETWEEN);
        builder.scale(up, scale);
        builder.style(up, figure.axis(), true);
        this.data = (XDDFLineChartData) builder.chart.createData(ChartTypes.LINE, across, up);
        data.setVaryColors(false);
        data.setGrouping(Grouping.STANDARD);
        this.labels = builder.workbook.texts(
                "label", figure.items().stream().map(Item::label).toList());
    }

    static void draw(ChartBuilder builder, Figure figure) {
        new ControlChart(builder, figure).draw();
    }

    private void draw() {
        lines();
        XDDFLineProperties joined = ChartBuilder.line(builder.palette.first(), 2, null);
        boolean few = figure.items().size() <= MARKERS;
        XDDFLineChartData.Series estimates =
                series("estimate", values(Item::estimate), few ? Marker.of(Mark.NONE, builder.palette) : null, joined);
        for (int item = 0; item < figure.items().size(); item++) {
            if (figure.items().get(item).mark() != Mark.NONE) {
                var point = estimates.getCTLineSer().addNewDPt();
                point.addNewIdx().setVal(item);
                builder.marker(point.addNewMarker(), null);
            }
        }
        for (Mark mark : List.of(Mark.HIGH, Mark.LOW, Mark.OWN)) {
            marked(mark);
        }
        double right = 12 + Math.min(builder.width * LINE_NAMES, TextWidth.widest(lineNames, SIZE));
        double bottom = labelAcross(builder.width - LEFT - right);
        nameLines(builder.height - TOP - bottom);
        builder.margins(LEFT, TOP, right, bottom);
        builder.chart.plot(data);
    }

    private void lines() {
        for (Figure.Line line : figure.lines()) {
            line(line.label(), along(line), ChartBuilder.line(builder.palette.muted(), 1.5, null));
        }
        XDDFLineProperties dashed = ChartBuilder.line(builder.palette.muted(), 1.5, PresetLineDash.DASH);
        line("upper limit", values(Item::upper), dashed);
        line("lower limit", values(Item::lower), dashed);
    }

    private void line(String name, List<@Nullable Double> values, XDDFLineProperties line) {
        List<Double> present = present(values);
        if (!present.isEmpty()) {
            series(name, values, null, line);
            lineNames.add(name);
            lineEnds.add(Math.min(scale.max(), present.get(present.size() - 1)));
        }
    }

    /** The height of a line at each item: level where it has one point, else between the points at its sides. */
    private List<@Nullable Double> along(Figure.Line line) {
        List<Figure.Point> points = line.points();
        Double[] heights = new Double[figure.items().size()];
        if (points.size() == 1) {
            Arrays.fill(heights, value(points.get(0).y()));
        }
        for (int right = 1; right < points.size(); right++) {
            Figure.Point from = points.get(right - 1);
            Figure.Point to = points.get(right);
            for (int item = (int) Math.max(0, Math.ceil(from.x())); item < heights.length && item <= to.x(); item++) {
                double part = to.x() == from.x() ? 1 : (item - from.x()) / (to.x() - from.x());
                heights[item] = value(from.y() + part * (to.y() - from.y()));
            }
        }
        return Arrays.asList(heights);
    }

    private void marked(Mark mark) {
        List<@Nullable Double> values = values(item -> item.mark() == mark ? item.estimate() : null);
        if (!present(values).isEmpty()) {
            XDDFLineChartData.Series series =
                    series(Marker.word(mark), values, Marker.of(mark, builder.palette), ChartBuilder.noLine());
            List<String> words = values.stream()
                    .map(value -> value == null ? "" : Marker.word(mark))
                    .toList();
            ChartText.labels(
                    series.getCTLineSer().addNewDLbls(),
                    words,
                    mark == Mark.LOW && !isAtFoot(present(values))
                            ? STDLblPos.B
                            : mark == Mark.LOW ? STDLblPos.R : STDLblPos.T,
                    SIZE + 1,
                    builder.palette.text());
        }
    }

    /** Whether a text under one of the points would stand on the axis. */
    private boolean isAtFoot(List<Double> values) {
        return values.stream().anyMatch(value -> scale.along(value) < 0.1);
    }

    /** Names the lines at their right ends, each by a point that is not drawn. */
    private void nameLines(double height) {
        List<Double> heights = scale.apart(lineEnds, height, SIZE * 1.3);
        int last = figure.items().size() - 1;
        for (int line = 0; line < lineNames.size(); line++) {
            Double[] values = new Double[last + 1];
            String[] texts = new String[last + 1];
            Arrays.fill(texts, "");
            values[last] = heights.get(line);
            texts[last] = TextWidth.cut(lineNames.get(line), SIZE, builder.width * LINE_NAMES);
            XDDFLineChartData.Series series =
                    series("name of " + lineNames.get(line), Arrays.asList(values), null, ChartBuilder.noLine());
            ChartText.labels(
                    series.getCTLineSer().addNewDLbls(), List.of(texts), STDLblPos.R, SIZE, builder.palette.muted());
        }
    }

    private XDDFLineChartData.Series series(
            String name, List<@Nullable Double> values, @Nullable Marker marker, XDDFLineProperties line) {
        XDDFLineChartData.Series series =
                (XDDFLineChartData.Series) data.addSeries(labels, builder.workbook.numbers(name, values));
        builder.workbook.name(series, name);
        series.setSmooth(false);
        series.setLineProperties(line);
        var drawn = series.getCTLineSer();
        builder.marker(drawn.isSetMarker() ? drawn.getMarker() : drawn.addNewMarker(), marker);
        return series;
    }

    /** Labels beside each other where they fit, else slanting and not each; answers the height they need. */
    private double labelAcross(double room) {
        across.setMajorTickMark(AxisTickMark.NONE);
        across.getOrAddShapeProperties().setLineProperties(ChartBuilder.line(builder.palette.rule(), 0.75, null));
        CTCatAx axis = builder.chart.getCTChart().getPlotArea().getCatAxArray(0);
        ChartText.plain(
                axis.isSetTxPr() ? axis.getTxPr() : axis.addNewTxPr(), ChartText.AXIS_SIZE, builder.palette.muted());
        if (!figure.across().isEmpty()) {
            ChartText.title(
                    axis.isSetTitle() ? axis.getTitle() : axis.addNewTitle(), figure.across(), builder.palette.muted());
        }
        int count = figure.items().size();
        double widest =
                TextWidth.widest(figure.items().stream().map(Item::label).toList(), ChartText.AXIS_SIZE);
        boolean slanting = (widest + BETWEEN_LABELS) * count > room;
        axis.getTxPr().getBodyPr().setRot(slanting ? SLANT : 0);
        axis.addNewTickLblSkip().setVal(slanting ? (int) Math.ceil(BETWEEN_LABELS * 2 * count / room) : 1);
        return BOTTOM + (slanting ? Math.min(widest, MOST_SLANTING) * Math.sqrt(0.5) : 0);
    }

    private List<@Nullable Double> values(Function<Item, @Nullable Double> of) {
        List<@Nullable Double> values = new ArrayList<>();
        for (Item item : figure.items()) {
            Double value = of.apply(item);
            values.add(value == null || value.isInfinite() ? null : value(value));
        }
        return values;
    }

    private static List<Double> present(List<@Nullable Double> values) {
        return values.stream()
                .filter(Objects::nonNull)
                .map(Objects::requireNonNull)
                .toList();
    }

    private double value(double value) {
        return ChartBuilder.onAxis(figure.unit(), value);
    }
}
