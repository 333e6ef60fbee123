package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import java.util.List;
import java.util.Map;

/**
 * What does it cost the patient?
 *
 * @param by what to split by, in order; empty for all cases together
 */
public record HarmQuery(ReportScope scope, List<GroupBy> by) {

    /** Reads the query of a URL. */
    public static Reading<HarmQuery> of(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(
                given,
                parameters -> new HarmQuery(
                        ReportScope.read(parameters, viewer), GroupBy.read(parameters, "by", GroupBy.ALL)));
    }
}
