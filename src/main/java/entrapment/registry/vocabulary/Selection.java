package entrapment.registry.vocabulary;

import static java.util.stream.Collectors.joining;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Which cases and uses a question is about.
 *
 * @param centres empty for every centre
 * @param from the first period, included; null for no bound
 * @param to the last period, included; null for no bound
 * @param levels for each factor that is asked for, the levels that will do
 */
public record Selection(
        List<String> centres,
        @Nullable Period from,
        @Nullable Period to,
        Map<Factor, List<String>> levels) {

    /** Everything the registry holds. */
    public static final Selection ALL = new Selection(List.of(), null, null, Map.of());

    /**
     * The bounds that whole cells (centre, period, device class) are within or not, as a condition on the columns
     * {@code centre}, {@code period} and {@code device_class}.
     */
    public String cellCondition() {
        return (centres.isEmpty() ? "true" : "centre in (:centres)")
                + (from == null ? "" : " and period >= :from")
                + (to == null ? "" : " and period <= :to")
                + (levels.containsKey(Factor.DEVICE_CLASS) ? " and device_class in (:deviceClass)" : "");
    }

    /** The other factors, which divide a cell, as a condition on the columns of their names. */
    public String factorCondition() {
        List<Factor> dividing = levels.keySet().stream()
                .filter(factor -> factor != Factor.DEVICE_CLASS)
                .sorted()
                .toList();
        return dividing.isEmpty()
                ? "true"
                : dividing.stream()
                        .map(factor -> factor.sqlText() + " in (:" + factor.code() + ")")
                        .collect(joining(" and "));
    }

    /** The values of the named parameters of both conditions. */
    public Map<String, Object> parameters() {
        Map<String, Object> parameters = new LinkedHashMap<>();
        if (!centres.isEmpty()) {
            parameters.put("centres", centres);
        }
        if (from != null) {
            parameters.put("from", from.toString());
        }
        if (to != null) {
            parameters.put("to", to.toString());
        }
        levels.forEach((factor, values) -> parameters.put(factor.code(), values));
        return parameters;
    }
}
