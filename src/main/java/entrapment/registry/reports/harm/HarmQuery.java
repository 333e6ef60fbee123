package entrapment.registry.reports.harm;

import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportQuery;
import entrapment.registry.reports.question.ReportScope;
import java.util.List;

/**
 * What does it cost the patient?
 *
 * @param by what to split by, in order; empty for all cases together
 */
public record HarmQuery(ReportScope scope, List<GroupBy> by) implements ReportQuery {}
