package entrapment.registry.exports.slides;

import java.util.List;
import org.apache.poi.xslf.usermodel.XSLFTextBox;
import org.apache.poi.xslf.usermodel.XSLFTextParagraph;

/** Lines of text on a slide, each behind a dash. Lengths are points. */
final class TextDrawing {

    private static final double SIZE = 18;
    private static final double INDENT = 20;
    private static final double BETWEEN_LINES = 8;

    private TextDrawing() {}

    /** How many of the lines fit, at least one: a line that no slide holds is divided before. */
    static int fitting(List<String> lines, double height) {
        double used = 0;
        for (int number = 0; number < lines.size(); number++) {
            List<String> broken = TextWidth.lines(lines.get(number), SIZE, SlideFrame.ROOM - INDENT - 4);
            double next = broken.size() * SIZE * SlideFrame.LEADING + BETWEEN_LINES;
            if (used + next > height) {
                int most = (int) ((height - BETWEEN_LINES) / (SIZE * SlideFrame.LEADING));
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

    static void draw(SlideFrame frame, Palette palette, List<String> lines) {
        XSLFTextBox box = frame.box(SlideFrame.place(frame.top, SlideFrame.BOTTOM - frame.top));
        for (String line : lines) {
            XSLFTextParagraph paragraph = box.addNewTextParagraph();
            paragraph.setBullet(true);
            paragraph.setBulletCharacter("–");
            paragraph.setBulletFontColor(Palette.color(palette.muted()));
            paragraph.setLeftMargin(INDENT);
            paragraph.setIndent(-INDENT);
            paragraph.setSpaceAfter(-BETWEEN_LINES);
            SlideFrame.run(paragraph, line, SIZE, palette.text(), false);
        }
    }
}
