package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import java.util.List;
import java.util.Map;

/**
 * What is the rate in a typical centre, and how far might a further one be from it?
 *
 * @param by what to split by before pooling
 */
public record PooledQuery(ReportScope scope, List<GroupBy> by) {

    /** Reads the query of a URL. */
    public static Reading<PooledQuery> of(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(
                given,
                parameters -> new PooledQuery(
                        ReportScope.read(parameters, viewer), GroupBy.read(parameters, "by", GroupBy.FACTORS)));
    }
}
