package entrapment.registry.reports.similarcases;

import entrapment.registry.access.Role;
import entrapment.registry.cases.PartialCase;
import entrapment.registry.reports.question.ReportQuery;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.vocabulary.Filters;
import java.util.List;
import java.util.Map;

/**
 * What was done, and with what result, in cases like this?
 *
 * @param leaves for each leaf of a case that is asked for beside the scope, the codes that will do
 */
public record SimilarCasesQuery(ReportScope scope, Map<String, List<String>> leaves) implements ReportQuery {

    /** What is known of the case. */
    PartialCase like() {
        return new PartialCase(scope.selection(), leaves);
    }

    Filters filters() {
        return Filters.of(scope.selection(), leaves);
    }

    /** The filters in force that whoever asks could take off. */
    List<String> loosenable() {
        return filters().byName().keySet().stream()
                .filter(filter -> !filter.equals("centre") || scope.viewer().role() != Role.SUBMITTER)
                .toList();
    }
}
