package entrapment.registry.exports.slides;

import entrapment.registry.exports.Exhibit;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;
import org.apache.poi.sl.usermodel.Placeholder;
import org.apache.poi.sl.usermodel.TextParagraph.TextAlign;
import org.apache.poi.sl.usermodel.TextShape.TextAutofit;
import org.apache.poi.sl.usermodel.VerticalAlignment;
import org.apache.poi.xslf.usermodel.XMLSlideShow;
import org.apache.poi.xslf.usermodel.XSLFNotes;
import org.apache.poi.xslf.usermodel.XSLFSlide;
import org.apache.poi.xslf.usermodel.XSLFSlideLayout;
import org.apache.poi.xslf.usermodel.XSLFTextBox;
import org.apache.poi.xslf.usermodel.XSLFTextParagraph;
import org.apache.poi.xslf.usermodel.XSLFTextRun;
import org.apache.poi.xslf.usermodel.XSLFTextShape;
import org.openxmlformats.schemas.drawingml.x2006.main.CTShapeProperties;
import org.openxmlformats.schemas.drawingml.x2006.main.CTTextField;
import org.openxmlformats.schemas.presentationml.x2006.main.CTShape;

/** What stands around the content of a slide: title and sentence above it, data cut and caution below, and the notes. In points. */
final class SlideFrame {

    static final int WIDTH = 960;
    static final int HEIGHT = 540;
    static final double MARGIN = 36;

    /** How wide the content may be. */
    static final double ROOM = WIDTH - 2 * MARGIN;

    /** Where the room for the content ends. */
    static final double BOTTOM = 498;

    static final double LEADING = 1.2;

    /** Bold is wider. */
    static final double BOLD = 1.11;

    static final String CAUTION = "Retrospective registry data; small numbers mislead; not advice during a procedure.";

    private static final double FOOT = 508;

    final XSLFSlide drawn;

    /** Where the room for the content begins. */
    final double top;

    private final XMLSlideShow show;
    private final Palette palette;
    private final Slide slide;

    /** @param title of the slide, or that it goes on */
    SlideFrame(XMLSlideShow show, XSLFSlideLayout layout, Palette palette, Slide slide, String title) {
        this.show = show;
        this.palette = palette;
        this.slide = slide;
        this.drawn = show.createSlide(layout);
        this.top = head(title);
    }

    private double head(String title) {
        boolean alone = slide.exhibit() == null && slide.lines().isEmpty();
        double start = alone ? 190 : 26;
        double size = DoubleStream.of(alone ? 36 : 28, 22)
                .filter(one -> TextWidth.lines(title, one * BOLD, ROOM).size() <= (one > 22 && !alone ? 1 : 2))
                .findFirst()
                .orElse(18);
        List<String> lines = TextWidth.cut(title, size * BOLD, ROOM, 3);
        double height = lines.size() * size * LEADING;
        title(String.join(" ", lines), size, new Rectangle2D.Double(MARGIN, start, ROOM, height + 2));
        double below = start + height + 8;
        Exhibit exhibit = slide.exhibit();
        String said = slide.sentence().isEmpty() && exhibit != null ? exhibit.sentence() : slide.sentence();
        if (!said.isEmpty()) {
            double small = TextWidth.lines(said, 16, ROOM - 4).size() <= 3 ? 16 : 14;
            List<String> sentence = TextWidth.cut(said, small, ROOM - 4, 4);
            height = sentence.size() * small * LEADING;
            text(place(below, height + 2), String.join(" ", sentence), small, palette.text(), false);
            below += height + 4;
        }
        return below + 12;
    }

    private void title(String text, double size, Rectangle2D place) {
        XSLFTextShape holder = (XSLFTextShape) drawn.getPlaceholder(Placeholder.TITLE);
        // Without a place of its own it would move that of the master, and so every title.
        CTShapeProperties own = ((CTShape) holder.getXmlObject()).getSpPr();
        if (!own.isSetXfrm()) {
            own.addNewXfrm();
        }
        holder.setAnchor(place);
        holder.clearText();
        holder.setVerticalAlignment(VerticalAlignment.TOP);
        flush(holder);
        XSLFTextParagraph paragraph = holder.addNewTextParagraph();
        paragraph.setTextAlign(TextAlign.LEFT);
        run(paragraph, text, size, palette.text(), true);
    }

    /** Writes what stands below the content. */
    void foot() {
        text(
                new Rectangle2D.Double(MARGIN, FOOT, 300, 16),
                TextWidth.cut(slide.dataCut(), 11, 296),
                11,
                palette.muted(),
                false);
        XSLFTextBox caution = text(new Rectangle2D.Double(340, FOOT, 540, 16), CAUTION, 11, palette.muted(), false);
        caution.getTextParagraphs().get(0).setTextAlign(TextAlign.RIGHT);
        XSLFTextBox number = box(new Rectangle2D.Double(884, FOOT, 40, 16));
        XSLFTextParagraph paragraph = number.addNewTextParagraph();
        paragraph.setTextAlign(TextAlign.RIGHT);
        CTTextField field = paragraph.getXmlObject().addNewFld();
        field.setId("{00000000-0000-4000-8000-000000000001}");
        field.setType("slidenum");
        field.addNewRPr().setSz(1100);
        field.getRPr().addNewSolidFill().addNewSrgbClr().setVal(Palette.bytes(palette.muted()));
        field.setT(String.valueOf(show.getSlides().size()));
    }

    /** Writes the notes, with what an exhibit says; empty where the slide says it. */
    void notes(String exhibitSentence) {
        List<String> said = new ArrayList<>();
        said.add(slide.sentence());
        said.add(exhibitSentence.equals(slide.sentence()) ? "" : exhibitSentence);
        said.addAll(slide.notes());
        said.add(slide.method().isEmpty() ? "" : "Method: " + slide.method());
        said.add(slide.dataCut());
        said.add(CAUTION);
        XSLFNotes page = show.getNotesSlide(drawn);
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

    /** A place as wide as the content may be. */
    static Rectangle2D place(double top, double height) {
        return new Rectangle2D.Double(MARGIN, top, ROOM, height);
    }

    XSLFTextBox text(Rectangle2D place, String text, double size, String ink, boolean bold) {
        XSLFTextBox box = box(place);
        run(box.addNewTextParagraph(), text, size, ink, bold);
        return box;
    }

    /** An empty box for text. */
    XSLFTextBox box(Rectangle2D place) {
        XSLFTextBox box = drawn.createTextBox();
        box.setAnchor(place);
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

    static void run(XSLFTextParagraph paragraph, String words, double size, String ink, boolean bold) {
        XSLFTextRun run = paragraph.addNewTextRun();
        run.setText(words);
        run.setFontSize(size);
        run.setFontColor(Palette.color(ink));
        run.setBold(bold);
    }
}
