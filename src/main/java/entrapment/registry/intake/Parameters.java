package entrapment.registry.intake;

import static java.util.stream.Collectors.joining;

import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Period;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/** The query of a URL, read parameter by parameter; every error comes back at once, as from {@link Fields}. */
public final class Parameters {

    private final Map<String, List<String>> given;
    private final List<FieldError> errors = new ArrayList<>();
    private final Set<String> known = new LinkedHashSet<>();

    private Parameters(Map<String, List<String>> given) {
        this.given = given;
    }

    /** Makes a value of the parameters. */
    public interface Reader<T> {
        T read(Parameters parameters);
    }

    /** Reads the whole query; a parameter that the reader did not ask for is refused. */
    public static <T> Reading<T> read(Map<String, List<String>> given, Reader<T> reader) {
        Parameters parameters = new Parameters(given);
        T value = reader.read(parameters);
        parameters.refuseUnknown();
        return parameters.errors.isEmpty()
                ? new Reading.Valid<>(value)
                : new Reading.Refused<>(List.copyOf(parameters.errors));
    }

    /** Every value, whether the parameter was repeated or its values joined by commas; empty where it is not given. */
    public List<String> list(String name) {
        known.add(name);
        return given.getOrDefault(name, List.of()).stream()
                .flatMap(value -> Stream.of(value.split(",", -1)))
                .map(String::strip)
                .filter(value -> !value.isEmpty())
                .distinct()
                .toList();
    }

    /** The one value; empty where it is not given. */
    public Optional<String> one(String name) {
        known.add(name);
        List<String> values = given.getOrDefault(name, List.of()).stream()
                .filter(value -> !value.isEmpty())
                .toList();
        if (values.size() > 1) {
            refuse(name, "repeated", name + " may be given once");
        }
        return values.stream().findFirst();
    }

    /** Every value as a code of a closed list. */
    public <E extends Enum<E> & Code> List<E> codes(String name, Class<E> type) {
        return list(name).stream()
                .flatMap(text -> code(name, text, type).stream())
                .toList();
    }

    /** The one value as a code of a closed list. */
    public <E extends Enum<E> & Code> Optional<E> code(String name, Class<E> type) {
        return one(name).flatMap(text -> code(name, text, type));
    }

    private <E extends Enum<E> & Code> Optional<E> code(String name, String text, Class<E> type) {
        Optional<E> code = Code.of(type, text);
        if (code.isEmpty()) {
            refuse(
                    name,
                    "not-a-code",
                    name + " must be one of "
                            + Stream.of(type.getEnumConstants()).map(Code::code).collect(joining(", ")));
        }
        return code;
    }

    /** One of a few words, the first of them where the parameter is not given. */
    public String choice(String name, String... words) {
        String text = one(name).orElse(words[0]);
        if (List.of(words).contains(text)) {
            return text;
        }
        refuse(name, "not-a-code", name + " must be one of " + String.join(", ", words));
        return words[0];
    }

    /** A quarter or a year; {@link Settings#requireResolution} says which of them the network has. */
    public Optional<Period> period(String name) {
        Optional<String> text = one(name);
        Optional<Period> period = text.flatMap(Period::parse);
        if (text.isPresent() && period.isEmpty()) {
            refuse(name, "not-a-period", name + " must be a period, YYYY-Qn or YYYY as the network has them");
        }
        return period;
    }

    /** A whole number between two bounds, both allowed. */
    public Optional<Long> whole(String name, long least, long most) {
        Optional<String> text = one(name);
        Optional<Long> value = text.filter(digits -> digits.matches("[0-9]{1,18}"))
                .map(Long::valueOf)
                .filter(number -> number >= least && number <= most);
        if (text.isPresent() && value.isEmpty()) {
            refuse(name, "out-of-range", name + " must be a whole number in [" + least + ", " + most + "]");
        }
        return value;
    }

    /** A decimal number between two bounds, both allowed. */
    public Optional<Double> decimal(String name, double least, double most) {
        Optional<String> text = one(name);
        Optional<Double> value = text.filter(digits -> digits.matches("[0-9]{1,10}(\\.[0-9]{1,10})?"))
                .map(digits -> new BigDecimal(digits).doubleValue())
                .filter(number -> number >= least && number <= most);
        if (text.isPresent() && value.isEmpty()) {
            refuse(name, "out-of-range", name + " must be a number in [" + least + ", " + most + "]");
        }
        return value;
    }

    /** Notes an error at a parameter. */
    public void refuse(String name, String code, String detail) {
        errors.add(new FieldError("/" + name, code, detail));
    }

    private void refuseUnknown() {
        long unknown =
                given.keySet().stream().filter(name -> !known.contains(name)).count();
        if (unknown > 0) {
            errors.add(new FieldError(
                    "",
                    "unknown-parameter",
                    unknown + " of the parameters are not known here; they may be " + String.join(", ", known)));
        }
    }
}
