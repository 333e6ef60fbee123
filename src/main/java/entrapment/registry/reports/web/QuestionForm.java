package entrapment.registry.reports.web;

import entrapment.registry.access.Centre;
import entrapment.registry.access.Viewer;
import entrapment.registry.reports.question.Parameter;
import entrapment.registry.reports.question.Question;
import entrapment.registry.vocabulary.Period;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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

    /** Whether a filter beyond the main ones is in force. */
    public boolean isMoreInForce() {
        return more.stream()
                .anyMatch(control -> control.chosen() > 0 || !control.value().isEmpty());
    }

    /**
     * The form of a question, filled with what its address has chosen.
     *
     * @param centres of which the viewer may choose one
     * @param periods to suggest
     */
    static QuestionForm of(
            Question<?, ?, ?> question,
            Map<String, List<String>> given,
            Viewer viewer,
            List<Centre> centres,
            List<Period> periods) {
        Filling filling = new Filling(given, viewer, centres, periods);
        List<Parameter<?>> all = question.parameters();
        List<Parameter<?>> own = question.ownParameters();
        List<Control> main = new ArrayList<>();
        List<Control> more = new ArrayList<>();
        Stream.concat(own.stream(), all.stream().filter(each -> !own.contains(each)))
                .filter(parameter -> !parameter.isFolded())
                .forEach(parameter -> filling.control(parameter).ifPresent(main::add));
        all.stream().filter(Parameter::isFolded).forEach(parameter -> filling.control(parameter)
                .ifPresent(more::add));
        return new QuestionForm(main, more);
    }

    /** Makes controls that know what the address has chosen. */
    private record Filling(Map<String, List<String>> given, Viewer viewer, List<Centre> centres, List<Period> periods) {

        /** None where there is nothing to choose. */
        Optional<Control> control(Parameter<?> parameter) {
            return switch (parameter.control()) {
                case ONE -> Optional.of(one(parameter));
                case SPLIT -> Optional.of(split(parameter));
                case ANY -> Optional.of(of(parameter, Kind.ANY, "", options(parameter)));
                case NUMBER -> Optional.of(typed(parameter, options(parameter)));
                case PERIOD ->
                    Optional.of(typed(
                            parameter,
                            periods.stream()
                                    .map(period -> new Option(period.toString(), period.toString(), false))
                                    .toList()));
                case CENTRE -> viewer.sees(List.of()).isEmpty() ? Optional.of(centre(parameter)) : Optional.empty();
            };
        }

        private static Control of(Parameter<?> parameter, Kind kind, String value, List<Option> options) {
            String label = parameter.label();
            return new Control(
                    parameter.name(), label == null ? "form." + parameter.name() : label, kind, value, options);
        }

        private List<String> chosen(Parameter<?> parameter) {
            return given.getOrDefault(parameter.name(), List.of()).stream()
                    .flatMap(value -> Stream.of(value.split(",", -1)))
                    .map(String::strip)
                    .filter(value -> !value.isEmpty())
                    .toList();
        }

        private List<Option> options(Parameter<?> parameter) {
            List<String> chosen = chosen(parameter);
            return parameter.choices().stream()
                    .map(choice -> new Option(choice.code(), label(parameter, choice), chosen.contains(choice.code())))
                    .toList();
        }

        private static String label(Parameter<?> parameter, Parameter.Choice choice) {
            String label = choice.label();
            return label == null ? "form." + parameter.name() + "." + choice.code() : label;
        }

        /** The first is what holds where nothing is chosen, so it says nothing in the address. */
        private Control one(Parameter<?> parameter) {
            List<Option> options = new ArrayList<>(options(parameter));
            options.set(0, new Option("", options.get(0).label(), options.get(0).chosen()));
            return of(parameter, Kind.ONE, "", options);
        }

        /** The first choice is no split; several at once, from an address written by hand, stay as they are. */
        private Control split(Parameter<?> parameter) {
            List<String> chosen = chosen(parameter);
            List<Option> options = new ArrayList<>();
            options.add(new Option("", "form.by.none", chosen.isEmpty()));
            parameter
                    .choices()
                    .forEach(choice -> options.add(new Option(
                            choice.code(), label(parameter, choice), chosen.equals(List.of(choice.code())))));
            List<String> labels = chosen.stream()
                    .flatMap(code -> parameter.choices().stream()
                            .filter(choice -> choice.code().equals(code)))
                    .map(choice -> label(parameter, choice))
                    .toList();
            if (chosen.size() > 1 && labels.size() == chosen.size()) {
                options.add(new Option(String.join(",", chosen), String.join(", ", labels), true));
            }
            return of(parameter, Kind.ONE, "", options);
        }

        /** What was typed is repeated only where it looks like a number or a period: it could be anything. */
        private Control typed(Parameter<?> parameter, List<Option> suggested) {
            String value = chosen(parameter).stream().findFirst().orElse("");
            return of(
                    parameter,
                    Kind.TYPED,
                    value.matches("[0-9]{1,10}([.-][0-9Q]{1,10})?|unknown") ? value : "",
                    suggested.stream()
                            .map(each -> new Option(each.value(), each.value(), false))
                            .toList());
        }

        /** The whole network first; whoever sees it under masks may choose the own centre alone. */
        private Control centre(Parameter<?> parameter) {
            List<String> chosen = chosen(parameter);
            List<Option> options = new ArrayList<>();
            options.add(new Option("", "form.centre.all", chosen.isEmpty()));
            centres.stream()
                    .filter(centre -> viewer.isSteward() || centre.code().equals(viewer.centre()))
                    .forEach(centre ->
                            options.add(new Option(centre.code(), centre.name(), chosen.contains(centre.code()))));
            return of(parameter, Kind.ONE, "", options);
        }
    }
}
