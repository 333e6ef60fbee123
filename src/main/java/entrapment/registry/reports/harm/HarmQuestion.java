package entrapment.registry.reports.harm;

import entrapment.registry.access.DataCut;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.OutcomeTally;
import entrapment.registry.cases.PartialCase;
import entrapment.registry.reports.question.Asked;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Parameter;
import entrapment.registry.reports.question.Question;
import entrapment.registry.reports.question.ReportScope;
import java.util.List;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** What does it cost the patient? */
@Component
@Order(7)
public class HarmQuestion extends Question<HarmQuery, List<OutcomeTally>, HarmReport> {

    private static final Parameter<List<GroupBy>> BY = Parameter.split(GroupBy.ALL);

    private final Cases cases;

    HarmQuestion(Cases cases) {
        super("harm", HarmReport::of, BY);
        this.cases = cases;
    }

    @Override
    protected HarmQuery query(ReportScope scope, Asked asked) {
        return new HarmQuery(scope, asked.get(BY));
    }

    @Override
    public List<OutcomeTally> count(HarmQuery query, DataCut cut) {
        return cases.outcomes(cut, PartialCase.of(query.scope().selection()), GroupBy.factors(query.by()));
    }
}
