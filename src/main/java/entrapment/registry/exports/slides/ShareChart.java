package entrapment.registry.exports.slides;

import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Figure.Item;
import entrapment.registry.exports.NumberText;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.apache.poi.xddf.usermodel.chart.AxisCrosses;
import org.apache.poi.xddf.usermodel.chart.AxisOrientation;
import org.apache.poi.xddf.usermodel.chart.AxisPosition;
import org.apache.poi.xddf.usermodel.chart.AxisTickMark;
import org.apache.poi.xddf.usermodel.chart.BarDirection;
import org.apache.poi.xddf.usermodel.chart.BarGrouping;
import org.apache.poi.xddf.usermodel.chart.ChartTypes;
import org.apache.poi.xddf.usermodel.chart.XDDFBarChartData;
import org.apache.poi.xddf.usermodel.chart.XDDFCategoryAxis;
import org.apache.poi.xddf.usermodel.chart.XDDFCategoryDataSource;
import org.apache.poi.xddf.usermodel.chart.XDDFValueAxis;
import org.jspecify.annotations.Nullable;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTCatAx;
import org.openxmlformats.schemas.drawingml.x2006.chart.STDLblPos;

/** A bar for each label, of the shares of each series, in steps of lightness. */
final class ShareChart {

    private static final double LEAST_ROW = 17;
    private static final double BOTTOM = 40;
    private static final double LARGEST_TEXT = 13;
    private static final double SMALLEST_TEXT = 10;
    private static final double NAMES = 0.45;
    private static final double ROOMY_NAMES = 0.36;
    private static final int BARS_BESIDE_GAPS = 55;

    /** More steps of lightness than this are not told apart; further series step from another ink. Patterns would not be shown by every program. */
    private static final int STEPS = 5;

    private final ChartBuilder builder;
    private final Figure figure;
    private final Map<String, Map<String, Item>> labels = new LinkedHashMap<>();
    private final List<String> series;
    private final double top;
    private final double size;

    private ShareChart(ChartBuilder builder, Figure figure) {
        this.builder = builder;
        this.figure = figure;
        this.series = figure.items().stream().map(Item::series).distinct().toList();
        this.top = builder.legendHeight(series);
        int most = (int) ((builder.height - top - BOTTOM) / LEAST_ROW);
        for (Item item : figure.items()) {
            if (labels.containsKey(item.label()) || labels.size() < most) {
                labels.computeIfAbsent(item.label(), label -> new LinkedHashMap<>())
                        .put(item.series(), item);
            }
        }
        double rowHeight = (builder.height - top - BOTTOM) / labels.size();
        this.size = Math.min(LARGEST_TEXT, Math.max(SMALLEST_TEXT, rowHeight * 0.5));
    }

    /** Draws the first bars, as many as can be read, and answers how many items that are. */
    static int draw(ChartBuilder builder, Figure figure) {
        ShareChart shares = new ShareChart(builder, figure);
        shares.draw();
        return (int) figure.items().stream()
                .filter(item -> shares.labels.containsKey(item.label()))
                .count();
    }

    private void draw() {
        List<String> names = labels.entrySet().stream().map(this::name).toList();
        double left = 10 + Math.min(builder.width * (isRoomy() ? ROOMY_NAMES : NAMES), TextWidth.widest(names, size));
        builder.margins(left, top, 16, BOTTOM);
        XDDFCategoryAxis along = builder.chart.createCategoryAxis(AxisPosition.LEFT);
        XDDFValueAxis across = builder.chart.createValueAxis(AxisPosition.BOTTOM);
        along.setOrientation(AxisOrientation.MAX_MIN);
        along.setMajorTickMark(AxisTickMark.NONE);
        along.getOrAddShapeProperties().setLineProperties(ChartBuilder.line(builder.palette.rule(), 0.75, null));
        // The bars run from the top; the numbers stand at the other end of their axis, below the last one.
        across.setCrosses(AxisCrosses.MAX);
        builder.scale(
                across,
                new Scale(0, ChartBuilder.onAxis(figure.unit(), 1), ChartBuilder.onAxis(figure.unit(), 0.25), 0));
        builder.style(across, figure.axis(), false);
        CTCatAx axis = builder.chart.getCTChart().getPlotArea().getCatAxArray(0);
        ChartText.plain(axis.isSetTxPr() ? axis.getTxPr() : axis.addNewTxPr(), size, builder.palette.text());
        axis.addNewTickLblSkip().setVal(1);

        XDDFBarChartData data = (XDDFBarChartData) builder.chart.createData(ChartTypes.BAR, along, across);
        data.setBarDirection(BarDirection.BAR);
        // Not stretched to 100 %: where a share is hidden or unknown, the bar ends early and shows it.
        data.setBarGrouping(BarGrouping.STACKED);
        data.setOverlap((byte) 100);
        data.setGapWidth(BARS_BESIDE_GAPS);
        data.setVaryColors(false);
        XDDFCategoryDataSource categories = builder.workbook.texts("label", names);
        for (int number = 0; number < series.size(); number++) {
            add(data, categories, number, builder.width - left - 16);
        }
        builder.chart.plot(data);
        builder.legend(List.of());
    }

    private void add(XDDFBarChartData data, XDDFCategoryDataSource categories, int number, double room) {
        List<@Nullable Double> values = new ArrayList<>();
        List<String> texts = new ArrayList<>();
        for (Map<String, Item> bar : labels.values()) {
            Item item = bar.get(series.get(number));
            Double share = item == null ? null : item.estimate();
            String text = share == null ? "" : figure.unit().text(share);
            values.add(share == null ? null : ChartBuilder.onAxis(figure.unit(), share));
            texts.add(share != null && share * room > TextWidth.of(text, size) + 6 ? text : "");
        }
        String name = series.get(number).isEmpty() ? "share" : series.get(number);
        XDDFBarChartData.Series one =
                (XDDFBarChartData.Series) data.addSeries(categories, builder.workbook.numbers(name, values));
        builder.workbook.name(one, name);
        int family = number / STEPS;
        int steps = Math.min(STEPS, series.size() - family * STEPS);
        String fill = builder.palette.step(family, number % STEPS, steps);
        one.setFillProperties(ChartBuilder.fill(fill));
        one.setLineProperties(ChartBuilder.line(builder.palette.text(), 0.5, null));
        ChartText.labels(one.getCTBarSer().addNewDLbls(), texts, STDLblPos.CTR, size, Palette.on(fill));
    }

    /** Whether a name may take two lines. */
    private boolean isRoomy() {
        return (builder.height - top - BOTTOM) / labels.size() > 2.6 * size;
    }

    private String name(Map.Entry<String, Map<String, Item>> bar) {
        Long of = bar.getValue().values().stream()
                .map(Item::of)
                .filter(Objects::nonNull)
                .findFirst()
                .orElse(null);
        String tail = of == null ? "" : " (n = " + NumberText.count(of) + ")";
        double room = builder.width * (isRoomy() ? 1.7 * ROOMY_NAMES : NAMES);
        return TextWidth.cut(bar.getKey(), size, room - TextWidth.of(tail, size)) + tail;
    }
}
