package entrapment.registry.vocabulary;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** What people read in the place of a name or a code that is at hand as text; who has the {@link Field} or the {@link Code} asks that. */
public final class Labels {

    /** What else a report is split or filtered by, and the outcomes that it names. */
    private static final Map<String, String> OTHERS = Map.of(
            "perforation-iii", "Perforation type III",
            "fragment-left", "Fragment left in the body",
            "not-released", "Nothing released",
            "centre", "Centre",
            "from", "From",
            "to", "To",
            "year", "Year");

    private Labels() {}

    /** A field, what a report is split by, or an outcome that it names, from its name in JSON. */
    public static String field(String name) {
        return Field.of(name).map(Field::label).orElseGet(() -> OTHERS.getOrDefault(name, name));
    }

    /** A level of a field from its code; what has no label stands as it is. */
    public static String level(String field, String level) {
        if (field.equals(Field.DEVICE_SIZE_MM.code()) && !level.equals(Code.UNKNOWN)) {
            return level + " mm";
        }
        if (field.equals("centre")) {
            return level.replace('-', ' ');
        }
        return Field.of(field).flatMap(each -> each.find(level)).map(Code::label).orElse(level);
    }

    /** Filters in one line: {@code Device: Balloon catheter, Guidewire; From: 2031-Q1}. */
    public static String filters(Map<String, ?> filters) {
        return filters.entrySet().stream()
                .map(filter -> field(filter.getKey()) + ": "
                        + (filter.getValue() instanceof Collection<?> values ? values : List.of(filter.getValue()))
                                .stream()
                                        .map(value -> level(filter.getKey(), String.valueOf(value)))
                                        .collect(Collectors.joining(", ")))
                .collect(Collectors.joining("; "));
    }

    /** The levels that make a group, in one line; {@code all} where the group is all there is. */
    public static String group(Map<String, ?> levels, String all) {
        List<String> words = levels.entrySet().stream()
                .map(level -> level(level.getKey(), String.valueOf(level.getValue())))
                .toList();
        return words.isEmpty() ? all : String.join(", ", words);
    }
}
