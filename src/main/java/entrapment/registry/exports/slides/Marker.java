package entrapment.registry.exports.slides;

import entrapment.registry.exports.Figure;
import org.openxmlformats.schemas.drawingml.x2006.chart.STMarkerStyle;

/**
 * How a point is drawn; never told from another by its colour alone.
 *
 * @param size in points
 * @param ink six hexadecimal digits
 */
record Marker(Figure.Shape shape, int size, String ink) {

    /** Where a figure has one series; what is special is larger too. */
    static Marker of(Figure.Mark mark, Palette palette) {
        return mark == Figure.Mark.NONE
                ? new Marker(mark.shape(), 9, palette.first())
                : new Marker(mark.shape(), 12, palette.second());
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

    STMarkerStyle.Enum symbol() {
        return switch (shape) {
            case CIRCLE -> STMarkerStyle.CIRCLE;
            case SQUARE -> STMarkerStyle.SQUARE;
            case DIAMOND -> STMarkerStyle.DIAMOND;
            case TRIANGLE -> STMarkerStyle.TRIANGLE;
        };
    }
}
