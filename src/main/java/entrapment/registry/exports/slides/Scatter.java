package entrapment.registry.exports.slides;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.apache.poi.xddf.usermodel.XDDFLineProperties;
import org.apache.poi.xddf.usermodel.chart.AxisCrosses;
import org.apache.poi.xddf.usermodel.chart.AxisPosition;
import org.apache.poi.xddf.usermodel.chart.ChartTypes;
import org.apache.poi.xddf.usermodel.chart.ScatterStyle;
import org.apache.poi.xddf.usermodel.chart.XDDFScatterChartData;
import org.apache.poi.xddf.usermodel.chart.XDDFValueAxis;
import org.jspecify.annotations.Nullable;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTDLbls;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTScatterSer;
import org.openxmlformats.schemas.drawingml.x2006.chart.STDLblPos;

/**
 * Points and lines between two axes of numbers. Intervals are lines, because error bars across are not shown by every program;
 * and the names at their left are labels of points that are not drawn, because neither axis can carry text.
 */
final class Scatter {

    /** A place on the plot. */
    record Spot(double x, double y) {}

    private record Series(
            String name,
            List<@Nullable Spot> spots,
            @Nullable Marker marker,
            XDDFLineProperties line,
            @Nullable Consumer<CTDLbls> labels) {}

    final XDDFValueAxis across;
    final XDDFValueAxis up;
    private final ChartBuilder builder;
    private final XDDFScatterChartData data;
    private final List<Series> all = new ArrayList<>();

    Scatter(ChartBuilder builder) {
        this.builder = builder;
        this.across = builder.chart.createValueAxis(AxisPosition.BOTTOM);
        this.up = builder.chart.createValueAxis(AxisPosition.LEFT);
        across.setCrosses(AxisCrosses.MIN);
        up.setCrosses(AxisCrosses.MIN);
        this.data = (XDDFScatterChartData) builder.chart.createData(ChartTypes.SCATTER, across, up);
        data.setStyle(ScatterStyle.LINE_MARKER);
        data.setVaryColors(false);
    }

    void points(String name, List<Spot> spots, Marker marker) {
        all.add(new Series(name, List.copyOf(spots), marker, ChartBuilder.noLine(), null));
    }

    void line(String name, List<Spot> spots, XDDFLineProperties line) {
        all.add(new Series(name, List.copyOf(spots), null, line, null));
    }

    /** Lines of two ends each, with a blank row between them in the sheet. */
    void segments(String name, List<List<Spot>> segments, XDDFLineProperties line) {
        List<@Nullable Spot> spots = new ArrayList<>();
        for (List<Spot> segment : segments) {
            spots.addAll(segment);
            spots.add(null);
        }
        all.add(new Series(name, spots, null, line, null));
    }

    void texts(String name, List<Spot> spots, List<String> texts, STDLblPos.Enum side, double size, String ink) {
        if (!spots.isEmpty()) {
            all.add(new Series(
                    name,
                    List.copyOf(spots),
                    null,
                    ChartBuilder.noLine(),
                    labels -> ChartText.labels(labels, texts, side, size, ink)));
        }
    }

    /** Writes the series into the chart, with a legend of those that have a marker, if asked for. */
    void done(boolean legend) {
        int rows = all.stream().mapToInt(series -> series.spots.size()).max().orElse(0);
        all.forEach(series -> add(series, rows));
        builder.chart.plot(data);
        if (legend) {
            builder.legend(IntStream.range(0, all.size())
                    .filter(number -> all.get(number).marker == null)
                    .boxed()
                    .toList());
        }
    }

    /** All series have as many rows, blank at the end: LibreOffice drops those before a longer one. */
    private void add(Series series, int rows) {
        List<@Nullable Spot> spots = new ArrayList<>(series.spots);
        spots.addAll(Collections.nCopies(rows - spots.size(), null));
        var across = builder.workbook.numbers(series.name + ": across", values(spots, Spot::x));
        var up = builder.workbook.numbers(series.name, values(spots, Spot::y));
        XDDFScatterChartData.Series added = (XDDFScatterChartData.Series) data.addSeries(across, up);
        builder.workbook.name(added, series.name);
        added.setSmooth(false);
        added.setLineProperties(series.line);
        CTScatterSer drawn = added.getCTScatterSer();
        builder.marker(drawn.isSetMarker() ? drawn.getMarker() : drawn.addNewMarker(), series.marker);
        if (series.labels != null) {
            series.labels.accept(drawn.addNewDLbls());
        }
    }

    private static List<@Nullable Double> values(List<@Nullable Spot> spots, Function<Spot, Double> of) {
        List<@Nullable Double> values = new ArrayList<>();
        spots.forEach(spot -> values.add(spot == null ? null : of.apply(spot)));
        return values;
    }
}
