package entrapment.registry.exports.slides;

import java.util.ArrayList;
import java.util.List;

/**
 * How much room text takes in Arial and every font of its metric. A server has no fonts, and a slide cannot ask the program
 * that will show it, so the widths stand here: those of Adobe's Helvetica metrics for the printable ASCII characters.
 */
final class TextWidth {

    private static final int[] ASCII = {
        278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556,
                556,
        556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556,
                833,
        722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500,
                556,
        556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500,
                334,
        260, 334, 584
    };

    private static final int OTHER = 620;
    private static final int ARROW = 1000;
    private static final String CUT = "…";

    /** After a space, and after a hyphen within a word. */
    private static final String BREAKS = "(?<=\\s)(?=\\S)|(?<=[^\\s-]-)(?=\\w)";

    private TextWidth() {}

    /** In points. Bold is wider by less than a tenth: pass a size that much larger. */
    static double of(String text, double size) {
        return text.chars().mapToDouble(TextWidth::of).sum() * size / 1000;
    }

    /** The room that the widest of some texts takes; 0 without any. */
    static double widest(List<String> texts, double size) {
        return texts.stream().mapToDouble(text -> of(text, size)).max().orElse(0);
    }

    private static int of(int character) {
        if (character >= ' ' && character <= '~') {
            return ASCII[character - ' '];
        }
        return (character >= '\u2190' && character <= '\u21ff') || character > '\u2e80' ? ARROW : OTHER;
    }

    /** The lines that text breaks into, one at least; a word longer than the room is broken. */
    static List<String> lines(String text, double size, double room) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : text.strip().split(BREAKS, -1)) {
            if (!line.isEmpty() && of((line + word).stripTrailing(), size) > room) {
                lines.add(line.toString().strip());
                line.setLength(0);
            }
            line.append(word);
            while (of(line.toString().stripTrailing(), size) > room && line.length() > 1) {
                int fits = fitting(line.toString(), size, room);
                lines.add(line.substring(0, fits));
                line.delete(0, fits);
            }
        }
        lines.add(line.toString().strip());
        return lines;
    }

    /** The text, or as much of its beginning as there is room for. */
    static String cut(String text, double size, double room) {
        return of(text, size) <= room
                ? text
                : text.substring(0, fitting(text, size, room - of(CUT, size))).strip() + CUT;
    }

    /** The text in as many lines as there is room for, the last one cut. */
    static List<String> cut(String text, double size, double room, int most) {
        List<String> lines = lines(text, size, room);
        if (lines.size() <= most) {
            return lines;
        }
        List<String> kept = new ArrayList<>(lines.subList(0, most - 1));
        kept.add(cut(String.join(" ", lines.subList(most - 1, lines.size())), size, room));
        return kept;
    }

    private static int fitting(String text, double size, double room) {
        int fits = 1;
        while (fits < text.length() && of(text.substring(0, fits + 1), size) <= room) {
            fits++;
        }
        return fits;
    }
}
