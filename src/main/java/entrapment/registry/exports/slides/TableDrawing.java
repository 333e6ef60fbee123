package entrapment.registry.exports.slides;

import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.poi.sl.usermodel.TableCell.BorderEdge;
import org.apache.poi.sl.usermodel.TextParagraph.TextAlign;
import org.apache.poi.sl.usermodel.VerticalAlignment;
import org.apache.poi.xslf.usermodel.XSLFSlide;
import org.apache.poi.xslf.usermodel.XSLFTable;
import org.apache.poi.xslf.usermodel.XSLFTableCell;
import org.apache.poi.xslf.usermodel.XSLFTextRun;
import org.jspecify.annotations.Nullable;
import org.openxmlformats.schemas.presentationml.x2006.main.CTGraphicalObjectFrame;

/**
 * A table on a slide: as large as fits, and as many of its first rows.
 *
 * @param numbers for each column, whether its cells line up at the right
 */
record TableDrawing(List<String> headings, List<Boolean> numbers, List<List<String>> rows) {

    private static final int MOST_ROWS = 12;
    private static final double[] SIZES = {18, 16, 14, 13, 12, 11, 10};

    /** Larger text must not break into lines: it would gain nothing, but for a table that has the slide to itself. */
    private static final double UNBROKEN_ABOVE = 12;

    private static final double UNBROKEN_ABOVE_IF_WIDE = 16;
    private static final double WIDE = 600;

    private static final double INSET_ACROSS = 5;
    private static final double INSET_DOWN = 2.5;
    private static final double LEADING = 1.2;

    /** Bold is wider. */
    private static final double BOLD = 1.09;

    private static final double NARROWEST_TEXT = 70;

    /** How a table fits its place: text size, width of each column, height of each row with the heading first. */
    private record Fit(double size, List<Double> widths, List<Double> heights) {}

    /** What a slide shows of the table of an exhibit. */
    static TableDrawing of(Exhibit exhibit) {
        List<Integer> shown = IntStream.range(0, exhibit.columns().size())
                .filter(column -> exhibit.columns().get(column).onSlide())
                .boxed()
                .toList();
        List<List<String>> rows = new ArrayList<>();
        for (List<@Nullable Object> row : exhibit.rows()) {
            rows.add(shown.stream()
                    .map(column -> exhibit.columns().get(column).text(row.get(column)))
                    .toList());
        }
        return new TableDrawing(
                shown.stream()
                        .map(column -> exhibit.columns().get(column).heading())
                        .toList(),
                shown.stream()
                        .map(column -> exhibit.columns().get(column).isNumber())
                        .toList(),
                rows);
    }

    /** What was tried after what. Office has no chart for it, and a picture could not be edited. */
    static TableDrawing of(List<Figure.Path> paths) {
        return new TableDrawing(
                List.of("Tried, in this order", "Result", "Cases"),
                List.of(false, false, true),
                paths.stream()
                        .map(path -> List.of(
                                path.steps().isEmpty() ? "nothing" : String.join(" → ", path.steps()),
                                path.result(),
                                NumberText.count(path.cases())))
                        .toList());
    }

    boolean isEmpty() {
        return headings.isEmpty() || rows.isEmpty();
    }

    /** How wide it would be if nothing had to break. */
    double naturalWidth(double size) {
        return IntStream.range(0, headings.size())
                .mapToDouble(column -> naturalWidth(column, size))
                .sum();
    }

    /** Draws the table at the top left of a place and answers how many rows there were room for. */
    int draw(XSLFSlide slide, Rectangle2D place, Palette palette, String description) {
        Fit fit = fit(place.getWidth(), place.getHeight());
        int shown = fit.heights.size() - 1;
        XSLFTable table = slide.createTable(shown + 1, headings.size());
        double width = 0;
        for (int column = 0; column < headings.size(); column++) {
            table.setColumnWidth(column, fit.widths.get(column));
            width += fit.widths.get(column);
        }
        for (int row = 0; row <= shown; row++) {
            table.setRowHeight(row, fit.heights.get(row));
            for (int column = 0; column < headings.size(); column++) {
                boolean heading = row == 0;
                fill(
                        table.getCell(row, column),
                        heading ? headings.get(column) : rows.get(row - 1).get(column),
                        fit.size,
                        heading,
                        numbers.get(column),
                        palette);
            }
        }
        table.getCTTable().getTblPr().setFirstRow(true);
        table.setAnchor(new Rectangle2D.Double(place.getX(), place.getY(), width, sum(fit.heights)));
        SlideDrawing.describe((CTGraphicalObjectFrame) table.getXmlObject(), "Table", description);
        return shown;
    }

    private static void fill(
            XSLFTableCell cell, String text, double size, boolean heading, boolean number, Palette palette) {
        XSLFTextRun run = cell.setText(text);
        run.setFontSize(size);
        run.setBold(heading);
        run.setFontColor(Palette.color(heading ? palette.muted() : palette.text()));
        cell.getTextParagraphs().get(0).setTextAlign(number ? TextAlign.RIGHT : TextAlign.LEFT);
        cell.setVerticalAlignment(heading ? VerticalAlignment.BOTTOM : VerticalAlignment.MIDDLE);
        cell.setLeftInset(INSET_ACROSS);
        cell.setRightInset(INSET_ACROSS);
        cell.setTopInset(INSET_DOWN);
        cell.setBottomInset(INSET_DOWN);
        cell.setBorderColor(BorderEdge.bottom, Palette.color(heading ? palette.muted() : palette.rule()));
        cell.setBorderWidth(BorderEdge.bottom, heading ? 1.25 : 0.5);
    }

    private static double sum(List<Double> lengths) {
        return lengths.stream().mapToDouble(Double::doubleValue).sum();
    }

    private Fit fit(double width, double height) {
        for (double size : SIZES) {
            Fit fit = fit(size, width, height);
            boolean whole = fit.heights.size() > Math.min(MOST_ROWS, rows.size())
                    && (size > (width > WIDE ? UNBROKEN_ABOVE_IF_WIDE : UNBROKEN_ABOVE)
                                    ? naturalWidth(size)
                                    : sum(fit.widths))
                            <= width;
            if (whole || size == SIZES[SIZES.length - 1]) {
                return fit;
            }
        }
        throw new IllegalStateException("no sizes");
    }

    private Fit fit(double size, double width, double height) {
        List<Double> widths = widths(size, width);
        List<Double> heights = new ArrayList<>();
        double used = 0;
        for (int row = 0; row <= Math.min(MOST_ROWS, rows.size()); row++) {
            double next = height(row == 0 ? headings : rows.get(row - 1), row == 0 ? size * BOLD : size, widths, size);
            if (row > 1 && used + next > height) {
                break;
            }
            used += next;
            heights.add(next);
        }
        return new Fit(size, widths, heights);
    }

    private static double height(List<String> cells, double width, List<Double> widths, double size) {
        int lines = IntStream.range(0, widths.size())
                .map(column -> TextWidth.lines(cells.get(column), width, widths.get(column) - 2 * INSET_ACROSS - 1)
                        .size())
                .max()
                .orElse(1);
        return Math.ceil(lines * size * LEADING + 2 * INSET_DOWN + 1);
    }

    /** Numbers as wide as they are; text shares what is left, and what short text does not need goes to the longer. */
    private List<Double> widths(double size, double room) {
        double[] widths = IntStream.range(0, headings.size())
                .mapToDouble(column -> naturalWidth(column, size))
                .toArray();
        double left = room;
        List<Integer> texts = new ArrayList<>();
        for (int column = 0; column < widths.length; column++) {
            if (numbers.get(column)) {
                left -= widths[column];
            } else {
                texts.add(column);
            }
        }
        texts.sort(Comparator.comparing(column -> widths[column]));
        for (int place = 0; place < texts.size(); place++) {
            int column = texts.get(place);
            double share = Math.max(NARROWEST_TEXT, left / (texts.size() - place));
            widths[column] = Math.floor(Math.min(widths[column], share));
            left -= widths[column];
        }
        // Too many columns: all of them give way, and their texts break.
        double most = Math.min(1, room / Arrays.stream(widths).sum());
        return Arrays.stream(widths).map(width -> width * most).boxed().toList();
    }

    private double naturalWidth(int column, double size) {
        String heading = headings.get(column);
        double needed = TextWidth.of(heading, size * BOLD);
        if (numbers.get(column)) {
            double whole = needed;
            double word = TextWidth.widest(List.of(heading.split(" ")), size * BOLD);
            needed = IntStream.rangeClosed(30, 100)
                    .mapToDouble(percent -> whole * percent / 100)
                    .filter(room -> room >= word
                            && TextWidth.lines(heading, size * BOLD, room).size() <= 2)
                    .findFirst()
                    .orElse(whole);
        }
        double cells =
                TextWidth.widest(rows.stream().map(row -> row.get(column)).toList(), size);
        return Math.ceil(Math.max(needed, cells) + 2 * INSET_ACROSS + 3);
    }
}
