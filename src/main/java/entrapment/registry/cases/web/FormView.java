package entrapment.registry.cases.web;

import entrapment.registry.cases.CaseColumn;
import entrapment.registry.cases.CaseColumns;
import entrapment.registry.cases.EntrapmentCase;
import entrapment.registry.cases.KeyedCase;
import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.FieldError;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Field;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The form of a case as its page shows it.
 *
 * @param before the parts that come before the attempts
 * @param after the parts that come after them
 * @param errors what is wrong, each with the input to look at
 */
record FormView(
        List<Part> before, List<Attempt> attempts, List<Part> after, List<Wrong> errors, boolean roomForAttempts) {

    private static final Set<Field> REQUIRED = EnumSet.of(
            Field.DEVICE_CLASS,
            Field.HAEMODYNAMICS,
            Field.TECHNIQUE,
            Field.RESULT,
            Field.RELEASE,
            Field.HARM,
            Field.PERIOD,
            Field.CASE_KEY);

    /** One code that can be chosen. */
    record Choice(String code, String label, String definition, boolean chosen) {}

    /**
     * Where one column is filled in.
     *
     * @param kind select, set, number or key
     * @param means the definition of the code that is chosen
     * @param error empty where nothing is wrong
     */
    record Input(
            String name,
            String label,
            String help,
            String kind,
            boolean required,
            boolean blank,
            List<Choice> choices,
            String value,
            String means,
            String error,
            boolean first) {

        /** The elements that say more about it. */
        public String describedBy() {
            return name + "-error " + (help.isEmpty() ? "" : name + "-help ")
                    + (kind.equals("select") ? name + "-means" : "");
        }
    }

    /** Inputs that belong together. */
    record Part(String name, String title, List<Input> fields) {

        /** Those whose codes need explaining. */
        public List<Input> coded() {
            return codedOf(fields);
        }
    }

    /** One attempt, from 1. */
    record Attempt(int number, List<Input> fields, boolean last, boolean only) {

        public List<Input> coded() {
            return codedOf(fields);
        }
    }

    /** An error and the input to look at; none where it is about the whole. */
    record Wrong(@Nullable String anchor, String label, String text) {}

    /** What is needed beside the form itself. */
    record Setting(List<String> periods, boolean identifiers, boolean keyIsFixed, String focus) {}

    static FormView of(CaseForm form, Map<String, FieldError> errors, Setting setting, CaseTexts texts) {
        Maker maker = new Maker(form.shown(), errors, setting, texts);
        List<Attempt> attempts = new ArrayList<>();
        for (int number = 1; number <= form.attempts(); number++) {
            attempts.add(maker.attempt(number, form.attempts()));
        }
        return new FormView(
                maker.parts(true),
                attempts,
                maker.parts(false),
                errors.entrySet().stream()
                        .map(error -> wrong(error.getKey(), error.getValue(), texts))
                        .toList(),
                form.attempts() < EntrapmentCase.MOST_ATTEMPTS);
    }

    private static Wrong wrong(String column, FieldError error, CaseTexts texts) {
        return CaseColumns.named(column)
                .map(at -> new Wrong(anchor(at), texts.label(at), texts.error(error)))
                .orElseGet(() -> new Wrong(null, "", texts.error(error)));
    }

    private static List<Input> codedOf(List<Input> fields) {
        return fields.stream()
                .filter(field -> field.choices().stream()
                        .anyMatch(choice -> !choice.definition().isEmpty()))
                .toList();
    }

    /** Where a link to a column leads; of a set, to the first box. */
    private static String anchor(CaseColumn<KeyedCase> column) {
        return isSet(column)
                ? column.name() + "-" + column.field().codes().get(0).code()
                : column.name();
    }

    private static boolean isSet(CaseColumn<KeyedCase> column) {
        return column.csv().kind() == CsvColumn.Kind.SET;
    }

    private record Maker(CaseForm form, Map<String, FieldError> errors, Setting setting, CaseTexts texts) {

        List<Part> parts(boolean beforeAttempts) {
            return Stream.of(Section.values())
                    .filter(section -> section.beforeAttempts() == beforeAttempts)
                    .map(this::part)
                    .toList();
        }

        private Part part(Section section) {
            return new Part(
                    section.code(),
                    texts.text("case.section." + section.code()),
                    section.fields().stream()
                            .filter(field -> setting.identifiers() || field != Field.DEVICE_IDENTIFIER)
                            .filter(field -> !setting.keyIsFixed() || field != Field.CASE_KEY)
                            .map(field -> input(CaseColumns.of(field, 0)))
                            .toList());
        }

        Attempt attempt(int number, int of) {
            return new Attempt(
                    number,
                    CaseColumns.columns().stream()
                            .filter(column -> column.attempt() == number)
                            .map(this::input)
                            .toList(),
                    number == of,
                    of == 1);
        }

        private Input input(CaseColumn<KeyedCase> column) {
            Field field = column.field();
            boolean required = REQUIRED.contains(field);
            String value = form.value(column);
            String shown = value.isEmpty() && !required && field.mayBeUnknown() ? Code.UNKNOWN : value;
            List<Choice> choices = choices(field, shown);
            FieldError error = errors.get(column.name());
            return new Input(
                    column.name(),
                    field.label(),
                    texts.help(field),
                    kind(column),
                    required,
                    required || !field.mayBeUnknown(),
                    choices,
                    shown,
                    isSet(column) ? "" : means(choices),
                    error == null ? "" : texts.error(error),
                    column.name().equals(setting.focus()));
        }

        private static String means(List<Choice> choices) {
            return choices.stream()
                    .filter(choice -> choice.chosen() && !choice.code().equals(Code.UNKNOWN))
                    .map(Choice::definition)
                    .findFirst()
                    .orElse("");
        }

        private List<Choice> choices(Field field, String shown) {
            if (field == Field.PERIOD) {
                return Stream.concat(setting.periods().stream(), Stream.of(shown))
                        .filter(period -> !period.isEmpty())
                        .distinct()
                        .map(period -> new Choice(period, period, "", period.equals(shown)))
                        .toList();
            }
            List<String> chosen = List.of(shown.split(";", -1));
            return field.codes().stream()
                    .map(code -> new Choice(code.code(), code.label(), code.definition(), chosen.contains(code.code())))
                    .toList();
        }

        private static String kind(CaseColumn<KeyedCase> column) {
            if (column.field() == Field.PERIOD || !column.field().codes().isEmpty()) {
                return isSet(column) ? "set" : "select";
            }
            return column.csv().kind() == CsvColumn.Kind.NUMBER ? "number" : "key";
        }
    }
}
