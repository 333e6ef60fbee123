package entrapment.registry.reports.completeness;

import entrapment.registry.access.DataCut;
import entrapment.registry.activity.Activity;
import entrapment.registry.activity.StoredReturn;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.CompletenessTally;
import entrapment.registry.reports.question.Asked;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Parameter;
import entrapment.registry.reports.question.Question;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import java.util.List;
import java.util.Map;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** Can we trust the numbers? */
@Component
@Order(8)
public class CompletenessQuestion
        extends Question<CompletenessQuery, CompletenessQuestion.Evidence, CompletenessReport> {

    private static final Parameter<GroupBy> BY =
            Parameter.oneOf("by", List.of(GroupBy.CENTRE, GroupBy.PERIOD), GroupBy::code);

    /**
     * What the database counted.
     *
     * @param fields of the cases asked for
     * @param events by cell, of every centre that the viewer's key may count, in the periods and classes asked for
     * @param uses likewise
     * @param cases by cell, of the centres asked for, in every period
     * @param returns of the centres asked for, in every period
     */
    record Evidence(
            List<CompletenessTally> fields,
            List<Tally> events,
            List<Tally> uses,
            List<Tally> cases,
            List<StoredReturn> returns) {}

    private final Cases cases;
    private final Activity activity;

    CompletenessQuestion(Cases cases, Activity activity) {
        super("completeness", CompletenessReport::of, BY);
        this.cases = cases;
        this.activity = activity;
    }

    @Override
    protected CompletenessQuery query(ReportScope scope, Asked asked) {
        return new CompletenessQuery(scope, asked.get(BY));
    }

    @Override
    public Evidence count(CompletenessQuery query, DataCut cut) {
        Selection asked = query.scope().selection();
        Selection counted =
                new Selection(query.scope().viewer().sees(List.of()), asked.from(), asked.to(), asked.levels());
        Selection everyPeriod = new Selection(asked.centres(), null, null, Map.of());
        return new Evidence(
                cases.completeness(cut, asked),
                cases.tally(cut, counted, List.of()),
                activity.tally(cut, counted, List.of()),
                cases.tally(cut, everyPeriod, List.of()),
                activity.returns(cut, asked.centres()));
    }
}
