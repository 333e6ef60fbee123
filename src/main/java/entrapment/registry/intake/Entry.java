package entrapment.registry.intake;

import static java.util.stream.Collectors.joining;

import entrapment.registry.vocabulary.Code;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * One value of a submission and where it stands. As with {@link Fields}, what cannot be read is noted with its pointer and
 * answers a placeholder.
 */
public final class Entry {

    /** More wrong entries than a reader of the answer could use; the rest of an array is then left unread. */
    private static final int MOST_ERRORS = 1_000;

    private final JsonNode node;
    private final String pointer;
    private final List<FieldError> errors;

    Entry(JsonNode node, String pointer, List<FieldError> errors) {
        this.node = node;
        this.pointer = pointer;
        this.errors = errors;
    }

    /** Whether this is JSON's null. */
    public boolean isNull() {
        return node.isNull();
    }

    /** A whole number between two bounds, both allowed; the lower bound where it is none. */
    public long whole(long least, long most) {
        Long value = wholeOrNull(least, most);
        return value == null ? least : value;
    }

    @Nullable
    Long wholeOrNull(long least, long most) {
        if (!node.isNumber()) {
            refuse("wrong-type", "must be a whole number");
            return null;
        }
        BigDecimal value = exact(node);
        if (value == null
                || value.compareTo(BigDecimal.valueOf(least)) < 0
                || value.compareTo(BigDecimal.valueOf(most)) > 0) {
            refuse("out-of-range", "must be in [" + least + ", " + most + "]");
            return null;
        }
        if (value.stripTrailingZeros().scale() > 0) {
            refuse("wrong-type", "must be a whole number");
            return null;
        }
        return value.longValue();
    }

    /** A real number between two bounds, both allowed; the lower bound where it is none. */
    public double real(double least, double most) {
        Double value = realOrNull(least, most);
        return value == null ? least : value;
    }

    @Nullable
    Double realOrNull(double least, double most) {
        double value = real();
        if (!(value >= least && value <= most)) {
            refuse(
                    node.isNumber() ? "out-of-range" : "wrong-type",
                    "must be a number in [" + least + ", " + most + "]");
            return null;
        }
        return value;
    }

    /** A number above 0 and below 1, such as the chance of an event; ½ where it is none. */
    public double probability() {
        Double value = probabilityOrNull();
        return value == null ? 0.5 : value;
    }

    @Nullable
    Double probabilityOrNull() {
        double value = real();
        if (!(value > 0 && value < 1)) {
            refuse(node.isNumber() ? "out-of-range" : "wrong-type", "must be a number above 0 and below 1");
            return null;
        }
        return value;
    }

    /** The nearest double, infinite or 0 beyond their range; not a number where this is none. */
    private double real() {
        return node.isNumber() ? node.decimalValue().doubleValue() : Double.NaN;
    }

    /** A decimal number of at most {@code scale} places between two bounds, both allowed. */
    @Nullable
    BigDecimal decimalOrNull(int scale, BigDecimal least, BigDecimal most) {
        if (!node.isNumber()) {
            refuse("wrong-type", "must be a number");
            return null;
        }
        BigDecimal value = exact(node);
        if (value == null || value.compareTo(least) < 0 || value.compareTo(most) > 0) {
            refuse("out-of-range", "must be in [" + least + ", " + most + "]");
            return null;
        }
        value = value.stripTrailingZeros();
        if (value.scale() > scale) {
            refuse("out-of-range", "must have at most " + scale + " decimal places");
            return null;
        }
        return value.scale() < 0 ? value.setScale(0) : value;
    }

    /** A code of a closed list; its first where it is none. */
    <E extends Enum<E> & Code> E code(Class<E> type) {
        Optional<E> code = node.isString() ? Code.of(type, node.stringValue()) : Optional.empty();
        E[] codes = type.getEnumConstants();
        if (code.isEmpty()) {
            refuse(
                    node.isString() ? "not-a-code" : "wrong-type",
                    "must be one of the texts "
                            + Stream.of(codes).map(Code::code).collect(joining(", ")));
        }
        return code.orElse(codes[0]);
    }

    /** Yes or no; {@code otherwise} where it is neither. */
    boolean flag(boolean otherwise) {
        if (!node.isBoolean()) {
            refuse("wrong-type", "must be true or false");
            return otherwise;
        }
        return node.booleanValue();
    }

    @Nullable
    String textOrNull() {
        if (!node.isString()) {
            refuse("wrong-type", "must be text");
            return null;
        }
        return node.stringValue();
    }

    /** A text that is not empty; empty where it is none. */
    public String text() {
        if (!node.isString() || node.stringValue().isEmpty()) {
            refuse("wrong-type", "must be a text");
            return "";
        }
        return node.stringValue();
    }

    /** An array's values in order; none where this is no array, or too long a one. */
    public <T> List<T> list(int most, Function<Entry, T> reader) {
        List<T> values = new ArrayList<>();
        each(most, entry -> {
            if (errors.size() < MOST_ERRORS) {
                values.add(reader.apply(entry));
            }
        });
        return Collections.unmodifiableList(values);
    }

    /** Hands over an array's values in order; none where this is no array, or too long a one. */
    void each(int most, Consumer<Entry> reader) {
        if (!node.isArray()) {
            refuse("wrong-type", "must be an array");
        } else if (node.size() > most) {
            refuse("too-many", "must have at most " + most + " entries");
        } else {
            for (int index = 0; index < node.size(); index++) {
                reader.accept(new Entry(node.get(index), pointer + "/" + index, errors));
            }
        }
    }

    /** Reads an object. */
    <T> T object(Function<Fields, T> reader) {
        return Fields.readObject(node, pointer, errors, reader);
    }

    private void refuse(String code, String rule) {
        errors.add(new FieldError(pointer, code, Fields.nameOf(pointer) + " " + rule));
    }

    /** The value without expanding an exponent such as 1e999999999, which would cost memory. */
    static @Nullable BigDecimal exact(JsonNode node) {
        BigDecimal value = node.decimalValue();
        return Math.abs((long) value.precision() - value.scale()) > 30 ? null : value;
    }
}
