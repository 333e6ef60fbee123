package entrapment.registry.reports.betweencentres;

import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportQuery;
import entrapment.registry.reports.question.ReportScope;
import java.util.List;

/**
 * Are we different, beyond chance?
 *
 * @param adjustFor factors by which the mix of each centre is allowed for
 */
public record BetweenCentresQuery(ReportScope scope, List<GroupBy> adjustFor) implements ReportQuery {}
