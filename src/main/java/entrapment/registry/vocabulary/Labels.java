package entrapment.registry.vocabulary;

import java.util.Map;

/** What people read in the place of a name or a code that is at hand as text; who has the {@link Field} or the {@link Code} asks that. */
public final class Labels {

    /** What else a report is split or filtered by. */
    private static final Map<String, String> OTHERS = Map.of(
            "centre", "Centre",
            "from", "From",
            "to", "To",
            "year", "Year");

    private Labels() {}

    /** A field, or what else a report is split by, from its name in JSON. */
    public static String field(String name) {
        return Field.of(name).map(Field::label).orElseGet(() -> OTHERS.getOrDefault(name, name));
    }
}
