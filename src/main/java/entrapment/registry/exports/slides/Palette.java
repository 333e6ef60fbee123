package entrapment.registry.exports.slides;

import java.awt.Color;

/**
 * The few colours of a deck, as six hexadecimal digits. Each of text, muted and the inks has a contrast of at least 4.5:1
 * on the ground; a test computes it.
 *
 * @param ground what everything stands on
 * @param text of titles, sentences and cells
 * @param muted of headings, axes and the foot
 * @param rule of lines that only guide the eye
 * @param first ink of the first series
 * @param second ink of the second series
 * @param third ink of the third series
 */
record Palette(String ground, String text, String muted, String rule, String first, String second, String third) {

    private static final String WHITE = "FFFFFF";
    private static final String BLACK = "000000";

    private static final Palette LIGHT = new Palette(WHITE, "1D2733", "4F5B67", "C3CAD1", "1F5A73", "8A4B12", "5B4A8A");
    private static final Palette DARK =
            new Palette("16202A", "F1F4F6", "B4BEC8", "465360", "8CC9E0", "E8B77D", "C6B8EC");

    static Palette of(boolean dark) {
        return dark ? DARK : LIGHT;
    }

    String ink(int series) {
        return switch (series % 3) {
            case 0 -> first;
            case 1 -> second;
            default -> third;
        };
    }

    /** One of several steps of lightness from an ink towards the ground. */
    String step(int series, int step, int steps) {
        double towards = steps < 2 ? 0 : 0.82 * step / (steps - 1);
        Color from = color(ink(series));
        Color to = color(ground);
        return String.format(
                "%02X%02X%02X",
                mixed(from.getRed(), to.getRed(), towards),
                mixed(from.getGreen(), to.getGreen(), towards),
                mixed(from.getBlue(), to.getBlue(), towards));
    }

    /** White or black: whatever the fill, the better of them has a contrast of at least 4.5:1. */
    static String on(String fill) {
        return contrast(WHITE, fill) >= contrast(BLACK, fill) ? WHITE : BLACK;
    }

    static Color color(String hex) {
        return new Color(Integer.parseInt(hex, 16));
    }

    static byte[] bytes(String hex) {
        Color color = color(hex);
        return new byte[] {(byte) color.getRed(), (byte) color.getGreen(), (byte) color.getBlue()};
    }

    /** Contrast of two colours as WCAG 2.2 defines it, from 1 to 21. */
    static double contrast(String one, String other) {
        double a = luminance(color(one));
        double b = luminance(color(other));
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    private static int mixed(int from, int to, double towards) {
        return (int) Math.round(from + (to - from) * towards);
    }

    private static double luminance(Color color) {
        return 0.2126 * linear(color.getRed()) + 0.7152 * linear(color.getGreen()) + 0.0722 * linear(color.getBlue());
    }

    private static double linear(int part) {
        double value = part / 255.0;
        return value <= 0.04045 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
    }
}
