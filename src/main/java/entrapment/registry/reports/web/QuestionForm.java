package entrapment.registry.reports.web;

import entrapment.registry.access.Centre;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.PartialCase;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Field;
import entrapment.registry.vocabulary.Labels;
import entrapment.registry.vocabulary.Period;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The choices of a question page, as they stand in its address. Public for the template alone.
 *
 * @param main what is asked most often, in view at once
 * @param more further filters, folded away
 */
public record QuestionForm(List<Control> main, List<Control> more) {

    /** How a choice is made. */
    public enum Kind {
        /** One of a list. */
        ONE,
        /** Any of a list. */
        ANY,
        /** Typed, with suggestions. */
        TYPED
    }

    /** One value that can be chosen. */
    public record Option(String value, String label, boolean chosen) {}

    /**
     * One parameter.
     *
     * @param label as text, or the key of a message where it begins with {@code form.}
     * @param value as typed
     * @param options to choose from, or suggested
     */
    public record Control(String name, String label, Kind kind, String value, List<Option> options) {

        public boolean isMessage() {
            return label.startsWith("form.");
        }

        /** How many are chosen, to be seen while the list is folded. */
        public long chosen() {
            return options.stream().filter(Option::chosen).count();
        }
    }

    private static final List<String> FACTORS =
            Stream.of(Factor.values()).map(Factor::code).toList();

    /** Whether a filter beyond the main ones is in force. */
    public boolean isMoreInForce() {
        return more.stream()
                .anyMatch(control -> control.chosen() > 0 || !control.value().isEmpty());
    }

    static QuestionForm of(
            String report, Map<String, List<String>> given, Viewer viewer, List<Centre> centres, List<Period> periods) {
        Controls controls = new Controls(given);
        List<Control> main = new ArrayList<>(own(report, controls));
        if (!viewer.sees(List.of()).isEmpty()) {
            main.add(controls.one("centre", "form.centre", ""));
        } else {
            main.add(controls.centres(centres, viewer));
        }
        List<String> suggested = periods.stream().map(Period::toString).toList();
        main.add(controls.typed("from", "form.from", suggested));
        main.add(controls.typed("to", "form.to", suggested));
        main.add(controls.any("deviceClass", Labels.field("deviceClass"), codes("deviceClass")));
        List<Control> more = new ArrayList<>();
        for (String factor : FACTORS) {
            if (factor.equals(Factor.DEVICE_SIZE_MM.code())) {
                more.add(controls.typed(factor, Labels.field(factor) + ", mm", List.of()));
            } else if (!factor.equals(Factor.DEVICE_CLASS.code())) {
                more.add(controls.any(factor, Labels.field(factor), codes(factor)));
            }
        }
        if (report.equals("similar-cases")) {
            PartialCase.LEAVES.forEach(leaf -> more.add(controls.any(leaf, Labels.field(leaf), codes(leaf))));
        }
        more.add(controls.typed("confidence", "form.confidence", List.of("0.9", "0.95", "0.99")));
        more.add(controls.typed("asOf", "form.asOf", List.of()));
        return new QuestionForm(main, more);
    }

    private static List<Control> own(String report, Controls controls) {
        return switch (report) {
            case "incidence" ->
                List.of(
                        controls.by(axes("centre", "period", "year")),
                        controls.one("method", "form.method", "", "wilson", "newcombe", "clopper-pearson", "jeffreys"));
            case "retrieval" ->
                List.of(controls.by(List.of("deviceClass", "haemodynamics", "timiFlow", "guideFrench")));
            case "risk-factors" ->
                List.of(
                        controls.one("model", "form.model", "", "crude", "stratified", "adjusted"),
                        controls.any("factors", "form.factors", fields(FACTORS)),
                        controls.any("stratifyBy", "form.stratifyBy", fields(List.of("centre", "deviceClass"))));
            case "over-time" ->
                List.of(
                        controls.one("chart", "form.chart", "", "proportion", "between-events", "cusum"),
                        controls.typed("baselineFrom", "form.baselineFrom", List.of()),
                        controls.typed("baselineTo", "form.baselineTo", List.of()));
            case "between-centres" -> List.of(controls.any("adjustFor", "form.adjustFor", fields(FACTORS)));
            case "harm" -> List.of(controls.by(axes("centre", "period", "year")));
            case "completeness" -> List.of(controls.one("by", "form.by", "", "centre", "period"));
            case "planning", "pooled" -> List.of(controls.by(FACTORS));
            default -> List.of();
        };
    }

    private static List<String> axes(String... then) {
        return Stream.concat(FACTORS.stream(), Stream.of(then)).toList();
    }

    private static Map<String, String> fields(List<String> names) {
        return names.stream()
                .collect(Collectors.toMap(name -> name, Labels::field, (a, b) -> a, java.util.LinkedHashMap::new));
    }

    private static Map<String, String> codes(String field) {
        return Field.of(field).map(Field::codes).orElse(List.of()).stream()
                .collect(Collectors.toMap(Code::code, Code::label, (a, b) -> a, java.util.LinkedHashMap::new));
    }

    /** Makes controls that know what the address has chosen. */
    private record Controls(Map<String, List<String>> given) {

        private List<String> chosen(String name) {
            return given.getOrDefault(name, List.of()).stream()
                    .flatMap(value -> Stream.of(value.split(",", -1)))
                    .map(String::strip)
                    .filter(value -> !value.isEmpty())
                    .toList();
        }

        /** The label of an option is a message of its own: {@code form.chart.cusum}. */
        Control one(String name, String label, String... values) {
            List<String> chosen = chosen(name);
            return new Control(
                    name,
                    label,
                    Kind.ONE,
                    "",
                    Stream.of(values)
                            .filter(value -> !value.isEmpty())
                            .map(value -> new Option(value, label + "." + value, chosen.contains(value)))
                            .toList());
        }

        /** The first choice is no split; several at once, from an address written by hand, stay as they are. */
        Control by(List<String> axes) {
            List<String> chosen = chosen("by");
            List<Option> options = new ArrayList<>();
            options.add(new Option("", "form.by.none", chosen.isEmpty()));
            fields(axes).forEach((name, label) -> options.add(new Option(name, label, chosen.equals(List.of(name)))));
            if (chosen.size() > 1 && axes.containsAll(chosen)) {
                options.add(new Option(
                        String.join(",", chosen),
                        chosen.stream().map(Labels::field).collect(Collectors.joining(", ")),
                        true));
            }
            return new Control("by", "form.by", Kind.ONE, "", options);
        }

        Control any(String name, String label, Map<String, String> values) {
            List<String> chosen = chosen(name);
            return new Control(
                    name,
                    label,
                    Kind.ANY,
                    "",
                    values.entrySet().stream()
                            .map(value -> new Option(value.getKey(), value.getValue(), chosen.contains(value.getKey())))
                            .toList());
        }

        /** What was typed is repeated only where it looks like a number or a period: it could be anything. */
        Control typed(String name, String label, List<String> suggested) {
            String value = chosen(name).stream().findFirst().orElse("");
            return new Control(
                    name,
                    label,
                    Kind.TYPED,
                    value.matches("[0-9]{1,10}([.-][0-9Q]{1,10})?|unknown") ? value : "",
                    suggested.stream()
                            .map(each -> new Option(each, each, false))
                            .toList());
        }

        /** The whole network first; whoever sees it under masks may choose the own centre alone. */
        Control centres(List<Centre> centres, Viewer viewer) {
            List<String> chosen = chosen("centre");
            List<Option> options = new ArrayList<>();
            options.add(new Option("", "form.centre.all", chosen.isEmpty()));
            centres.stream()
                    .filter(centre -> viewer.isSteward() || centre.code().equals(viewer.centre()))
                    .forEach(centre ->
                            options.add(new Option(centre.code(), centre.name(), chosen.contains(centre.code()))));
            return new Control("centre", "form.centre", Kind.ONE, "", options);
        }
    }
}
