package entrapment.registry.cases.web;

import entrapment.registry.cases.CaseQuery;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Field;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;

/**
 * One thing that a list of cases can be narrowed by.
 *
 * @param main whether it stands before the others
 * @param options empty where a value is typed
 * @param value what is asked for; empty for anything
 */
record ListFilter(String name, String label, boolean main, List<Option> options, String value) {

    private static final Set<Field> MAIN =
            Set.of(Field.PERIOD, Field.DEVICE_CLASS, Field.VESSEL, Field.HAEMODYNAMICS, Field.RELEASE, Field.HARM);

    /** One value that can be asked for. */
    record Option(String value, String label) {}

    static List<ListFilter> of(Map<String, List<String>> asked, List<String> periods, CaseTexts texts) {
        return CaseQuery.filterFields().stream()
                .filter(field -> field != Field.DEVICE_IDENTIFIER || asked.containsKey(field.code()))
                .map(field -> of(field, String.join(",", asked.getOrDefault(field.code(), List.of())), periods, texts))
                .toList();
    }

    private static ListFilter of(Field field, String value, List<String> periods, CaseTexts texts) {
        List<Option> options = new ArrayList<>();
        if (field == Field.PERIOD) {
            periods.forEach(period -> options.add(new Option(period, period)));
        } else {
            field.codes().forEach(code -> options.add(new Option(code.code(), code.label())));
        }
        boolean listed = options.stream().anyMatch(option -> option.value().equals(value));
        if (!options.isEmpty() && !value.isEmpty() && !listed) {
            // Several at once, as an address may ask for.
            String label = Stream.of(value.split(",", -1))
                    .map(code -> field.find(code).map(Code::label).orElse(code))
                    .reduce((one, other) -> texts.text("case.or", one, other))
                    .orElse(value);
            options.add(new Option(value, label));
        }
        return new ListFilter(field.code(), field.label(), MAIN.contains(field), options, value);
    }
}
