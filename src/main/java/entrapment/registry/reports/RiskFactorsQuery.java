package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import entrapment.registry.vocabulary.Factor;
import java.util.List;
import java.util.Map;

/**
 * What raises the odds of entrapment?
 *
 * @param factors crude and stratified: each looked at by itself; adjusted: all in one model
 * @param stratifyBy what divides the strata of the stratified model
 */
public record RiskFactorsQuery(ReportScope scope, List<Factor> factors, Model model, List<GroupBy> stratifyBy) {

    /** How the odds ratios are made. */
    enum Model {
        CRUDE,
        STRATIFIED,
        ADJUSTED
    }

    /** Set in advance, so that no model is chosen by its result: what published series name as risk features. */
    private static final List<Factor> ADJUSTED_FACTORS = List.of(
            Factor.DEVICE_CLASS,
            Factor.CALCIFICATION,
            Factor.TORTUOSITY,
            Factor.TOTAL_OCCLUSION,
            Factor.STENT_LAYERS,
            Factor.OPERATOR_STAGE);

    /** Reads the query of a URL; without factors, all of them, or the fixed list of the adjusted model. */
    public static Reading<RiskFactorsQuery> of(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(given, parameters -> {
            List<Factor> factors = GroupBy.factors(GroupBy.read(parameters, "factors", GroupBy.FACTORS));
            Model model =
                    switch (parameters.choice("model", "crude", "stratified", "adjusted")) {
                        case "stratified" -> Model.STRATIFIED;
                        case "adjusted" -> Model.ADJUSTED;
                        default -> Model.CRUDE;
                    };
            List<GroupBy> stratifyBy = stratifyBy(parameters, model);
            List<Factor> all = model == Model.ADJUSTED ? ADJUSTED_FACTORS : List.of(Factor.values());
            return new RiskFactorsQuery(
                    ReportScope.read(parameters, viewer),
                    (factors.isEmpty() ? all : factors)
                            .stream()
                                    .filter(factor -> !stratifyBy.contains(GroupBy.of(factor)))
                                    .toList(),
                    model,
                    stratifyBy);
        });
    }

    private static List<GroupBy> stratifyBy(Parameters parameters, Model model) {
        if (!parameters.list("stratifyBy").isEmpty() && model != Model.STRATIFIED) {
            parameters.refuse("stratifyBy", "without-strata", "stratifyBy is given only with model=stratified");
        }
        List<GroupBy> axes =
                GroupBy.read(parameters, "stratifyBy", List.of(GroupBy.CENTRE, GroupBy.of(Factor.DEVICE_CLASS)));
        return axes.isEmpty() && model == Model.STRATIFIED ? List.of(GroupBy.CENTRE) : axes;
    }
}
