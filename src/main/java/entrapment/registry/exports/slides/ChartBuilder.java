package entrapment.registry.exports.slides;

import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import java.util.Arrays;
import java.util.List;
import org.apache.poi.xddf.usermodel.PresetLineDash;
import org.apache.poi.xddf.usermodel.XDDFColor;
import org.apache.poi.xddf.usermodel.XDDFLineProperties;
import org.apache.poi.xddf.usermodel.XDDFNoFillProperties;
import org.apache.poi.xddf.usermodel.XDDFPresetLineDash;
import org.apache.poi.xddf.usermodel.XDDFShapeProperties;
import org.apache.poi.xddf.usermodel.XDDFSolidFillProperties;
import org.apache.poi.xddf.usermodel.chart.AxisTickMark;
import org.apache.poi.xddf.usermodel.chart.DisplayBlanks;
import org.apache.poi.xddf.usermodel.chart.XDDFValueAxis;
import org.apache.poi.xslf.usermodel.XSLFChart;
import org.jspecify.annotations.Nullable;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTLayout;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTLegend;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTManualLayout;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTMarker;
import org.openxmlformats.schemas.drawingml.x2006.chart.STLayoutMode;
import org.openxmlformats.schemas.drawingml.x2006.chart.STLayoutTarget;
import org.openxmlformats.schemas.drawingml.x2006.chart.STLegendPos;
import org.openxmlformats.schemas.drawingml.x2006.chart.STMarkerStyle;

/** A chart being drawn: its workbook, the room it has in points, and what every kind of chart is made of. */
final class ChartBuilder {

    private static final int LEGEND_SIZE = 12;
    private static final int LEGEND_KEY = 30;

    final XSLFChart chart;
    final Palette palette;
    final double width;
    final double height;
    final ChartWorkbook workbook;

    ChartBuilder(XSLFChart chart, Palette palette, double width, double height) {
        this.chart = chart;
        this.palette = palette;
        this.width = width;
        this.height = height;
        this.workbook = new ChartWorkbook(chart);
        chart.setAutoTitleDeleted(true);
        chart.displayBlanksAs(DisplayBlanks.GAP);
        chart.getOrAddShapeProperties().setFillProperties(new XDDFNoFillProperties());
        chart.getOrAddShapeProperties().setLineProperties(new XDDFLineProperties(new XDDFNoFillProperties()));
        if (!chart.getCTChartSpace().isSetRoundedCorners()) {
            chart.getCTChartSpace().addNewRoundedCorners();
        }
        chart.getCTChartSpace().getRoundedCorners().setVal(false);
    }

    /** A value as its axis shows it, in digits that every machine agrees on. */
    static double onAxis(Unit unit, double value) {
        return Double.isInfinite(value) ? value : Double.parseDouble(NumberText.exact(unit.onAxis(value)));
    }

    /** Leaves room around the plot, in points. */
    void margins(double left, double top, double right, double bottom) {
        var area = chart.getCTChart().getPlotArea();
        CTLayout layout = area.isSetLayout() ? area.getLayout() : area.addNewLayout();
        CTManualLayout manual = layout.isSetManualLayout() ? layout.getManualLayout() : layout.addNewManualLayout();
        manual.addNewLayoutTarget().setVal(STLayoutTarget.INNER);
        manual.addNewXMode().setVal(STLayoutMode.EDGE);
        manual.addNewYMode().setVal(STLayoutMode.EDGE);
        manual.addNewX().setVal(fraction(left / width));
        manual.addNewY().setVal(fraction(top / height));
        manual.addNewW().setVal(fraction((width - left - right) / width));
        manual.addNewH().setVal(fraction((height - top - bottom) / height));
    }

    /** The last bits of a quotient need not be the same everywhere. */
    private static double fraction(double value) {
        return Math.round(value * 1e5) / 1e5;
    }

    /** How high a legend of these names is. */
    double legendHeight(List<String> names) {
        double all = names.stream()
                .mapToDouble(name -> TextWidth.of(name, LEGEND_SIZE) + LEGEND_KEY)
                .sum();
        return 4 + LEGEND_SIZE * 1.5 * Math.ceil(all / (width * 0.95));
    }

    /** A legend above the plot that leaves out the series that are only lines and labels of others. */
    void legend(List<Integer> leftOut) {
        CTLegend legend = chart.getCTChart().addNewLegend();
        legend.addNewLegendPos().setVal(STLegendPos.T);
        for (int series : leftOut) {
            var entry = legend.addNewLegendEntry();
            entry.addNewIdx().setVal(series);
            entry.addNewDelete().setVal(true);
        }
        legend.addNewOverlay().setVal(false);
        ChartText.plain(legend.addNewTxPr(), LEGEND_SIZE, palette.text());
    }

    void scale(XDDFValueAxis axis, Scale scale) {
        axis.setMinimum(scale.min());
        axis.setMaximum(scale.max());
        if (scale.base() > 0) {
            axis.setLogBase(scale.base());
        }
        axis.setMajorUnit(scale.step());
        axis.setNumberFormat("General");
    }

    /** Text, line and title of an axis; its grid where it has numbers that are read off. */
    void style(XDDFValueAxis axis, String title, boolean grid) {
        axis.setMajorTickMark(AxisTickMark.NONE);
        axis.setMinorTickMark(AxisTickMark.NONE);
        axis.getOrAddShapeProperties().setLineProperties(line(palette.rule(), 0.75, null));
        if (grid) {
            axis.getOrAddMajorGridProperties().setLineProperties(line(palette.rule(), 0.5, null));
        }
        var drawn = Arrays.stream(chart.getCTChart().getPlotArea().getValAxArray())
                .filter(one -> one.getAxId().getVal() == axis.getId())
                .findFirst()
                .orElseThrow();
        ChartText.plain(drawn.isSetTxPr() ? drawn.getTxPr() : drawn.addNewTxPr(), ChartText.AXIS_SIZE, palette.muted());
        if (!title.isEmpty()) {
            ChartText.title(drawn.isSetTitle() ? drawn.getTitle() : drawn.addNewTitle(), title, palette.muted());
        }
    }

    static XDDFLineProperties line(String ink, double width, @Nullable PresetLineDash dash) {
        XDDFLineProperties line = new XDDFLineProperties(fill(ink));
        line.setWidth(width);
        if (dash != null) {
            line.setPresetDash(new XDDFPresetLineDash(dash));
        }
        return line;
    }

    static XDDFLineProperties noLine() {
        return new XDDFLineProperties(new XDDFNoFillProperties());
    }

    static XDDFSolidFillProperties fill(String ink) {
        return new XDDFSolidFillProperties(XDDFColor.from(Palette.bytes(ink)));
    }

    /** Filled always: an outline alone is not shown by every program. */
    void marker(CTMarker drawn, @Nullable Marker marker) {
        (drawn.isSetSymbol() ? drawn.getSymbol() : drawn.addNewSymbol())
                .setVal(marker == null ? STMarkerStyle.NONE : marker.symbol());
        if (marker == null) {
            return;
        }
        drawn.addNewSize().setVal((short) marker.size());
        XDDFShapeProperties shape = new XDDFShapeProperties();
        shape.setFillProperties(fill(marker.ink()));
        shape.setLineProperties(line(palette.ground(), 0.75, null));
        drawn.setSpPr(shape.getXmlObject());
    }
}
