package entrapment.registry.exports.slides;

import java.io.IOException;
import java.util.List;
import org.apache.poi.openxml4j.exceptions.InvalidFormatException;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.xddf.usermodel.chart.XDDFCategoryDataSource;
import org.apache.poi.xddf.usermodel.chart.XDDFChartData;
import org.apache.poi.xddf.usermodel.chart.XDDFDataSourcesFactory;
import org.apache.poi.xddf.usermodel.chart.XDDFNumericalDataSource;
import org.apache.poi.xslf.usermodel.XSLFChart;
import org.apache.poi.xssf.usermodel.XSSFRow;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.jspecify.annotations.Nullable;

/** The numbers of a chart, a column for each of its series, so that whoever has the slides can edit them. */
final class ChartWorkbook {

    private final XSSFSheet sheet;
    private int columns;

    ChartWorkbook(XSLFChart chart) {
        try {
            XSSFWorkbook workbook = chart.getWorkbook();
            this.sheet = workbook.getNumberOfSheets() > 0 ? workbook.getSheetAt(0) : workbook.createSheet();
            workbook.setSheetName(0, "Figure");
        } catch (IOException | InvalidFormatException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    /** Writes a heading and its numbers, blank where there is none. */
    XDDFNumericalDataSource<Double> numbers(String heading, List<@Nullable Double> values) {
        for (int row = 0; row < values.size(); row++) {
            Double value = values.get(row);
            if (value != null) {
                row(row + 1).createCell(columns).setCellValue(value);
            }
        }
        return XDDFDataSourcesFactory.fromNumericCellRange(sheet, column(heading, values.size()));
    }

    /** Writes a heading and its texts. */
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
}
