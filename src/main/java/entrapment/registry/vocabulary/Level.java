package entrapment.registry.vocabulary;

import com.fasterxml.jackson.annotation.JsonValue;
import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * One level of what figures are split by or filtered on. It knows its code for programs, its label for people, and its
 * place: codes in the order of their list, sizes by size, periods by time, all else by text; what is unknown comes last.
 */
public sealed interface Level extends Comparable<Level> {

    /** As it stands in JSON, CSV and URLs. */
    @JsonValue
    String code();

    /** As people read it. */
    default String label() {
        return code();
    }

    /** Whether nobody recorded it. */
    default boolean isUnknown() {
        return code().equals(Factor.UNKNOWN);
    }

    /** Its place among levels of its kind; where two have the same, their codes decide. */
    default double place() {
        return 0;
    }

    @Override
    default int compareTo(Level other) {
        return Order.BY_PLACE.compare(this, other);
    }

    /** A code of a closed list. */
    record OfField(Code value, int number) implements Level {

        @Override
        public String code() {
            return value.code();
        }

        @Override
        public String label() {
            return value.label();
        }

        @Override
        public double place() {
            return number;
        }

        @Override
        public String toString() {
            return code();
        }
    }

    /**
     * The size of a device.
     *
     * @param mm null where it is unknown
     */
    record OfSize(@Nullable BigDecimal mm) implements Level {

        @Override
        public String code() {
            return mm == null ? Factor.UNKNOWN : mm.stripTrailingZeros().toPlainString();
        }

        @Override
        public String label() {
            return mm == null ? code() : code() + " mm";
        }

        @Override
        public double place() {
            return mm == null ? 0 : mm.doubleValue();
        }

        @Override
        public String toString() {
            return code();
        }
    }

    /** A centre, by its code or the name that it has for whoever may not see that. */
    record OfCentre(String code) implements Level {

        @Override
        public String label() {
            return code.replace('-', ' ');
        }

        @Override
        public String toString() {
            return code;
        }
    }

    /** A quarter or a year in which cases and returns are counted. */
    record OfPeriod(Period period) implements Level {

        @Override
        public String code() {
            return period.toString();
        }

        @Override
        public double place() {
            return period.begins();
        }

        @Override
        public String toString() {
            return code();
        }
    }

    /** A calendar year. */
    record OfYear(int year) implements Level {

        @Override
        public String code() {
            return Integer.toString(year);
        }

        @Override
        public double place() {
            return year;
        }

        @Override
        public String toString() {
            return code();
        }
    }

    /** The level of a factor as the database or a caller wrote it. */
    static Level of(Factor factor, String code) {
        return factor == Factor.DEVICE_SIZE_MM
                ? new OfSize(code.equals(Factor.UNKNOWN) ? null : new BigDecimal(code))
                : of(factor.code(), code);
    }

    /**
     * The level of a coded field.
     *
     * @throws IllegalArgumentException if the field has no such code
     */
    static Level of(String field, String code) {
        Level level = Order.OF_FIELDS.getOrDefault(field, Map.of()).get(code);
        if (level == null) {
            throw new IllegalArgumentException(field + " has no such code");
        }
        return level;
    }

    final class Order {

        private static final Comparator<Level> BY_PLACE = Comparator.comparing(Level::isUnknown)
                .thenComparingDouble(Level::place)
                .thenComparing(Level::code);

        private static final Map<String, Map<String, Level>> OF_FIELDS = Field.coded().stream()
                .collect(Collectors.toUnmodifiableMap(Field::code, field -> levels(field.codes())));

        private Order() {}

        private static Map<String, Level> levels(List<Code> codes) {
            return codes.stream()
                    .map(code -> new OfField(code, codes.indexOf(code)))
                    .collect(Collectors.toUnmodifiableMap(Level::code, Function.identity()));
        }
    }
}
