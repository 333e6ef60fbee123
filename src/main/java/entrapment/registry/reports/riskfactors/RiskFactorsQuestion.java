package entrapment.registry.reports.riskfactors;

import entrapment.registry.access.DataCut;
import entrapment.registry.reports.question.Asked;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Parameter;
import entrapment.registry.reports.question.Question;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.reports.question.Tallies;
import entrapment.registry.reports.riskfactors.RiskFactorsQuery.Model;
import java.util.List;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** What raises the odds? */
@Component
@Order(3)
public class RiskFactorsQuestion extends Question<RiskFactorsQuery, List<Counting>, RiskFactorsReport> {

    private static final Parameter<Model> MODEL = Parameter.oneOf("model", List.of(Model.values()), Model::code);
    private static final Parameter<List<GroupBy>> FACTORS = Parameter.any("factors", GroupBy.FACTORS);
    private static final Parameter<List<GroupBy>> STRATIFY_BY =
            Parameter.any("stratifyBy", List.of(GroupBy.CENTRE, GroupBy.DEVICE_CLASS));

    private final Tallies tallies;

    RiskFactorsQuestion(Tallies tallies) {
        super("risk-factors", RiskFactorsQuestion::report, MODEL, FACTORS, STRATIFY_BY);
        this.tallies = tallies;
    }

    @Override
    protected RiskFactorsQuery query(ReportScope scope, Asked asked) {
        List<GroupBy> strata = asked.get(STRATIFY_BY);
        Model model = !strata.isEmpty() && asked.isAbsent(MODEL) ? Model.STRATIFIED : asked.get(MODEL);
        if (!strata.isEmpty() && model != Model.STRATIFIED) {
            asked.refuse(STRATIFY_BY, "without-strata", "stratifyBy is given only with model=stratified");
        }
        return RiskFactorsQuery.of(scope, model, GroupBy.factors(asked.get(FACTORS)), strata);
    }

    /** Each factor by itself, or all of them together for a model. */
    @Override
    public List<Counting> count(RiskFactorsQuery query, DataCut cut) {
        return query.model() == Model.ADJUSTED
                ? List.of(tallies.apart(
                        cut,
                        query.scope(),
                        query.factors().stream().map(GroupBy::of).toList(),
                        GroupBy.CENTRE))
                : tallies.each(cut, query.scope(), query.factors(), query.stratifyBy());
    }

    private static RiskFactorsReport report(RiskFactorsQuery query, DataCut cut, List<Counting> countings) {
        return switch (query.model()) {
            case CRUDE -> CrudeReport.of(query, cut, countings);
            case STRATIFIED -> StratifiedReport.of(query, cut, countings);
            case ADJUSTED -> AdjustedReport.of(query, cut, countings.get(0));
        };
    }
}
