package entrapment.registry.reports.pooled;

import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportQuery;
import entrapment.registry.reports.question.ReportScope;
import java.util.List;

/**
 * What is the rate in a typical centre, and how far might a further one be from it?
 *
 * @param by what to split by before pooling
 */
public record PooledQuery(ReportScope scope, List<GroupBy> by) implements ReportQuery {}
