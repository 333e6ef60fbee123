package entrapment.registry.cases.web;

import entrapment.registry.intake.FieldError;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Factor;
import java.util.ArrayList;
import java.util.LinkedHashMap;
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
 * @param errors what is wrong, each with the field to look at
 */
record FormView(
        List<Part> before, List<Attempt> attempts, List<Part> after, List<Wrong> errors, boolean roomForAttempts) {

    private static final Set<String> REQUIRED =
            Set.of("deviceClass", "haemodynamics", "technique", "result", "release", "harm", "period", "caseKey");

    private static final Set<String> SETS = Set.of("complications", "enablers");

    /** One code that can be chosen. */
    record Choice(String code, String label, String definition, boolean chosen) {}

    /**
     * One field.
     *
     * @param kind select, set, number or key
     * @param means the definition of the code that is chosen
     * @param error empty where nothing is wrong
     */
    record Field(
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

        /** Where a link to this field leads. */
        public String anchor() {
            return anchorOf(name);
        }

        /** The elements that say more about it. */
        public String describedBy() {
            return name + "-error " + (help.isEmpty() ? "" : name + "-help ")
                    + (kind.equals("select") ? name + "-means" : "");
        }
    }

    /** Fields that belong together, and the codes of all of them. */
    record Part(String name, String title, List<Field> fields) {

        /** The fields whose codes need explaining. */
        public List<Field> coded() {
            return codedOf(fields);
        }
    }

    /** One attempt, from 1. */
    record Attempt(int number, List<Field> fields, boolean last, boolean only) {

        public List<Field> coded() {
            return codedOf(fields);
        }
    }

    /** An error and the field to look at; no field where it is about the whole. */
    record Wrong(@Nullable String anchor, String label, String text) {}

    /** What is needed beside the form itself. */
    record Setting(List<String> periods, boolean identifiers, boolean keyIsFixed, String focus) {}

    static FormView of(CaseForm form, Map<String, FieldError> errors, Setting setting, CaseWords words) {
        Maker maker = new Maker(form.shown(), errors, setting, words);
        List<Part> before = new ArrayList<>();
        List<Part> after = new ArrayList<>();
        boolean past = false;
        for (Map.Entry<String, List<String>> section : CaseWords.SECTIONS.entrySet()) {
            (past ? after : before).add(maker.part(section.getKey(), section.getValue()));
            past |= section.getKey().equals(CaseWords.BEFORE_ATTEMPTS);
        }
        List<Attempt> attempts = new ArrayList<>();
        for (int number = 1; number <= form.attempts(); number++) {
            attempts.add(maker.attempt(number, form.attempts()));
        }
        Map<String, Wrong> wrong = new LinkedHashMap<>();
        errors.forEach((name, error) -> wrong.put(
                name,
                new Wrong(
                        name.isEmpty() ? null : anchorOf(name),
                        name.isEmpty() ? "" : words.label(name),
                        words.error(error))));
        return new FormView(
                before, attempts, after, List.copyOf(wrong.values()), form.attempts() < CaseForm.MOST_ATTEMPTS);
    }

    private static List<Field> codedOf(List<Field> fields) {
        return fields.stream()
                .filter(field -> field.choices().stream()
                        .anyMatch(choice -> !choice.definition().isEmpty()))
                .toList();
    }

    private static String anchorOf(String name) {
        String field = CaseForm.field(name);
        return SETS.contains(field) ? name + "-" + CaseWords.codes(field).get(0).code() : name;
    }

    /** Makes the fields of one form. */
    private record Maker(CaseForm form, Map<String, FieldError> errors, Setting setting, CaseWords words) {

        Part part(String name, List<String> columns) {
            return new Part(
                    name,
                    words.text("case.section." + name),
                    columns.stream()
                            .filter(column -> setting.identifiers() || !column.equals("deviceIdentifier"))
                            .filter(column -> !setting.keyIsFixed() || !column.equals("caseKey"))
                            .map(this::field)
                            .toList());
        }

        Attempt attempt(int number, int of) {
            return new Attempt(
                    number,
                    Stream.of("Technique", "Result", "Minutes", "Enablers")
                            .map(part -> field("attempt" + number + part))
                            .toList(),
                    number == of,
                    of == 1);
        }

        Field field(String name) {
            String field = CaseForm.field(name);
            boolean required = REQUIRED.contains(field);
            String kind = kind(field);
            String value = form.values().getOrDefault(name, "");
            String shown = value.isEmpty() && !required && hasUnknown(field) ? Factor.UNKNOWN : value;
            List<String> chosen = List.of(shown.split(";", -1));
            List<Choice> choices = field.equals("period")
                    ? periods(shown)
                    : CaseWords.codes(field).stream()
                            .map(code -> new Choice(
                                    code.code(), code.label(), code.definition(), chosen.contains(code.code())))
                            .toList();
            FieldError error = errors.get(name);
            return new Field(
                    name,
                    words.text("case.field." + field),
                    words.help(field),
                    kind,
                    required,
                    required || !hasUnknown(field),
                    choices,
                    shown,
                    kind.equals("select")
                            ? choices.stream()
                                    .filter(choice ->
                                            choice.chosen() && !choice.code().equals(Factor.UNKNOWN))
                                    .map(Choice::definition)
                                    .findFirst()
                                    .orElse("")
                            : "",
                    error == null ? "" : words.error(error),
                    name.equals(setting.focus()));
        }

        private List<Choice> periods(String chosen) {
            return Stream.concat(setting.periods().stream(), Stream.of(chosen))
                    .filter(period -> !period.isEmpty())
                    .distinct()
                    .map(period -> new Choice(period, period, "", period.equals(chosen)))
                    .toList();
        }

        private static boolean hasUnknown(String field) {
            return CaseWords.codes(field).stream().map(Code::code).anyMatch(Factor.UNKNOWN::equals);
        }

        private static String kind(String field) {
            if (SETS.contains(field)) {
                return "set";
            }
            return switch (field) {
                case "deviceSizeMm", "minutesFromEntrapment" -> "number";
                case "caseKey", "procedureKey", "deviceIdentifier" -> "key";
                default -> "select";
            };
        }
    }
}
