package entrapment.registry.reports.betweencentres;

import entrapment.registry.access.DataCut;
import entrapment.registry.intake.Settings;
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

/** Are we different, beyond chance? */
@Component
@Order(5)
public class BetweenCentresQuestion extends Question<BetweenCentresQuery, Counting, BetweenCentresReport> {

    private static final Parameter<List<GroupBy>> ADJUST_FOR = Parameter.any("adjustFor", GroupBy.FACTORS);

    private final Tallies tallies;

    BetweenCentresQuestion(Tallies tallies, Settings settings) {
        super(
                "between-centres",
                (query, cut, counting) -> BetweenCentresReport.of(query, cut, counting, settings.smallestCount()),
                ADJUST_FOR);
        this.tallies = tallies;
    }

    @Override
    protected BetweenCentresQuery query(ReportScope scope, Asked asked) {
        return new BetweenCentresQuery(scope, asked.get(ADJUST_FOR));
    }

    @Override
    public Counting count(BetweenCentresQuery query, DataCut cut) {
        return tallies.apart(
                cut, query.scope(), List.of(GroupBy.CENTRE), query.adjustFor().toArray(GroupBy[]::new));
    }
}
