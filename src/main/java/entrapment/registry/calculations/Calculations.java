package entrapment.registry.calculations;

import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Identifying;
import entrapment.registry.intake.Reading;
import entrapment.registry.stats.Calculation;
import java.util.List;
import java.util.function.Supplier;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;

/** Computes from counts the caller brings; nothing is stored. */
@Component
public class Calculations {

    /** The answer of a method to a body; nothing is computed unless the whole body could be read. */
    public Reading<Record> answer(Calculation calculation, JsonNode body) {
        List<FieldError> identifying = Identifying.in(body);
        if (!identifying.isEmpty()) {
            return new Reading.Refused<>(identifying);
        }
        Reading<Supplier<Record>> reading = Fields.read(body, fields -> read(calculation, fields));
        if (reading instanceof Reading.Refused<Supplier<Record>> refused) {
            return new Reading.Refused<>(refused.errors());
        }
        try {
            return new Reading.Valid<>(reading.orRefuse().get());
        } catch (IllegalArgumentException impossible) {
            // The kernel's own guards name roles and counts, which the caller brought and which identify nobody.
            return new Reading.Refused<>(
                    List.of(new FieldError("", "impossible-counts", String.valueOf(impossible.getMessage()))));
        }
    }

    /** Reads what the method needs, and answers what is then to be computed. */
    private static Supplier<Record> read(Calculation calculation, Fields fields) {
        return switch (calculation) {
            case PROPORTION -> RiskCalculations.proportion(fields);
            case RATE -> RiskCalculations.rate(fields);
            case RATE_RATIO -> RiskCalculations.rateRatio(fields);
            case DIFFERENCE -> RiskCalculations.difference(fields);
            case RELATIVE_RISK -> RiskCalculations.relativeRisk(fields);
            case ODDS_RATIO -> RiskCalculations.oddsRatio(fields);
            case ODDS_RATIO_LEVELS -> RiskCalculations.oddsRatioLevels(fields);
            case STRATIFIED_ODDS_RATIO -> RiskCalculations.stratifiedOddsRatio(fields);
            case ATTEMPTS -> RiskCalculations.attempts(fields);
            case ADJUSTED_P_VALUES -> RiskCalculations.adjustedPValues(fields);
            case PAIRWISE_DIFFERENCES -> RiskCalculations.pairwiseDifferences(fields);
            case LOGISTIC_SEPARATION -> LogisticCalculations.separation(fields);
            case LOGISTIC -> LogisticCalculations.logistic(fields);
            case LOGISTIC_FIRTH -> LogisticCalculations.firth(fields);
            case DISCRIMINATION -> LogisticCalculations.discrimination(fields);
            case LOGISTIC_RANDOM_INTERCEPT -> LogisticCalculations.randomIntercept(fields);
            case TREND -> TimeCalculations.trend(fields);
            case P_CHART -> TimeCalculations.pChart(fields);
            case U_CHART -> TimeCalculations.uChart(fields);
            case G_CHART -> TimeCalculations.gChart(fields);
            case T_CHART -> TimeCalculations.tChart(fields);
            case CUSUM -> TimeCalculations.cusum(fields);
            case CUSUM_DESIGN -> TimeCalculations.cusumDesign(fields);
            case FUNNEL -> CentreCalculations.funnel(fields);
            case FUNNEL_OVERDISPERSION -> CentreCalculations.funnelOverdispersion(fields);
            case INDIRECT_STANDARDISATION -> CentreCalculations.indirectStandardisation(fields);
            case DIRECT_STANDARDISATION -> CentreCalculations.directStandardisation(fields);
            case SHRINKAGE -> CentreCalculations.shrinkage(fields);
            case POOLED_EFFECTS -> CentreCalculations.pooledEffects(fields);
            case POOLED_PROPORTION -> CentreCalculations.pooledProportion(fields);
            case PLAN_COMPARISON -> PlanningCalculations.comparison(fields);
            case PLAN_PRECISION -> PlanningCalculations.precision(fields);
            case PLAN_DETECTABLE_CHANGE -> PlanningCalculations.detectableChange(fields);
            case SUPPRESSION -> DisclosureCalculations.suppression(fields);
            case SUPPRESSION_AUDIT -> DisclosureCalculations.audit(fields);
            case MISSINGNESS -> QualityCalculations.missingness(fields);
            case MISSING_OUTCOME_BOUNDS -> QualityCalculations.missingOutcomeBounds(fields);
            case DISCORDANCE -> QualityCalculations.discordance(fields);
        };
    }
}
