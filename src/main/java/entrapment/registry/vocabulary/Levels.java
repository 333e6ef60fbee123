package entrapment.registry.vocabulary;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The levels that make a group, in the order of what it is split by; none where a group is all there is.
 *
 * @param byName by the name of what was split by
 */
public record Levels(@JsonValue Map<String, Level> byName) {

    /** All there is. */
    public static final Levels ALL = new Levels(Map.of());

    public Levels {
        byName = Collections.unmodifiableMap(new LinkedHashMap<>(byName));
    }

    /** Pairs names with levels; levels beyond the names are left. */
    public static Levels of(List<String> names, List<Level> levels) {
        Map<String, Level> byName = new LinkedHashMap<>();
        for (int index = 0; index < names.size(); index++) {
            byName.put(names.get(index), levels.get(index));
        }
        return new Levels(byName);
    }

    public static Levels of(String name, Level level) {
        return new Levels(Map.of(name, level));
    }

    /** The level of this name; null where it was not split by that. */
    public @Nullable Level get(String name) {
        return byName.get(name);
    }

    public Collection<Level> levels() {
        return byName.values();
    }

    public boolean isEmpty() {
        return byName.isEmpty();
    }

    /** The codes in one line, for programs. */
    public String codes() {
        return byName.values().stream().map(Level::code).collect(Collectors.joining(", "));
    }

    /** The labels in one line, for people; {@code all} where the group is all there is. */
    public String label(String all) {
        return byName.isEmpty()
                ? all
                : byName.values().stream().map(Level::label).collect(Collectors.joining(", "));
    }
}
