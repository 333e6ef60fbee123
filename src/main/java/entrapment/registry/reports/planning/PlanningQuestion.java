package entrapment.registry.reports.planning;

import entrapment.registry.access.DataCut;
import entrapment.registry.reports.question.Asked;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Parameter;
import entrapment.registry.reports.question.Question;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.reports.question.Tallies;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** How long until we could tell? */
@Component
@Order(10)
public class PlanningQuestion extends Question<PlanningQuery, Counting, PlanningReport> {

    private static final Parameter<List<GroupBy>> BY = Parameter.split(GroupBy.FACTORS);
    private static final Parameter<@Nullable Double> HALF_WIDTH =
            Parameter.number("halfWidth", 0.01, 400, "1", "2", "5");
    private static final Parameter<Double> POWER =
            Parameter.number("power", 0.5, 0.999, PlanningQuery.USUAL_POWER, "0.8", "0.9");

    private final Tallies tallies;

    PlanningQuestion(Tallies tallies) {
        super("planning", PlanningReport::of, BY, HALF_WIDTH, POWER);
        this.tallies = tallies;
    }

    @Override
    protected PlanningQuery query(ReportScope scope, Asked asked) {
        return new PlanningQuery(scope, asked.get(BY), asked.get(HALF_WIDTH), asked.get(POWER));
    }

    @Override
    public Counting count(PlanningQuery query, DataCut cut) {
        return tallies.apart(cut, query.scope(), query.by(), GroupBy.PERIOD);
    }
}
