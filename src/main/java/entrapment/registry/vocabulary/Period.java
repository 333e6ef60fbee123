package entrapment.registry.vocabulary;

import com.fasterxml.jackson.annotation.JsonValue;
import java.time.LocalDate;
import java.time.temporal.IsoFields;
import java.util.Comparator;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A calendar quarter, the finest time the registry keeps; {@code YYYY-Qn} in JSON and CSV.
 *
 * @param year four digits
 * @param quarter 1 to 4
 */
public record Period(int year, int quarter) implements Comparable<Period> {

    /** The years a caller may send; what lies outside is taken for a slip of the keyboard. */
    private static final int FIRST_YEAR = 1990;

    private static final int LAST_YEAR = 2100;

    private static final Pattern TEXT = Pattern.compile("([0-9]{4})-Q([1-4])");

    private static final Comparator<Period> BY_TIME =
            Comparator.comparingInt(Period::year).thenComparingInt(Period::quarter);

    /** Allows more years than {@link #parse}, so that {@link #next} of the last quarter a caller may send exists. */
    public Period {
        if (year < 1000 || year > 9999) {
            throw new IllegalArgumentException("year must have four digits, got " + year);
        }
        if (quarter < 1 || quarter > 4) {
            throw new IllegalArgumentException("quarter must be in [1, 4], got " + quarter);
        }
    }

    /** Reads exactly {@code YYYY-Qn}, year 1990 to 2100; empty for any other text. */
    public static Optional<Period> parse(String text) {
        Matcher matcher = TEXT.matcher(text);
        if (!matcher.matches()) {
            return Optional.empty();
        }
        int year = Integer.parseInt(matcher.group(1));
        return year < FIRST_YEAR || year > LAST_YEAR
                ? Optional.empty()
                : Optional.of(new Period(year, Integer.parseInt(matcher.group(2))));
    }

    /** The quarter this day falls in. */
    public static Period of(LocalDate day) {
        return new Period(day.getYear(), day.get(IsoFields.QUARTER_OF_YEAR));
    }

    /** The quarter after this one. */
    public Period next() {
        return quarter == 4 ? new Period(year + 1, 1) : new Period(year, quarter + 1);
    }

    @Override
    public int compareTo(Period other) {
        return BY_TIME.compare(this, other);
    }

    @Override
    @JsonValue
    public String toString() {
        return year + "-Q" + quarter;
    }
}
