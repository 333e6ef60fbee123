package entrapment.registry.reports.pooled;

import entrapment.registry.access.DataCut;
import entrapment.registry.reports.question.Asked;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Parameter;
import entrapment.registry.reports.question.Question;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.reports.question.Tallies;
import java.util.List;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** What is the rate in a typical centre, and how far might a further one be from it? */
@Component
@Order(6)
public class PooledQuestion extends Question<PooledQuery, Counting, PooledReport> {

    private static final Parameter<List<GroupBy>> BY = Parameter.split(GroupBy.FACTORS);

    private final Tallies tallies;

    PooledQuestion(Tallies tallies) {
        super("pooled", PooledReport::of, BY);
        this.tallies = tallies;
    }

    @Override
    protected PooledQuery query(ReportScope scope, Asked asked) {
        return new PooledQuery(scope, asked.get(BY));
    }

    @Override
    public Counting count(PooledQuery query, DataCut cut) {
        return tallies.apart(cut, query.scope(), query.by(), GroupBy.CENTRE);
    }
}
