package entrapment.registry.reports.incidence;

import entrapment.registry.access.DataCut;
import entrapment.registry.reports.question.Asked;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Parameter;
import entrapment.registry.reports.question.Question;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.reports.question.Tallies;
import entrapment.registry.stats.IntervalMethod;
import java.util.List;
import java.util.Map;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** How often is a device entrapped? */
@Component
@Order(1)
public class IncidenceQuestion extends Question<IncidenceQuery, Counting, IncidenceReport> {

    private static final Parameter<List<GroupBy>> BY = Parameter.split(GroupBy.ALL);
    private static final Parameter<IntervalMethod> METHOD =
            Parameter.oneOf("method", List.of(IntervalMethod.values()), IntervalMethod::code);

    private final Tallies tallies;

    IncidenceQuestion(Tallies tallies) {
        super("incidence", IncidenceReport::of, BY, METHOD);
        this.tallies = tallies;
    }

    @Override
    public Map<String, List<String>> atFirst() {
        return Map.of(BY.name(), List.of(GroupBy.DEVICE_CLASS.code()));
    }

    @Override
    protected IncidenceQuery query(ReportScope scope, Asked asked) {
        return new IncidenceQuery(scope, asked.get(BY), asked.get(METHOD));
    }

    @Override
    public Counting count(IncidenceQuery query, DataCut cut) {
        return tallies.masked(cut, query.scope(), query.by());
    }
}
