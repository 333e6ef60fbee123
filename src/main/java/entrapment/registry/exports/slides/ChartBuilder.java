package entrapment.registry.exports.slides;

import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import java.io.IOException;
import java.util.List;
import java.util.stream.Stream;
import org.apache.poi.openxml4j.exceptions.InvalidFormatException;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.xddf.usermodel.PresetLineDash;
import org.apache.poi.xddf.usermodel.XDDFColor;
import org.apache.poi.xddf.usermodel.XDDFLineProperties;
import org.apache.poi.xddf.usermodel.XDDFNoFillProperties;
import org.apache.poi.xddf.usermodel.XDDFPresetLineDash;
import org.apache.poi.xddf.usermodel.XDDFShapeProperties;
import org.apache.poi.xddf.usermodel.XDDFSolidFillProperties;
import org.apache.poi.xddf.usermodel.chart.AxisTickMark;
import org.apache.poi.xddf.usermodel.chart.DisplayBlanks;
import org.apache.poi.xddf.usermodel.chart.XDDFCategoryDataSource;
import org.apache.poi.xddf.usermodel.chart.XDDFChartData;
import org.apache.poi.xddf.usermodel.chart.XDDFDataSourcesFactory;
import org.apache.poi.xddf.usermodel.chart.XDDFNumericalDataSource;
import org.apache.poi.xddf.usermodel.chart.XDDFValueAxis;
import org.apache.poi.xslf.usermodel.XSLFChart;
import org.apache.poi.xssf.usermodel.XSSFRow;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.jspecify.annotations.Nullable;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTDLbl;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTDLbls;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTLayout;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTLegend;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTManualLayout;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTMarker;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTTitle;
import org.openxmlformats.schemas.drawingml.x2006.chart.STDLblPos;
import org.openxmlformats.schemas.drawingml.x2006.chart.STLayoutMode;
import org.openxmlformats.schemas.drawingml.x2006.chart.STLayoutTarget;
import org.openxmlformats.schemas.drawingml.x2006.chart.STLegendPos;
import org.openxmlformats.schemas.drawingml.x2006.chart.STMarkerStyle;
import org.openxmlformats.schemas.drawingml.x2006.main.CTRegularTextRun;
import org.openxmlformats.schemas.drawingml.x2006.main.CTTextBody;
import org.openxmlformats.schemas.drawingml.x2006.main.CTTextCharacterProperties;
import org.openxmlformats.schemas.drawingml.x2006.main.STTextAlignType;
import org.openxmlformats.schemas.drawingml.x2006.main.STTextWrappingType;

/**
 * A chart being drawn: the sheet its numbers stand in, so that they can be edited, the room it has in points, and what every
 * kind of chart is made of.
 */
final class ChartBuilder {

    static final int TEXT_SIZE = 11;

    private static final int LEGEND_SIZE = 12;
    private static final int LEGEND_KEY = 30;

    /** Keeps a text off what it stands beside; an ordinary space at its end would be dropped. */
    private static final String SPACE = "\u00a0";

    /** A marker: never told apart by its colour alone. */
    record Look(STMarkerStyle.Enum symbol, int size, String ink) {}

    final XSLFChart chart;
    final Palette palette;
    final double width;
    final double height;
    private final XSSFSheet sheet;
    private int columns;

    ChartBuilder(XSLFChart chart, Palette palette, double width, double height) {
        this.chart = chart;
        this.palette = palette;
        this.width = width;
        this.height = height;
        try {
            XSSFWorkbook workbook = chart.getWorkbook();
            this.sheet = workbook.getNumberOfSheets() > 0 ? workbook.getSheetAt(0) : workbook.createSheet();
            workbook.setSheetName(0, "Figure");
        } catch (IOException | InvalidFormatException impossible) {
            throw new IllegalStateException(impossible);
        }
        chart.setAutoTitleDeleted(true);
        chart.displayBlanksAs(DisplayBlanks.GAP);
        chart.getOrAddShapeProperties().setFillProperties(new XDDFNoFillProperties());
        chart.getOrAddShapeProperties().setLineProperties(new XDDFLineProperties(new XDDFNoFillProperties()));
        if (!chart.getCTChartSpace().isSetRoundedCorners()) {
            chart.getCTChartSpace().addNewRoundedCorners();
        }
        chart.getCTChartSpace().getRoundedCorners().setVal(false);
    }

    /** What a mark is called where it stands. */
    static String word(Figure.Mark mark) {
        return switch (mark) {
            case NONE -> "";
            case HIGH -> "high";
            case LOW -> "low";
            case OWN -> "own centre";
        };
    }

    static STMarkerStyle.Enum symbol(Figure.Mark mark) {
        return switch (mark) {
            case NONE -> STMarkerStyle.CIRCLE;
            case HIGH -> STMarkerStyle.TRIANGLE;
            case LOW -> STMarkerStyle.SQUARE;
            case OWN -> STMarkerStyle.DIAMOND;
        };
    }

    /** The marker of a lone series: what is special has another shape and is larger. */
    Look look(Figure.Mark mark) {
        return mark == Figure.Mark.NONE
                ? new Look(symbol(mark), 9, palette.first())
                : new Look(symbol(mark), 12, palette.second());
    }

    /** A value as its axis shows it, in digits that every machine agrees on. */
    static double onAxis(Unit unit, double value) {
        return Double.isInfinite(value) ? value : Double.parseDouble(NumberText.exact(unit.onAxis(value)));
    }

    /** What the sheet says, for whoever edits it: a heading and its numbers, blank where there is none. */
    XDDFNumericalDataSource<Double> numbers(String heading, List<@Nullable Double> values) {
        for (int row = 0; row < values.size(); row++) {
            Double value = values.get(row);
            if (value != null) {
                row(row + 1).createCell(columns).setCellValue(value);
            }
        }
        return XDDFDataSourcesFactory.fromNumericCellRange(sheet, column(heading, values.size()));
    }

    XDDFCategoryDataSource texts(String heading, List<String> values) {
        for (int row = 0; row < values.size(); row++) {
            row(row + 1).createCell(columns).setCellValue(values.get(row));
        }
        return XDDFDataSourcesFactory.fromStringCellRange(sheet, column(heading, values.size()));
    }

    private CellRangeAddress column(String heading, int rows) {
        row(0).createCell(columns).setCellValue(heading);
        columns++;
        return new CellRangeAddress(1, rows, columns - 1, columns - 1);
    }

    private XSSFRow row(int number) {
        XSSFRow row = sheet.getRow(number);
        return row == null ? sheet.createRow(number) : row;
    }

    /** Names a series after the heading of the column written last. */
    void name(XDDFChartData.Series series, String name) {
        series.setTitle(name, new CellReference(sheet.getSheetName(), 0, columns - 1, true, true));
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
        plain(legend.addNewTxPr(), LEGEND_SIZE, palette.text());
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
        var drawn = java.util.Arrays.stream(chart.getCTChart().getPlotArea().getValAxArray())
                .filter(one -> one.getAxId().getVal() == axis.getId())
                .findFirst()
                .orElseThrow();
        plain(drawn.isSetTxPr() ? drawn.getTxPr() : drawn.addNewTxPr(), TEXT_SIZE, palette.muted());
        if (!title.isEmpty()) {
            title(drawn.isSetTitle() ? drawn.getTitle() : drawn.addNewTitle(), title);
        }
    }

    void title(CTTitle title, String text) {
        rich(title.addNewTx().addNewRich(), List.of(text), TEXT_SIZE, palette.muted(), STDLblPos.CTR);
        title.addNewOverlay().setVal(false);
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
    void marker(CTMarker marker, @Nullable Look look) {
        (marker.isSetSymbol() ? marker.getSymbol() : marker.addNewSymbol())
                .setVal(look == null ? STMarkerStyle.NONE : look.symbol());
        if (look == null) {
            return;
        }
        marker.addNewSize().setVal((short) look.size());
        XDDFShapeProperties shape = new XDDFShapeProperties();
        shape.setFillProperties(fill(look.ink()));
        shape.setLineProperties(line(palette.ground(), 0.75, null));
        marker.setSpPr(shape.getXmlObject());
    }

    /** Gives points a text of their own beside them; where the text is empty, none. */
    void labels(CTDLbls labels, List<String> texts, STDLblPos.Enum position, double size, String ink) {
        for (int point = 0; point < texts.size(); point++) {
            if (!texts.get(point).isEmpty()) {
                CTDLbl label = labels.addNewDLbl();
                label.addNewIdx().setVal(point);
                rich(label.addNewTx().addNewRich(), lines(texts.get(point), position), size, ink, position);
                label.addNewDLblPos().setVal(position);
                label.addNewShowLegendKey().setVal(false);
                label.addNewShowVal().setVal(true);
                label.addNewShowCatName().setVal(false);
                label.addNewShowSerName().setVal(false);
                label.addNewShowPercent().setVal(false);
                label.addNewShowBubbleSize().setVal(false);
            }
        }
        labels.addNewShowLegendKey().setVal(false);
        labels.addNewShowVal().setVal(false);
        labels.addNewShowCatName().setVal(false);
        labels.addNewShowSerName().setVal(false);
        labels.addNewShowPercent().setVal(false);
        labels.addNewShowBubbleSize().setVal(false);
    }

    private static List<String> lines(String text, STDLblPos.Enum side) {
        String before = side == STDLblPos.R ? SPACE + SPACE : "";
        String after = side == STDLblPos.L ? SPACE + SPACE : "";
        return Stream.of(text.split("\n", -1))
                .map(line -> before + line + after)
                .toList();
    }

    private static void rich(CTTextBody body, List<String> lines, double size, String ink, STDLblPos.Enum side) {
        body.addNewBodyPr().setWrap(STTextWrappingType.NONE);
        for (String line : lines) {
            var paragraph = body.addNewP();
            var properties = paragraph.addNewPPr();
            properties.setAlgn(
                    side == STDLblPos.L
                            ? STTextAlignType.R
                            : side == STDLblPos.R ? STTextAlignType.L : STTextAlignType.CTR);
            style(properties.addNewDefRPr(), size, ink);
            CTRegularTextRun run = paragraph.addNewR();
            style(run.addNewRPr(), size, ink);
            run.setT(line);
        }
    }

    static void plain(CTTextBody body, double size, String ink) {
        if (body.getBodyPr() == null) {
            body.addNewBodyPr();
        }
        var paragraph = body.sizeOfPArray() > 0 ? body.getPArray(0) : body.addNewP();
        style(paragraph.addNewPPr().addNewDefRPr(), size, ink);
        paragraph.addNewEndParaRPr().setLang("en-GB");
    }

    private static void style(CTTextCharacterProperties text, double size, String ink) {
        text.setSz((int) Math.round(size * 100));
        text.setB(false);
        text.addNewSolidFill().addNewSrgbClr().setVal(Palette.bytes(ink));
    }
}
