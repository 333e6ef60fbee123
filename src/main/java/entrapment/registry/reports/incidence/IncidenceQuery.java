package entrapment.registry.reports.incidence;

import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportQuery;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.stats.IntervalMethod;
import java.util.List;

/**
 * How often is a device entrapped?
 *
 * @param by what to split by, in order; empty for one figure of all
 * @param method of the interval
 */
public record IncidenceQuery(ReportScope scope, List<GroupBy> by, IntervalMethod method) implements ReportQuery {

    /** With Wilson's interval. */
    public static IncidenceQuery of(ReportScope scope, GroupBy... by) {
        return new IncidenceQuery(scope, List.of(by), IntervalMethod.WILSON);
    }
}
