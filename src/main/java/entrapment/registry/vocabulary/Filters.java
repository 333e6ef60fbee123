package entrapment.registry.vocabulary;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The filters in force, as an answer repeats them.
 *
 * @param centres empty for every centre
 * @param from the first period, included; null for no bound
 * @param to the last period, included; null for no bound
 * @param levels by the name of a field, the levels that will do
 */
public record Filters(
        List<Level> centres,
        @Nullable Period from,
        @Nullable Period to,
        Map<String, List<Level>> levels) {

    /** None. */
    public static final Filters NONE = new Filters(List.of(), null, null, Map.of());

    public Filters {
        levels = Collections.unmodifiableMap(new LinkedHashMap<>(levels));
    }

    /** Of a selection, and of further fields that only cases have. */
    public static Filters of(Selection selection, Map<String, List<String>> others) {
        Map<String, List<Level>> levels = new LinkedHashMap<>();
        selection
                .levels()
                .forEach((factor, codes) -> levels.put(
                        factor.code(),
                        codes.stream().map(code -> Level.of(factor, code)).toList()));
        others.forEach((field, codes) -> levels.put(
                field, codes.stream().map(code -> Level.of(field, code)).toList()));
        return new Filters(
                selection.centres().stream().<Level>map(Level.OfCentre::new).toList(),
                selection.from(),
                selection.to(),
                levels);
    }

    /** By the name of their parameter, in the order of the parameters. */
    @JsonValue
    public Map<String, Object> byName() {
        Map<String, Object> byName = new LinkedHashMap<>(all());
        if (from != null) {
            byName.put("from", from);
        }
        if (to != null) {
            byName.put("to", to);
        }
        return byName;
    }

    private Map<String, List<Level>> all() {
        Map<String, List<Level>> all = new LinkedHashMap<>();
        if (!centres.isEmpty()) {
            all.put("centre", centres);
        }
        if (from != null) {
            all.put("from", List.of(new Level.OfPeriod(from)));
        }
        if (to != null) {
            all.put("to", List.of(new Level.OfPeriod(to)));
        }
        all.putAll(levels);
        return all;
    }

    public boolean isEmpty() {
        return byName().isEmpty();
    }

    /** In one line for people: {@code Device: Balloon catheter, Guidewire; From: 2031-Q1}. */
    public String words() {
        return all().entrySet().stream()
                .map(filter -> Labels.field(filter.getKey()) + ": "
                        + filter.getValue().stream().map(Level::label).collect(Collectors.joining(", ")))
                .collect(Collectors.joining("; "));
    }
}
