package entrapment.registry.intake;

import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Period;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;

/**
 * One object of a submission, read field by field. A field that cannot be read is noted with its pointer and answers
 * a placeholder, so that reading goes on and every error comes back at once; a value built from placeholders never
 * leaves {@link #read}.
 */
public final class Fields {

    /** A property name that may be repeated to the caller: a plain camel-case word, not somebody's name or number. */
    private static final Pattern SPEAKABLE_NAME = Pattern.compile("[a-z]{2,}([A-Z][a-z]+){0,4}");

    private static final Pattern FIELD_WITH_ENTRIES = Pattern.compile("^.*?/([^/]*(/[0-9]+)*)$");

    private final JsonNode object;
    private final String pointer;
    private final List<FieldError> errors;
    private final Set<String> known = new LinkedHashSet<>();

    private Fields(JsonNode object, String pointer, List<FieldError> errors) {
        this.object = object;
        this.pointer = pointer;
        this.errors = errors;
    }

    /**
     * Reads a whole submission.
     *
     * @param reader asks for each field it knows; whatever it did not ask for is refused as unknown
     */
    public static <T> Reading<T> read(JsonNode body, Function<Fields, T> reader) {
        List<FieldError> errors = new ArrayList<>();
        T value = readObject(body, "", errors, reader);
        return errors.isEmpty() ? new Reading.Valid<>(value) : new Reading.Refused<>(errors);
    }

    static <T> T readObject(JsonNode node, String pointer, List<FieldError> errors, Function<Fields, T> reader) {
        boolean readable = node.isObject();
        if (!readable) {
            errors.add(new FieldError(pointer, "wrong-type", nameOf(pointer) + " must be an object"));
        }
        Fields fields = new Fields(
                readable ? node : JsonNodeFactory.instance.objectNode(),
                pointer,
                readable ? errors : new ArrayList<>());
        T value = reader.apply(fields);
        fields.refuseUnknown();
        return value;
    }

    /** Reads the object of this name; an absent one is read as an object without fields. */
    public <T> T object(String name, Function<Fields, T> reader) {
        JsonNode node = find(name);
        return readObject(node == null ? JsonNodeFactory.instance.objectNode() : node, at(name), errors, reader);
    }

    /** Reads an array of objects, in order; absent is empty. */
    public <T> List<T> objects(String name, int most, Function<Fields, T> reader) {
        List<T> values = new ArrayList<>();
        Entry entry = entry(name);
        if (entry != null) {
            entry.each(most, element -> values.add(element.object(reader)));
        }
        return List.copyOf(values);
    }

    /** A code of a closed list, or {@code absent} where the field is not given. */
    public <E extends Enum<E> & Code> E code(String name, Class<E> type, E absent) {
        Entry entry = entry(name);
        return entry == null ? absent : entry.code(type);
    }

    /** A code that must be given. */
    public <E extends Enum<E> & Code> E requiredCode(String name, Class<E> type) {
        Entry entry = required(name);
        return entry == null ? type.getEnumConstants()[0] : entry.code(type);
    }

    /** A set of codes, given in any order; absent is empty. */
    public <E extends Enum<E> & Code> Set<E> codes(String name, Class<E> type) {
        EnumSet<E> values = EnumSet.noneOf(type);
        Entry entry = entry(name);
        if (entry != null) {
            entry.each(type.getEnumConstants().length, element -> values.add(element.code(type)));
        }
        return values;
    }

    /** Text, or null where the field is not given. */
    public @Nullable String text(String name) {
        Entry entry = entry(name);
        return entry == null ? null : entry.textOrNull();
    }

    /** Text that must be given; empty where it was not. */
    public String requiredText(String name) {
        String value = text(name);
        if (value == null && find(name) == null) {
            refuse(name, "missing", name + " is required");
        }
        return value == null ? "" : value;
    }

    /** A period that must be given, that must have begun, and that is a quarter or a year as {@code latest} is. */
    public Period period(String name, Period latest) {
        String text = requiredText(name);
        Optional<Period> period = Period.parse(text).filter(given -> given.resolution() == latest.resolution());
        if (period.isEmpty() && !text.isEmpty()) {
            refuse(name, "not-a-period", name + " " + latest.resolution().rule());
        } else if (period.isPresent() && period.get().compareTo(latest) > 0) {
            refuse(
                    name,
                    "period-in-future",
                    name + " must not be after the current "
                            + latest.resolution().code() + ", " + latest);
        }
        return period.orElse(latest);
    }

    /** A decimal number of at most {@code scale} places between two bounds, both allowed; null where it is not given. */
    public @Nullable BigDecimal decimal(String name, int scale, BigDecimal least, BigDecimal most) {
        Entry entry = entry(name);
        return entry == null ? null : entry.decimalOrNull(scale, least, most);
    }

    /** A whole number between two bounds, both allowed; null where it is not given. */
    public @Nullable Long whole(String name, long least, long most) {
        Entry entry = entry(name);
        return entry == null ? null : entry.wholeOrNull(least, most);
    }

    /** A real number between two bounds, both allowed; {@code absent} where it is not given. */
    public double real(String name, double least, double most, double absent) {
        Entry entry = entry(name);
        Double value = entry == null ? null : entry.realOrNull(least, most);
        return value == null ? absent : value;
    }

    /** A real number that must be given; the lower bound where it was not. */
    public double requiredReal(String name, double least, double most) {
        Entry entry = required(name);
        return entry == null ? least : entry.real(least, most);
    }

    /** A number above 0 and below 1, such as the chance of an event; null where it is not given. */
    public @Nullable Double probability(String name) {
        Entry entry = entry(name);
        return entry == null ? null : entry.probabilityOrNull();
    }

    /** A number above 0 and below 1 that must be given; ½ where it was not. */
    public double requiredProbability(String name) {
        Entry entry = required(name);
        return entry == null ? 0.5 : entry.probability();
    }

    /** Yes or no; {@code absent} where it is not given. */
    public boolean flag(String name, boolean absent) {
        Entry entry = entry(name);
        return entry == null ? absent : entry.flag(absent);
    }

    /** An array that must be given, value by value; empty where it was not. */
    public <T> List<T> list(String name, int most, Function<Entry, T> reader) {
        Entry entry = required(name);
        return entry == null ? List.of() : entry.list(most, reader);
    }

    /** An array of objects that must be given; empty where it was not. */
    public <T> List<T> requiredObjects(String name, int most, Function<Fields, T> reader) {
        return list(name, most, entry -> entry.object(reader));
    }

    /** A whole number that must be given; the lower bound where it was not. */
    public long requiredWhole(String name, long least, long most) {
        Long value = whole(name, least, most);
        if (value == null && find(name) == null) {
            refuse(name, "missing", name + " is required");
        }
        return value == null ? least : value;
    }

    /** Whether this field was given; {@code null} and an empty text count as not given. */
    public boolean has(String name) {
        return find(name) != null;
    }

    /** Whether this field was given as an array. */
    public boolean hasArray(String name) {
        JsonNode node = find(name);
        return node != null && node.isArray();
    }

    /** Notes an error at a field of this object. */
    public void refuse(String name, String code, String detail) {
        errors.add(new FieldError(at(name), code, detail));
    }

    /** Notes an error found by a rule that looks at several fields; {@code at} is a pointer from this object. */
    public void refuseAt(String at, String code, String detail) {
        errors.add(new FieldError(pointer + at, code, detail));
    }

    /** Whether nothing at or below this pointer, counted from this object, has been refused so far. */
    public boolean sound(String at) {
        String place = pointer + at;
        return errors.stream()
                .map(FieldError::pointer)
                .noneMatch(bad -> bad.equals(place) || bad.startsWith(place + "/") || place.startsWith(bad + "/"));
    }

    private @Nullable Entry entry(String name) {
        JsonNode node = find(name);
        return node == null ? null : new Entry(node, at(name), errors);
    }

    private @Nullable Entry required(String name) {
        Entry entry = entry(name);
        if (entry == null) {
            refuse(name, "missing", name + " is required");
        }
        return entry;
    }

    private @Nullable JsonNode find(String name) {
        known.add(name);
        JsonNode node = object.get(name);
        boolean given = node != null
                && !node.isNull()
                && !(node.isString() && node.stringValue().isEmpty());
        return given ? node : null;
    }

    private void refuseUnknown() {
        Set<String> unknown = new HashSet<>(object.propertyNames());
        unknown.removeAll(known);
        String allowed = String.join(", ", known);
        unknown.stream().sorted().forEach(name -> {
            String place = SPEAKABLE_NAME.matcher(name).matches() && name.length() <= 40 ? at(name) : pointer;
            errors.add(new FieldError(
                    place, "unknown-field", "unknown property; " + nameOf(pointer) + " may have " + allowed));
        });
    }

    private String at(String name) {
        return pointer + "/" + escaped(name);
    }

    /** A name as a part of a pointer (RFC 6901). */
    static String escaped(String name) {
        return name.replace("~", "~0").replace("/", "~1");
    }

    /** How a sentence calls a place: its field, with the numbers of the entries below it. */
    static String nameOf(String pointer) {
        if (pointer.isEmpty()) {
            return "the body";
        }
        return FIELD_WITH_ENTRIES.matcher(pointer).replaceFirst("$1");
    }
}
