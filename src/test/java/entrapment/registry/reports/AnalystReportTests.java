package entrapment.registry.reports;

import static entrapment.registry.reports.question.ReportSamples.CUT;
import static entrapment.registry.reports.question.ReportSamples.SCOPE;
import static entrapment.registry.reports.question.ReportSamples.counted;
import static entrapment.registry.reports.question.ReportSamples.csv;
import static entrapment.registry.reports.question.ReportSamples.expected;

import entrapment.registry.ApprovedFile;
import entrapment.registry.RegistryTest;
import entrapment.registry.reports.betweencentres.BetweenCentresQuery;
import entrapment.registry.reports.betweencentres.BetweenCentresQuestion;
import entrapment.registry.reports.planning.PlanningQuery;
import entrapment.registry.reports.planning.PlanningQuestion;
import entrapment.registry.reports.pooled.PooledQuery;
import entrapment.registry.reports.pooled.PooledQuestion;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Report;
import entrapment.registry.reports.riskfactors.RiskFactorsQuery;
import entrapment.registry.reports.riskfactors.RiskFactorsQuery.Model;
import entrapment.registry.reports.riskfactors.RiskFactorsQuestion;
import entrapment.registry.vocabulary.Factor;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** The reports that rest on models and comparisons of centres, on hand-made counts, in one file. */
@RegistryTest
class AnalystReportTests {

    /** R datasets::UCBAdmissions, admitted men and women by department; R help page of mantelhaen.test: 0.9046968. */
    private static final Counting ADMISSIONS = counted(
            "yes A 512 825",
            "yes B 353 560",
            "yes C 120 325",
            "yes D 138 417",
            "yes E 53 191",
            "yes F 22 373",
            "no A 89 108",
            "no B 17 25",
            "no C 202 593",
            "no D 131 375",
            "no E 94 393",
            "no F 24 341");

    private static final Counting CENTRES =
            counted("east 4 1000", "north 30 1200", "south 0 90", "west 9 1500", "mid 8 1400", "far 0 1900");

    @Autowired
    private RiskFactorsQuestion riskFactors;

    @Autowired
    private BetweenCentresQuestion betweenCentres;

    @Autowired
    private PooledQuestion pooled;

    @Autowired
    private PlanningQuestion planning;

    @Test
    void writesTheApprovedCsv() {
        ApprovedFile.assertHolds(
                expected("analyst-reports.csv"),
                csv(riskFactors(Model.STRATIFIED, ADMISSIONS, GroupBy.CENTRE))
                        + csv(riskFactors(
                                Model.ADJUSTED, counted("yes north 7 34", "no north 1 34", "unknown north 3 60")))
                        + csv(betweenCentres.answer(new BetweenCentresQuery(SCOPE, List.of()), CUT, CENTRES))
                        + csv(pooled.answer(new PooledQuery(SCOPE, List.of()), CUT, CENTRES))
                        + csv(planning.answer(
                                new PlanningQuery(SCOPE, List.of(), null, 0.8),
                                CUT,
                                counted("2029-Q1 1 300", "2029-Q2 2 300"))));
    }

    private Report riskFactors(Model model, Counting counting, GroupBy... stratifyBy) {
        return riskFactors.answer(
                new RiskFactorsQuery(SCOPE, model, List.of(Factor.TOTAL_OCCLUSION), List.of(stratifyBy)),
                CUT,
                List.of(counting));
    }
}
