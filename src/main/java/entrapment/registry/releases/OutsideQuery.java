package entrapment.registry.releases;

import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Refusal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What may be asked for the outside: a fixed list, because two tables that differ in a filter can be subtracted.
 *
 * @param by one of the groupings that are open for the report
 * @param asOf answer from the newest release at or before this revision; null for the newest of all
 */
public record OutsideQuery(List<String> by, @Nullable Long asOf) {

    private static final String DEVICE_CLASS = "deviceClass";
    private static final String YEAR = "year";

    /** The groupings of each report that is open; every other report is closed. */
    private static final Map<String, List<List<String>>> OPEN = open();

    private static final Set<String> KNOWN = Set.of("audience", "by", "asOf");

    private static Map<String, List<List<String>>> open() {
        Map<String, List<List<String>>> open = new LinkedHashMap<>();
        open.put("incidence", List.of(List.of(), List.of(DEVICE_CLASS), List.of(YEAR), List.of(DEVICE_CLASS, YEAR)));
        open.put("harm", List.of(List.of(), List.of(DEVICE_CLASS)));
        return open;
    }

    /**
     * Reads the query of a URL that asks for the outside; whatever is not open is refused with the list of what is.
     *
     * @param report the last part of its path
     */
    public static OutsideQuery of(String report, Map<String, List<String>> given) {
        List<List<String>> open = OPEN.getOrDefault(report, List.of());
        Map<String, List<String>> known = new LinkedHashMap<>(given);
        known.keySet().retainAll(KNOWN);
        Reading<OutsideQuery> reading = Parameters.read(known, parameters -> {
            parameters.choice("audience", "outside");
            List<String> by = parameters.list("by");
            if (!open.contains(by)) {
                parameters.refuse(
                        "by", "not-open-outside", "by must be one of the groupings that are open to the outside");
            }
            return new OutsideQuery(
                    by, parameters.whole("asOf", 0, Long.MAX_VALUE).orElse(null));
        });
        List<FieldError> errors = new ArrayList<>();
        if (open.isEmpty()) {
            errors.add(new FieldError("/audience", "not-open-outside", "this report is not open to the outside"));
        } else if (reading instanceof Reading.Refused<OutsideQuery> refused) {
            errors.addAll(refused.errors());
        }
        if (known.size() < given.size()) {
            errors.add(new FieldError(
                    "",
                    "not-open-outside",
                    "outside, a report may be given by, asOf, format and comments alone: no filter, method or level of"
                            + " confidence"));
        }
        if (reading instanceof Reading.Valid<OutsideQuery> valid && errors.isEmpty()) {
            return valid.value();
        }
        throw new Refusal(
                Problem.REFUSED, "This is not open to the outside; open names what is.", errors, Map.of("open", OPEN));
    }
}
