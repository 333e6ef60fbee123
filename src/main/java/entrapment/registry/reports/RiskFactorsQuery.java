package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import entrapment.registry.vocabulary.Factor;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * What raises the odds of entrapment?
 *
 * @param factors each looked at by itself
 */
public record RiskFactorsQuery(ReportScope scope, List<Factor> factors) {

    /** Reads the query of a URL; without factors, all of them. */
    public static Reading<RiskFactorsQuery> of(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(given, parameters -> {
            List<Factor> factors = parameters.list("factors").stream()
                    .flatMap(code -> {
                        Optional<Factor> factor = Factor.of(code);
                        if (factor.isEmpty()) {
                            parameters.refuse(
                                    "factors",
                                    "not-a-code",
                                    "factors must be of "
                                            + Arrays.stream(Factor.values())
                                                    .map(Factor::code)
                                                    .collect(Collectors.joining(", ")));
                        }
                        return factor.stream();
                    })
                    .toList();
            parameters.choice("model", "crude");
            return new RiskFactorsQuery(
                    ReportScope.read(parameters, viewer), factors.isEmpty() ? List.of(Factor.values()) : factors);
        });
    }
}
