package entrapment.registry.exports;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** The one place where a number becomes text. */
public final class NumberText {

    /** What stands in a table where a count is hidden because it is small, or protects one that is. */
    public static final String SUPPRESSED = "•";

    /** Digits that every machine agrees on: the last bits of a double may differ between Java versions. */
    private static final MathContext SAME_EVERYWHERE = new MathContext(10, RoundingMode.HALF_EVEN);

    /** Below this, two decimal places would read 0.00. */
    private static final double SMALLEST_IN_PLACES = 0.005;

    private static final int LONGEST_PLAIN = 15;

    private NumberText() {}

    /** A number for another program: at most ten significant digits, {@code Inf} or {@code -Inf} where infinite. */
    public static String exact(double value) {
        if (Double.isInfinite(value)) {
            return value > 0 ? "Inf" : "-Inf";
        }
        BigDecimal rounded = new BigDecimal(value).round(SAME_EVERYWHERE).stripTrailingZeros();
        return rounded.signum() == 0
                ? "0"
                : Math.abs(rounded.precision() - rounded.scale()) <= LONGEST_PLAIN
                        ? rounded.toPlainString()
                        : rounded.toString();
    }

    /** A count for people: {@code 1,842}. */
    public static String count(long value) {
        return String.format(Locale.ROOT, "%,d", value);
    }

    /** A proportion per 1,000, one decimal place, two below 1. */
    public static String perThousand(double proportion) {
        double value = proportion * 1000;
        return value > 0 && value < SMALLEST_IN_PLACES
                ? significant(value)
                : decimals(value, value < 1 && value > 0 ? 2 : 1);
    }

    /** A proportion in per cent, one decimal place, none at 0 and 100. */
    public static String percent(double proportion) {
        return proportion == 0 || proportion == 1 ? decimals(proportion * 100, 0) : decimals(proportion * 100, 1);
    }

    /** A ratio: two decimal places, one from 10, none from 100; in words where it is infinite. */
    public static String ratio(double value) {
        if (Double.isInfinite(value)) {
            return "no upper limit";
        }
        return value > 0 && value < SMALLEST_IN_PLACES
                ? significant(value)
                : decimals(value, value < 10 ? 2 : value < 100 ? 1 : 0);
    }

    /** Any other number for people: one decimal place. */
    public static String oneDecimal(double value) {
        return decimals(value, 1);
    }

    /** A p-value: {@code < 0.001}, otherwise three decimal places. */
    public static String pValue(double value) {
        return value < 0.001 ? "< 0.001" : "= " + decimals(value, 3);
    }

    /** A level of confidence in per cent: {@code 95}. */
    public static String level(double confidence) {
        return new BigDecimal(confidence * 100)
                .round(new MathContext(6))
                .stripTrailingZeros()
                .toPlainString();
    }

    /** A cell of a table: text as it is, a whole number in full, a decimal number {@link #exact}, nothing where null. */
    static String cell(@Nullable Object value) {
        if (value == null) {
            return "";
        }
        return value instanceof Double number ? exact(number) : value.toString();
    }

    /** Two significant digits, where decimal places would print something as nothing. */
    private static String significant(double value) {
        return new BigDecimal(value).round(new MathContext(2)).toPlainString();
    }

    private static String decimals(double value, int places) {
        return new BigDecimal(value).setScale(places, RoundingMode.HALF_UP).toPlainString();
    }
}
