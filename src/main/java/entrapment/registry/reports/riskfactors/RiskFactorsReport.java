package entrapment.registry.reports.riskfactors;

import entrapment.registry.exports.Answer;
import entrapment.registry.reports.question.Report;
import java.util.List;

/** What raises the odds, by one of three models. */
public interface RiskFactorsReport extends Report {

    RiskFactorsQuery.Model model();

    /** Each level of each factor against its reference. */
    List<? extends ComparedLevel> groups();

    @Override
    default Answer answer() {
        return RiskFactorsAnswer.of(this);
    }
}
