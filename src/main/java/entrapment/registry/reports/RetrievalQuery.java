package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.cases.RetrievalSplit;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Which way out works, and how well as the first try?
 *
 * @param by what to split each technique by
 */
public record RetrievalQuery(ReportScope scope, List<RetrievalSplit> by) {

    /** Reads the query of a URL. */
    public static Reading<RetrievalQuery> of(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(
                given,
                parameters -> new RetrievalQuery(
                        ReportScope.read(parameters, viewer),
                        parameters.list("by").stream()
                                .flatMap(code -> {
                                    Optional<RetrievalSplit> split = RetrievalSplit.of(code);
                                    if (split.isEmpty()) {
                                        parameters.refuse(
                                                "by",
                                                "not-a-code",
                                                "by must be of deviceClass, haemodynamics, timiFlow, guideFrench");
                                    }
                                    return split.stream();
                                })
                                .toList()));
    }
}
