package entrapment.registry.exports.slides;

import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.apache.poi.util.Units;
import org.apache.poi.xslf.usermodel.XMLSlideShow;
import org.apache.poi.xslf.usermodel.XSLFChart;
import org.apache.poi.xslf.usermodel.XSLFSlideLayout;
import org.openxmlformats.schemas.presentationml.x2006.main.CTGraphicalObjectFrame;

/** Lays out one slide of a deck, with a further one drawn where its text does not fit. All lengths are points. */
final class SlideDrawing {

    private static final double GAP = 18;

    /** Parts of the width that a table beside a figure takes. */
    private static final double WIDEST_TABLE = 0.46;

    private static final double NARROWEST_TABLE = 0.28;

    /** Room for the line that says what was left out. */
    private static final double LEFT_OUT = 18;

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
    static void describe(CTGraphicalObjectFrame drawn, String name, String description) {
        var properties = drawn.getNvGraphicFramePr().getCNvPr();
        properties.setName(name + " " + properties.getId());
        properties.setDescr(description);
    }

    private void exhibit(Exhibit exhibit) {
        SlideFrame frame = new SlideFrame(show, layout, palette, slide, slide.title());
        double top = frame.top;
        if (!exhibit.title().isEmpty() && !exhibit.title().equals(slide.title())) {
            String title = TextWidth.cut(exhibit.title(), 14 * SlideFrame.BOLD, SlideFrame.ROOM);
            frame.text(SlideFrame.place(top, 20), title, 14, palette.text(), true);
            top += 24;
        }
        Rectangle2D place = SlideFrame.place(top, SlideFrame.BOTTOM - LEFT_OUT - top);
        TableDrawing table = TableDrawing.of(exhibit);
        Figure figure = exhibit.figure();
        List<String> leftOut = new ArrayList<>();
        if (figure == null) {
            table(frame, exhibit, table, place, leftOut);
        } else if (table.isEmpty() || figure.kind() == Figure.Kind.FLOW) {
            // A flow is a table by itself.
            figure(frame, exhibit, figure, place, leftOut);
        } else {
            double room = place.getWidth();
            double right = Math.min(room * WIDEST_TABLE, Math.max(room * NARROWEST_TABLE, table.naturalWidth(13)));
            Rectangle2D left =
                    new Rectangle2D.Double(place.getX(), top, Math.floor(room - right - GAP), place.getHeight());
            figure(frame, exhibit, figure, left, leftOut);
            table(
                    frame,
                    exhibit,
                    table,
                    new Rectangle2D.Double(left.getMaxX() + GAP, top, right, place.getHeight()),
                    leftOut);
        }
        if (!leftOut.isEmpty()) {
            Rectangle2D below = SlideFrame.place(SlideFrame.BOTTOM - LEFT_OUT + 2, LEFT_OUT);
            frame.text(below, String.join("  ", leftOut), 11, palette.muted(), false);
        }
        frame.foot();
        frame.notes(exhibit.sentence());
    }

    private void table(SlideFrame frame, Exhibit exhibit, TableDrawing table, Rectangle2D place, List<String> leftOut) {
        if (table.isEmpty()) {
            instead(frame, place, "There is nothing to list: no row has been counted.");
            return;
        }
        int shown = table.draw(
                frame.drawn,
                place,
                palette,
                described("Table", exhibit, exhibit.rows().size() + " rows."));
        more("Table", shown, exhibit.rows().size(), "row", leftOut);
    }

    private void figure(SlideFrame frame, Exhibit exhibit, Figure figure, Rectangle2D place, List<String> leftOut) {
        if (figure.kind() == Figure.Kind.FLOW && !figure.paths().isEmpty()) {
            int all = figure.paths().size();
            TableDrawing paths = TableDrawing.of(figure.paths());
            int shown = paths.draw(
                    frame.drawn, place, palette, described("Table", exhibit, all + " orders of techniques."));
            more("Orders", shown, all, "order", leftOut);
        } else if (!isDrawable(figure)) {
            instead(frame, place, "There is nothing to draw: no figure can be estimated here.");
        } else {
            more("Chart", chart(frame, exhibit, figure, place), figure.items().size(), "point", leftOut);
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
    private int chart(SlideFrame frame, Exhibit exhibit, Figure figure, Rectangle2D place) {
        XSLFChart chart = show.createChart();
        // POI takes the place of a chart in its own small units, unlike that of every other shape.
        frame.drawn.addChart(
                chart,
                new Rectangle2D.Double(
                        Units.toEMU(place.getX()),
                        Units.toEMU(place.getY()),
                        Units.toEMU(place.getWidth()),
                        Units.toEMU(place.getHeight())));
        var graphics = frame.drawn.getXmlObject().getCSld().getSpTree().getGraphicFrameList();
        describe(
                graphics.get(graphics.size() - 1),
                "Chart",
                described(
                        "Chart", exhibit, figure.axis() + ", " + figure.items().size() + " points."));
        ChartBuilder builder = new ChartBuilder(chart, palette, place.getWidth(), place.getHeight());
        switch (figure.kind()) {
            case INTERVALS, FOREST -> {
                return IntervalChart.draw(builder, figure);
            }
            case SHARES -> {
                return ShareChart.draw(builder, figure);
            }
            case CONTROL -> ControlChart.draw(builder, figure);
            case FUNNEL -> FunnelChart.draw(builder, figure);
            case FLOW -> throw new IllegalArgumentException("a flow is drawn as a table");
        }
        return figure.items().size();
    }

    private static void more(String what, int shown, int all, String one, List<String> leftOut) {
        if (shown < all) {
            leftOut.add(what + ": the first " + shown + " " + one + (shown == 1 ? "" : "s") + ", and "
                    + NumberText.count(all - shown) + " more, in the CSV.");
        }
    }

    private void instead(SlideFrame frame, Rectangle2D place, String text) {
        Rectangle2D below = new Rectangle2D.Double(place.getX(), place.getY() + 20, place.getWidth(), 60);
        frame.text(below, text, 18, palette.muted(), false);
    }

    private String described(String what, Exhibit exhibit, String size) {
        String sentence = exhibit.sentence().isEmpty() ? slide.sentence() : exhibit.sentence();
        String title = exhibit.title().isEmpty() ? slide.title() : exhibit.title();
        return (what + ": " + title + ". " + sentence + " " + size)
                .replaceAll("\\s+", " ")
                .replace("?.", "?")
                .replace("..", ".");
    }

    /** Text on as many slides as it takes. */
    private void text(boolean continued) {
        List<String> left = new ArrayList<>(slide.lines());
        boolean further = continued;
        do {
            String title = further ? slide.title() + " (continued)" : slide.title();
            SlideFrame frame = new SlideFrame(show, layout, palette, slide, title);
            int fits = TextDrawing.fitting(left, SlideFrame.BOTTOM - frame.top);
            if (fits > 0) {
                TextDrawing.draw(frame, palette, left.subList(0, fits));
            }
            left.subList(0, fits).clear();
            frame.foot();
            frame.notes("");
            further = true;
        } while (!left.isEmpty());
    }
}
