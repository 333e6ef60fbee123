package entrapment.registry.reports.retrieval;

import entrapment.registry.access.DataCut;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.PartialCase;
import entrapment.registry.cases.RetrievalSplit;
import entrapment.registry.cases.RetrievalTally;
import entrapment.registry.reports.question.Asked;
import entrapment.registry.reports.question.Parameter;
import entrapment.registry.reports.question.Question;
import entrapment.registry.reports.question.ReportScope;
import java.util.List;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** Which way out works, and how well as the first try? */
@Component
@Order(2)
public class RetrievalQuestion extends Question<RetrievalQuery, List<RetrievalTally>, RetrievalReport> {

    private static final Parameter<List<RetrievalSplit>> BY =
            Parameter.listed("by", Parameter.Control.SPLIT, List.of(RetrievalSplit.values()), RetrievalSplit::code);

    private final Cases cases;

    RetrievalQuestion(Cases cases) {
        super("retrieval", RetrievalReport::of, BY);
        this.cases = cases;
    }

    @Override
    protected RetrievalQuery query(ReportScope scope, Asked asked) {
        return new RetrievalQuery(scope, asked.get(BY));
    }

    @Override
    public List<RetrievalTally> count(RetrievalQuery query, DataCut cut) {
        return cases.retrieval(cut, PartialCase.of(query.scope().selection()), query.by());
    }
}
