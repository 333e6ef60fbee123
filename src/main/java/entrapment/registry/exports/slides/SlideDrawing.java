package entrapment.registry.exports.slides;

import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;
import org.apache.poi.sl.usermodel.Placeholder;
import org.apache.poi.sl.usermodel.TextParagraph.TextAlign;
import org.apache.poi.sl.usermodel.TextShape.TextAutofit;
import org.apache.poi.sl.usermodel.VerticalAlignment;
import org.apache.poi.util.Units;
import org.apache.poi.xslf.usermodel.XMLSlideShow;
import org.apache.poi.xslf.usermodel.XSLFChart;
import org.apache.poi.xslf.usermodel.XSLFNotes;
import org.apache.poi.xslf.usermodel.XSLFSlide;
import org.apache.poi.xslf.usermodel.XSLFSlideLayout;
import org.apache.poi.xslf.usermodel.XSLFTextBox;
import org.apache.poi.xslf.usermodel.XSLFTextParagraph;
import org.apache.poi.xslf.usermodel.XSLFTextRun;
import org.apache.poi.xslf.usermodel.XSLFTextShape;
import org.jspecify.annotations.Nullable;
import org.openxmlformats.schemas.drawingml.x2006.main.CTShapeProperties;
import org.openxmlformats.schemas.drawingml.x2006.main.CTTextField;
import org.openxmlformats.schemas.presentationml.x2006.main.CTGraphicalObjectFrame;
import org.openxmlformats.schemas.presentationml.x2006.main.CTShape;

/** Lays out one slide of a deck, on a further sheet where its text does not fit. All lengths are points. */
final class SlideDrawing {

    static final int WIDTH = 960;
    static final int HEIGHT = 540;

    static final String CAUTION = "Retrospective registry data; small numbers mislead; not advice during a procedure.";

    private static final double MARGIN = 36;
    private static final double ROOM = WIDTH - 2 * MARGIN;
    private static final double FOOT = 508;
    private static final double BOTTOM = 498;
    private static final double GAP = 18;
    private static final double LEADING = 1.2;

    /** Parts of the width that a table beside a figure takes. */
    private static final double WIDEST_TABLE = 0.46;

    private static final double NARROWEST_TABLE = 0.28;
    private static final double BOLD = 1.11;
    private static final double REST = 18;
    private static final double BULLET = 18;
    private static final double BULLET_INDENT = 20;
    private static final double BETWEEN_BULLETS = 8;

    private final XMLSlideShow show;
    private final XSLFSlideLayout layout;
    private final Palette palette;
    private final Slide slide;

    SlideDrawing(XMLSlideShow show, XSLFSlideLayout layout, Palette palette, Slide slide) {
        this.show = show;
        this.layout = layout;
        this.palette = palette;
        this.slide = slide;
    }

    void draw() {
        Exhibit exhibit = slide.exhibit();
        if (exhibit != null) {
            exhibit(exhibit);
        }
        if (exhibit == null || !slide.lines().isEmpty()) {
            text(exhibit != null);
        }
    }

    /** Says what a chart or table shows to those who do not see it. */
    static void describe(CTGraphicalObjectFrame frame, String name, String description) {
        var properties = frame.getNvGraphicFramePr().getCNvPr();
        properties.setName(name + " " + properties.getId());
        properties.setDescr(description);
    }

    private void exhibit(Exhibit exhibit) {
        XSLFSlide sheet = show.createSlide(layout);
        double top = head(sheet, slide.title());
        if (!exhibit.title().isEmpty() && !exhibit.title().equals(slide.title())) {
            box(
                    sheet,
                    MARGIN,
                    top,
                    ROOM,
                    20,
                    TextWidth.cut(exhibit.title(), 14 * BOLD, ROOM),
                    14,
                    palette.text(),
                    true);
            top += 24;
        }
        Rectangle2D place = new Rectangle2D.Double(MARGIN, top, ROOM, BOTTOM - REST - top);
        TableDrawing table = TableDrawing.of(exhibit);
        Figure figure = exhibit.figure();
        List<String> rest = new ArrayList<>();
        if (figure == null) {
            table(sheet, exhibit, table, place, rest);
        } else if (table.isEmpty() || figure.kind() == Figure.Kind.FLOW) {
            // A flow is a table by itself.
            figure(sheet, exhibit, figure, place, rest);
        } else {
            double right = Math.min(ROOM * WIDEST_TABLE, Math.max(ROOM * NARROWEST_TABLE, table.naturalWidth(13)));
            Rectangle2D left = new Rectangle2D.Double(MARGIN, top, Math.floor(ROOM - right - GAP), place.getHeight());
            figure(sheet, exhibit, figure, left, rest);
            table(
                    sheet,
                    exhibit,
                    table,
                    new Rectangle2D.Double(left.getMaxX() + GAP, top, right, place.getHeight()),
                    rest);
        }
        if (!rest.isEmpty()) {
            box(sheet, MARGIN, BOTTOM - REST + 2, ROOM, REST, String.join("  ", rest), 11, palette.muted(), false);
        }
        foot(sheet);
        notes(sheet, exhibit);
    }

    private void table(XSLFSlide sheet, Exhibit exhibit, TableDrawing table, Rectangle2D place, List<String> rest) {
        if (table.isEmpty()) {
            plain(sheet, place, "There is nothing to list: no row has been counted.");
            return;
        }
        int shown = table.draw(
                sheet,
                place,
                palette,
                described("Table", exhibit, exhibit.rows().size() + " rows."));
        more("Table", shown, exhibit.rows().size(), "row", rest);
    }

    private void figure(XSLFSlide sheet, Exhibit exhibit, Figure figure, Rectangle2D place, List<String> rest) {
        if (figure.kind() == Figure.Kind.FLOW && !figure.paths().isEmpty()) {
            int all = figure.paths().size();
            TableDrawing paths = TableDrawing.of(figure.paths());
            int shown = paths.draw(sheet, place, palette, described("Table", exhibit, all + " orders of techniques."));
            more("Orders", shown, all, "order", rest);
        } else if (!isDrawable(figure)) {
            plain(sheet, place, "There is nothing to draw: no figure can be estimated here.");
        } else {
            int all = figure.items().size();
            more("Chart", chart(sheet, exhibit, figure, place), all, "point", rest);
        }
    }

    private static boolean isDrawable(Figure figure) {
        return switch (figure.kind()) {
            case FLOW -> !figure.paths().isEmpty();
            case FUNNEL -> !FunnelChart.drawn(figure).isEmpty();
            default -> figure.items().stream().anyMatch(item -> item.estimate() != null);
        };
    }

    /** Draws a native chart and answers how many items there was room for. */
    private int chart(XSLFSlide sheet, Exhibit exhibit, Figure figure, Rectangle2D place) {
        XSLFChart chart = show.createChart();
        // POI takes the place of a chart in its own small units, unlike that of every other shape.
        sheet.addChart(
                chart,
                new Rectangle2D.Double(
                        Units.toEMU(place.getX()),
                        Units.toEMU(place.getY()),
                        Units.toEMU(place.getWidth()),
                        Units.toEMU(place.getHeight())));
        var frames = sheet.getXmlObject().getCSld().getSpTree().getGraphicFrameList();
        describe(
                frames.get(frames.size() - 1),
                "Chart",
                described(
                        "Chart", exhibit, figure.axis() + ", " + figure.items().size() + " points."));
        ChartBuilder canvas = new ChartBuilder(chart, palette, place.getWidth(), place.getHeight());
        switch (figure.kind()) {
            case INTERVALS, FOREST -> {
                return IntervalChart.draw(canvas, figure);
            }
            case SHARES -> {
                return ShareChart.draw(canvas, figure);
            }
            case CONTROL -> ControlChart.draw(canvas, figure);
            case FUNNEL -> FunnelChart.draw(canvas, figure);
            case FLOW -> throw new IllegalArgumentException("a flow is drawn as a table");
        }
        return figure.items().size();
    }

    private static void more(String what, int shown, int all, String one, List<String> rest) {
        if (shown < all) {
            rest.add(what + ": the first " + shown + " " + one + (shown == 1 ? "" : "s") + ", and "
                    + NumberText.count(all - shown) + " more, in the CSV.");
        }
    }

    private String described(String what, Exhibit exhibit, String size) {
        String sentence = exhibit.sentence().isEmpty() ? slide.sentence() : exhibit.sentence();
        String title = exhibit.title().isEmpty() ? slide.title() : exhibit.title();
        return (what + ": " + title + ". " + sentence + " " + size)
                .replaceAll("\\s+", " ")
                .replace("?.", "?")
                .replace("..", ".");
    }

    /** Text in as many sheets as it takes. */
    private void text(boolean continued) {
        List<String> left = new ArrayList<>(slide.lines());
        boolean further = continued;
        do {
            XSLFSlide sheet = show.createSlide(layout);
            double top = head(sheet, further ? slide.title() + " (continued)" : slide.title());
            int fits = fitting(left, BOTTOM - top);
            if (fits > 0) {
                bullets(sheet, top, left.subList(0, fits));
            }
            left.subList(0, fits).clear();
            foot(sheet);
            notes(sheet, null);
            further = true;
        } while (!left.isEmpty());
    }

    /** How many of the lines fit, at least one: a line that no sheet holds is divided before. */
    private static int fitting(List<String> lines, double height) {
        double used = 0;
        for (int number = 0; number < lines.size(); number++) {
            List<String> broken = TextWidth.lines(lines.get(number), BULLET, ROOM - BULLET_INDENT - 4);
            double next = broken.size() * BULLET * LEADING + BETWEEN_BULLETS;
            if (used + next > height) {
                int most = (int) ((height - BETWEEN_BULLETS) / (BULLET * LEADING));
                if (number > 0) {
                    return number;
                }
                lines.set(0, String.join(" ", broken.subList(0, most)));
                lines.add(1, String.join(" ", broken.subList(most, broken.size())));
                return 1;
            }
            used += next;
        }
        return lines.size();
    }

    private void bullets(XSLFSlide sheet, double top, List<String> lines) {
        XSLFTextBox box = empty(sheet, MARGIN, top, ROOM, BOTTOM - top);
        for (String line : lines) {
            XSLFTextParagraph paragraph = box.addNewTextParagraph();
            paragraph.setBullet(true);
            paragraph.setBulletCharacter("–");
            paragraph.setBulletFontColor(Palette.color(palette.muted()));
            paragraph.setLeftMargin(BULLET_INDENT);
            paragraph.setIndent(-BULLET_INDENT);
            paragraph.setSpaceAfter(-BETWEEN_BULLETS);
            run(paragraph, line, BULLET, palette.text(), false);
        }
    }

    /** Title and sentence; answers where the room under them begins. */
    private double head(XSLFSlide sheet, String title) {
        boolean alone = slide.exhibit() == null && slide.lines().isEmpty();
        double start = alone ? 190 : 26;
        double size = DoubleStream.of(alone ? 36 : 28, 22)
                .filter(one -> TextWidth.lines(title, one * BOLD, ROOM).size() <= (one > 22 && !alone ? 1 : 2))
                .findFirst()
                .orElse(18);
        List<String> lines = TextWidth.cut(title, size * BOLD, ROOM, 3);
        double height = lines.size() * size * LEADING;
        XSLFTextShape holder = (XSLFTextShape) sheet.getPlaceholder(Placeholder.TITLE);
        // Without a place of its own it would move that of the master, and so every title.
        CTShapeProperties own = ((CTShape) holder.getXmlObject()).getSpPr();
        if (!own.isSetXfrm()) {
            own.addNewXfrm();
        }
        holder.setAnchor(new Rectangle2D.Double(MARGIN, start, ROOM, height + 2));
        holder.clearText();
        holder.setVerticalAlignment(VerticalAlignment.TOP);
        flush(holder);
        XSLFTextParagraph paragraph = holder.addNewTextParagraph();
        paragraph.setTextAlign(TextAlign.LEFT);
        run(paragraph, String.join(" ", lines), size, palette.text(), true);
        double top = start + height + 8;
        Exhibit exhibit = slide.exhibit();
        String said = slide.sentence().isEmpty() && exhibit != null ? exhibit.sentence() : slide.sentence();
        if (!said.isEmpty()) {
            double small = TextWidth.lines(said, 16, ROOM - 4).size() <= 3 ? 16 : 14;
            List<String> sentence = TextWidth.cut(said, small, ROOM - 4, 4);
            height = sentence.size() * small * LEADING;
            box(sheet, MARGIN, top, ROOM, height + 2, String.join(" ", sentence), small, palette.text(), false);
            top += height + 4;
        }
        return top + 12;
    }

    private void foot(XSLFSlide sheet) {
        box(sheet, MARGIN, FOOT, 300, 16, TextWidth.cut(slide.dataCut(), 11, 296), 11, palette.muted(), false);
        XSLFTextBox caution = box(sheet, 340, FOOT, 540, 16, CAUTION, 11, palette.muted(), false);
        caution.getTextParagraphs().get(0).setTextAlign(TextAlign.RIGHT);
        XSLFTextBox number = empty(sheet, 884, FOOT, 40, 16);
        XSLFTextParagraph paragraph = number.addNewTextParagraph();
        paragraph.setTextAlign(TextAlign.RIGHT);
        CTTextField field = paragraph.getXmlObject().addNewFld();
        field.setId("{00000000-0000-4000-8000-000000000001}");
        field.setType("slidenum");
        field.addNewRPr().setSz(1100);
        field.getRPr().addNewSolidFill().addNewSrgbClr().setVal(Palette.bytes(palette.muted()));
        field.setT(String.valueOf(show.getSlides().size()));
    }

    private void notes(XSLFSlide sheet, @Nullable Exhibit exhibit) {
        List<String> said = new ArrayList<>();
        said.add(slide.sentence());
        if (exhibit != null && !exhibit.sentence().equals(slide.sentence())) {
            said.add(exhibit.sentence());
        }
        said.addAll(slide.notes());
        said.add(slide.method().isEmpty() ? "" : "Method: " + slide.method());
        said.add(slide.dataCut());
        said.add(CAUTION);
        XSLFNotes page = show.getNotesSlide(sheet);
        for (XSLFTextShape holder : page.getPlaceholders()) {
            if (holder.getTextType() == Placeholder.BODY) {
                holder.setText(String.join(
                        "\n", said.stream().filter(line -> !line.isEmpty()).toList()));
            } else if (holder.getTextType() != Placeholder.SLIDE_IMAGE) {
                // POI copies the fields of date and page number as text runs, which no schema allows.
                page.removeShape(holder);
            }
        }
    }

    private void plain(XSLFSlide sheet, Rectangle2D place, String text) {
        box(sheet, place.getX(), place.getY() + 20, place.getWidth(), 60, text, 18, palette.muted(), false);
    }

    private XSLFTextBox box(
            XSLFSlide sheet,
            double x,
            double y,
            double width,
            double height,
            String text,
            double size,
            String ink,
            boolean bold) {
        XSLFTextBox box = empty(sheet, x, y, width, height);
        run(box.addNewTextParagraph(), text, size, ink, bold);
        return box;
    }

    private static XSLFTextBox empty(XSLFSlide sheet, double x, double y, double width, double height) {
        XSLFTextBox box = sheet.createTextBox();
        box.setAnchor(new Rectangle2D.Double(x, y, width, height));
        box.clearText();
        flush(box);
        return box;
    }

    private static void flush(XSLFTextShape shape) {
        shape.setLeftInset(0);
        shape.setRightInset(0);
        shape.setTopInset(0);
        shape.setBottomInset(0);
        shape.setWordWrap(true);
        shape.setTextAutofit(TextAutofit.NONE);
    }

    private static void run(XSLFTextParagraph paragraph, String words, double size, String ink, boolean bold) {
        XSLFTextRun run = paragraph.addNewTextRun();
        run.setText(words);
        run.setFontSize(size);
        run.setFontColor(Palette.color(ink));
        run.setBold(bold);
    }
}
