package entrapment.registry.vocabulary;

import com.fasterxml.jackson.annotation.JsonValue;
import java.time.LocalDate;
import java.time.temporal.IsoFields;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * The finest time that a registry keeps: a calendar quarter, {@code YYYY-Qn} in JSON and CSV, or a calendar year,
 * {@code YYYY}. One registry has periods of one resolution alone.
 *
 * @param year four digits
 * @param quarter 1 to 4; 0 for the whole year
 */
public record Period(int year, int quarter) implements Comparable<Period> {

    /** How fine a network keeps time: a setting of it, since its privacy basis may allow no more than the year. */
    public enum Resolution {
        QUARTER("quarter", "YYYY-Qn", 4),
        YEAR("year", "YYYY", 1);

        private final String code;
        private final String format;
        private final int perYear;

        Resolution(String code, String format, int perYear) {
            this.code = code;
            this.format = format;
            this.perYear = perYear;
        }

        @JsonValue
        public String code() {
            return code;
        }

        public int perYear() {
            return perYear;
        }

        /** What a period must be, as the end of a sentence. */
        public String rule() {
            return "must be a %s, %s: the periods of this network are %ss".formatted(code, format, code);
        }
    }

    /** The years a caller may send; what lies outside is taken for a slip of the keyboard. */
    private static final int FIRST_YEAR = 1990;

    private static final int LAST_YEAR = 2100;

    private static final Pattern TEXT = Pattern.compile("([0-9]{4})(?:-Q([1-4]))?");

    private static final Comparator<Period> BY_TIME =
            Comparator.comparingInt(Period::year).thenComparingInt(Period::quarter);

    /** Allows more years than {@link #parse}, so that {@link #next} of the last period a caller may send exists. */
    public Period {
        if (year < 1000 || year > 9999) {
            throw new IllegalArgumentException("year must have four digits, got " + year);
        }
        if (quarter < 0 || quarter > 4) {
            throw new IllegalArgumentException("quarter must be in [0, 4], got " + quarter);
        }
    }

    /** Reads exactly {@code YYYY-Qn} or {@code YYYY}, year 1990 to 2100; empty for any other text. */
    public static Optional<Period> parse(String text) {
        Matcher matcher = TEXT.matcher(text);
        if (!matcher.matches()) {
            return Optional.empty();
        }
        int year = Integer.parseInt(matcher.group(1));
        String quarter = matcher.group(2);
        return year < FIRST_YEAR || year > LAST_YEAR
                ? Optional.empty()
                : Optional.of(new Period(year, quarter == null ? 0 : Integer.parseInt(quarter)));
    }

    /** The quarter or year this day falls in. */
    public static Period of(LocalDate day, Resolution resolution) {
        return new Period(day.getYear(), resolution == Resolution.YEAR ? 0 : day.get(IsoFields.QUARTER_OF_YEAR));
    }

    public Resolution resolution() {
        return quarter == 0 ? Resolution.YEAR : Resolution.QUARTER;
    }

    /** The quarter after this quarter, or the year after this year. */
    public Period next() {
        return switch (quarter) {
            case 0 -> new Period(year + 1, 0);
            case 4 -> new Period(year + 1, 1);
            default -> new Period(year, quarter + 1);
        };
    }

    /** The quarter before this quarter, or the year before this year. */
    public Period previous() {
        return switch (quarter) {
            case 0 -> new Period(year - 1, 0);
            case 1 -> new Period(year - 1, 4);
            default -> new Period(year, quarter - 1);
        };
    }

    /** So many periods, the one of this day first and then backwards. */
    public static List<Period> endingAt(LocalDate day, int count, Resolution resolution) {
        return Stream.iterate(of(day, resolution), Period::previous)
                .limit(count)
                .toList();
    }

    /** When it begins, in years: 2031.25 for the second quarter of 2031. */
    public double begins() {
        return year + Math.max(0, quarter - 1) / 4.0;
    }

    @Override
    public int compareTo(Period other) {
        return BY_TIME.compare(this, other);
    }

    @Override
    @JsonValue
    public String toString() {
        return quarter == 0 ? Integer.toString(year) : year + "-Q" + quarter;
    }
}
