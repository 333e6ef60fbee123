package entrapment.registry.reports.completeness;

import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportQuery;
import entrapment.registry.reports.question.ReportScope;

/**
 * Can we trust the numbers?
 *
 * @param by what to split by: the centre, or the period
 */
public record CompletenessQuery(ReportScope scope, GroupBy by) implements ReportQuery {}
