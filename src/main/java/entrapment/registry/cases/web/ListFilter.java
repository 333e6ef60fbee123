package entrapment.registry.cases.web;

import entrapment.registry.cases.CaseQuery;
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

    private static final Set<String> MAIN =
            Set.of("period", "deviceClass", "vessel", "haemodynamics", "release", "harm");

    /** One value that can be asked for. */
    record Option(String value, String label) {}

    static List<ListFilter> of(Map<String, List<String>> asked, List<String> periods, CaseWords words) {
        return CaseQuery.filterNames().stream()
                .filter(name -> !name.equals("deviceIdentifier") || asked.containsKey(name))
                .map(name -> of(name, String.join(",", asked.getOrDefault(name, List.of())), periods, words))
                .toList();
    }

    private static ListFilter of(String name, String value, List<String> periods, CaseWords words) {
        List<Option> options = new ArrayList<>();
        if (name.equals("period")) {
            periods.forEach(period -> options.add(new Option(period, period)));
        } else {
            CaseWords.codes(name).forEach(code -> options.add(new Option(code.code(), code.label())));
        }
        boolean listed = options.stream().anyMatch(option -> option.value().equals(value));
        if (!options.isEmpty() && !value.isEmpty() && !listed) {
            // Several at once, as an address may ask for.
            String label = Stream.of(value.split(",", -1))
                    .map(code -> CaseWords.label(name, code))
                    .reduce((one, other) -> words.text("case.or", one, other))
                    .orElse(value);
            options.add(new Option(value, label));
        }
        return new ListFilter(name, words.label(name), MAIN.contains(name), options, value);
    }
}
