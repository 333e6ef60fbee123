package entrapment.registry.reports;

import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.PartialCase;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What was done, and with what result, in cases like this?
 *
 * @param like what is known of the case
 * @param loosenable the filters in force that whoever asks could take off
 */
public record SimilarCasesQuery(ReportScope scope, PartialCase like, List<String> loosenable) {

    /** Reads the query of a URL. */
    public static Reading<SimilarCasesQuery> of(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(given, parameters -> {
            ReportScope scope = ReportScope.read(parameters, viewer);
            Map<String, List<String>> leaves = new LinkedHashMap<>();
            for (String leaf : PartialCase.LEAVES) {
                List<String> asked = parameters.list(leaf);
                List<String> codes = PartialCase.codes(leaf);
                if (!codes.containsAll(asked)) {
                    parameters.refuse(leaf, "not-a-code", leaf + " must be one of " + String.join(", ", codes));
                }
                if (!asked.isEmpty()) {
                    leaves.put(leaf, asked);
                }
            }
            PartialCase like = new PartialCase(scope.selection(), leaves);
            return new SimilarCasesQuery(
                    scope,
                    like,
                    filters(scope, leaves).keySet().stream()
                            .filter(filter -> !filter.equals("centre") || viewer.role() != Role.SUBMITTER)
                            .toList());
        });
    }

    /** The filters in force, as the answer repeats them. */
    Map<String, Object> filters() {
        return filters(scope, like.leaves());
    }

    private static Map<String, Object> filters(ReportScope scope, Map<String, List<String>> leaves) {
        Map<String, Object> filters = scope.filters();
        filters.putAll(leaves);
        return filters;
    }
}
