package entrapment.registry.reports.retrieval;

import entrapment.registry.cases.RetrievalSplit;
import entrapment.registry.reports.question.ReportQuery;
import entrapment.registry.reports.question.ReportScope;
import java.util.List;

/**
 * Which way out works, and how well as the first try?
 *
 * @param by what to split each technique by
 */
public record RetrievalQuery(ReportScope scope, List<RetrievalSplit> by) implements ReportQuery {}
