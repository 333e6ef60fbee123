package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import java.util.List;
import java.util.Map;

/**
 * Are we different, beyond chance?
 *
 * @param adjustFor factors by which the mix of each centre is allowed for
 */
public record BetweenCentresQuery(ReportScope scope, List<GroupBy> adjustFor) {

    /** Reads the query of a URL. */
    public static Reading<BetweenCentresQuery> of(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(
                given,
                parameters -> new BetweenCentresQuery(
                        ReportScope.read(parameters, viewer), GroupBy.read(parameters, "adjustFor", GroupBy.FACTORS)));
    }
}
