package entrapment.registry.reports;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Table;

/** An answer that JSON prints as it is and other programs read as a table. */
public sealed interface Report
        permits AdjustedRiskFactorsReport,
                BetweenCentresReport,
                CompletenessReport,
                HarmReport,
                IncidenceReport,
                OverTimeReport,
                PlanningReport,
                PooledReport,
                RetrievalReport,
                RiskFactorsReport,
                SimilarCasesReport,
                StratifiedRiskFactorsReport {

    /** The same figures for people: sentence, figure and table. */
    Answer answer();

    /** The same figures as rows for other programs. */
    Table table();
}
