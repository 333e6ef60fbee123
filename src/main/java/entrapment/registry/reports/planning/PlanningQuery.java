package entrapment.registry.reports.planning;

import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportQuery;
import entrapment.registry.reports.question.ReportScope;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How long until we could tell?
 *
 * @param by what to split by
 * @param halfWidth the half-width of an interval that would do, per 1,000 uses; null for half of the present rate
 * @param power the chance of noticing a change that is there
 */
public record PlanningQuery(
        ReportScope scope, List<GroupBy> by, @Nullable Double halfWidth, double power) implements ReportQuery {

    static final double USUAL_POWER = 0.8;
}
