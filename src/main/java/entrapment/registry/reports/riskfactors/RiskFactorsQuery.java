package entrapment.registry.reports.riskfactors;

import com.fasterxml.jackson.annotation.JsonValue;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportQuery;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.vocabulary.Factor;
import java.util.List;
import java.util.Locale;

/**
 * What raises the odds of entrapment?
 *
 * @param factors crude and stratified: each looked at by itself; adjusted: all in one model
 * @param stratifyBy what divides the strata of the stratified model
 */
public record RiskFactorsQuery(ReportScope scope, Model model, List<Factor> factors, List<GroupBy> stratifyBy)
        implements ReportQuery {

    /** How the odds ratios are made. */
    public enum Model {
        CRUDE,
        STRATIFIED,
        ADJUSTED;

        @JsonValue
        public String code() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** Set in advance, so that no model is chosen by its result: what published series name as risk features. */
    private static final List<Factor> ADJUSTED_FACTORS = List.of(
            Factor.DEVICE_CLASS,
            Factor.CALCIFICATION,
            Factor.TORTUOSITY,
            Factor.TOTAL_OCCLUSION,
            Factor.STENT_LAYERS,
            Factor.OPERATOR_STAGE);

    /** Without factors all of them, or the fixed list of the adjusted model; without strata the centres. */
    public static RiskFactorsQuery of(ReportScope scope, Model model, List<Factor> factors, List<GroupBy> stratifyBy) {
        List<GroupBy> strata = model == Model.STRATIFIED && stratifyBy.isEmpty() ? List.of(GroupBy.CENTRE) : stratifyBy;
        List<Factor> all = model == Model.ADJUSTED ? ADJUSTED_FACTORS : List.of(Factor.values());
        return new RiskFactorsQuery(
                scope,
                model,
                (factors.isEmpty() ? all : factors)
                        .stream()
                                .filter(factor -> !strata.contains(GroupBy.of(factor)))
                                .toList(),
                strata);
    }

    /** One factor at a time; all of them where none is named. */
    public static RiskFactorsQuery crude(ReportScope scope, List<Factor> factors) {
        return of(scope, Model.CRUDE, factors, List.of());
    }
}
