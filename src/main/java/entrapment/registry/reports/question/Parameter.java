package entrapment.registry.reports.question;

import entrapment.registry.intake.Parameters;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Field;
import entrapment.registry.vocabulary.Labels;
import entrapment.registry.vocabulary.Period;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * One parameter of a question: its name, how it is read, what can be chosen, and how a form asks for it.
 *
 * @param <T> what is read; may be null where nothing is given
 */
public final class Parameter<T extends @Nullable Object> {

    /** How a form asks for it. */
    public enum Control {
        /** One of a list; the first of it where nothing is chosen. */
        ONE,
        /** One of a list, or none of it; several can be given in a URL. */
        SPLIT,
        /** Any of a list. */
        ANY,
        /** A number. */
        NUMBER,
        /** A period. */
        PERIOD,
        /** A centre that whoever asks may name. */
        CENTRE
    }

    /**
     * What can be chosen.
     *
     * @param label null where it is a message of the page
     */
    public record Choice(String code, @Nullable String label) {}

    /** Makes a value of what was given under a name. */
    public interface Reader<T extends @Nullable Object> {
        T read(Parameters given, String name);
    }

    private final String name;
    private final Control control;
    private final List<Choice> choices;
    private final @Nullable String label;
    private final boolean folded;
    private final Reader<T> reader;

    private Parameter(
            String name,
            Control control,
            List<Choice> choices,
            @Nullable String label,
            boolean folded,
            Reader<T> reader) {
        this.name = name;
        this.control = control;
        this.choices = List.copyOf(choices);
        this.label = label;
        this.folded = folded;
        this.reader = reader;
    }

    /** One of some values; the first of them where nothing is given. */
    public static <E> Parameter<E> oneOf(String name, List<E> values, Function<E, String> code) {
        return new Parameter<>(name, Control.ONE, messages(values, code), null, false, (given, as) -> {
            String word = given.choice(as, values.stream().map(code).toArray(String[]::new));
            return values.stream()
                    .filter(value -> code.apply(value).equals(word))
                    .findFirst()
                    .orElse(values.get(0));
        });
    }

    private static <E> List<Choice> messages(List<E> values, Function<E, String> code) {
        return values.stream().map(value -> new Choice(code.apply(value), null)).toList();
    }

    /** What to split by, in the order given; {@code allowed} says what it can be. */
    public static Parameter<List<GroupBy>> split(List<GroupBy> allowed) {
        return grouping("by", Control.SPLIT, allowed);
    }

    /** Any of some groupings. */
    public static Parameter<List<GroupBy>> any(String name, List<GroupBy> allowed) {
        return grouping(name, Control.ANY, allowed);
    }

    private static Parameter<List<GroupBy>> grouping(String name, Control control, List<GroupBy> allowed) {
        return listed(name, control, allowed, GroupBy::code);
    }

    /** Any of some values that are fields. */
    public static <E> Parameter<List<E>> listed(
            String name, Control control, List<E> allowed, Function<E, String> code) {
        return new Parameter<>(
                name,
                control,
                allowed.stream()
                        .map(code)
                        .map(each -> new Choice(each, Labels.field(each)))
                        .toList(),
                null,
                false,
                (given, as) -> given.list(as).stream()
                        .flatMap(word -> {
                            Optional<E> value = allowed.stream()
                                    .filter(each -> code.apply(each).equals(word))
                                    .findFirst();
                            if (value.isEmpty()) {
                                given.refuse(
                                        as,
                                        "not-a-code",
                                        as + " must be of "
                                                + String.join(
                                                        ", ",
                                                        allowed.stream()
                                                                .map(code)
                                                                .toList()));
                            }
                            return value.stream();
                        })
                        .toList());
    }

    /** A filter on a coded field: any of its codes. */
    public static Parameter<List<String>> field(Field field) {
        List<String> codes = field.codes().stream().map(Code::code).toList();
        return filter(field, (given, as) -> {
            List<String> asked = given.list(as);
            if (!codes.containsAll(asked)) {
                given.refuse(as, "not-a-code", as + " must be one of " + String.join(", ", codes));
            }
            return asked;
        });
    }

    /** A filter on a field, read in a way of its own; the device alone is not folded away. */
    static Parameter<List<String>> filter(Field field, Reader<List<String>> reader) {
        List<Code> codes = field.codes();
        return new Parameter<>(
                field.code(),
                codes.isEmpty() ? Control.NUMBER : Control.ANY,
                codes.stream()
                        .map(code -> new Choice(code.code(), code.label()))
                        .toList(),
                field.label() + (codes.isEmpty() ? ", mm" : ""),
                field != Field.DEVICE_CLASS,
                reader);
    }

    /** A number in [least, most], with what some may want to try; null where nothing is given. */
    @SuppressWarnings("NullAway") // its standard mode does not know that T may be null
    public static Parameter<@Nullable Double> number(String name, double least, double most, String... suggested) {
        return new Parameter<>(
                name, Control.NUMBER, suggestions(suggested), null, false, (given, as) -> given.decimal(as, least, most)
                        .orElse(null));
    }

    /** A number in [least, most] with a usual value. */
    public static Parameter<Double> number(String name, double least, double most, Double usual, String... suggested) {
        return new Parameter<>(
                name, Control.NUMBER, suggestions(suggested), null, false, (given, as) -> given.decimal(as, least, most)
                        .orElse(usual));
    }

    private static List<Choice> suggestions(String... suggested) {
        return Stream.of(suggested).map(each -> new Choice(each, each)).toList();
    }

    /** A whole number of at least 0; null where nothing is given. */
    @SuppressWarnings("NullAway") // its standard mode does not know that T may be null
    static Parameter<@Nullable Long> whole(String name) {
        return new Parameter<>(
                name, Control.NUMBER, List.of(), null, false, (given, as) -> given.whole(as, 0, Long.MAX_VALUE)
                        .orElse(null));
    }

    /** A period; null where nothing is given. */
    @SuppressWarnings("NullAway") // its standard mode does not know that T may be null
    public static Parameter<@Nullable Period> period(String name) {
        return new Parameter<>(name, Control.PERIOD, List.of(), null, false, (given, as) -> given.period(as)
                .orElse(null));
    }

    /** Centres, as they were given. */
    static Parameter<List<String>> centres() {
        return new Parameter<>("centre", Control.CENTRE, List.of(), null, false, Parameters::list);
    }

    /** The same, folded away on the form until somebody wants it. */
    public Parameter<T> folded() {
        return new Parameter<>(name, control, choices, label, true, reader);
    }

    /** What was given, or what stands for nothing; what cannot be read is noted as an error. */
    T read(Parameters given) {
        return reader.read(given, name);
    }

    public String name() {
        return name;
    }

    public Control control() {
        return control;
    }

    /** What can be chosen, or is suggested. */
    public List<Choice> choices() {
        return choices;
    }

    /** The name of the field that is filtered; null where the label is a message of the page. */
    public @Nullable String label() {
        return label;
    }

    public boolean isFolded() {
        return folded;
    }
}
