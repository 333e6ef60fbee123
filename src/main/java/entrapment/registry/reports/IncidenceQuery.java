package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import entrapment.registry.stats.IntervalMethod;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * How often is a device entrapped?
 *
 * @param by what to split by, in order; empty for one figure of all
 */
public record IncidenceQuery(ReportScope scope, List<Axis> by, IntervalMethod method) {

    /** Reads the query of a URL. */
    public static Reading<IncidenceQuery> of(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(
                given,
                parameters ->
                        new IncidenceQuery(ReportScope.read(parameters, viewer), axes(parameters), method(parameters)));
    }

    private static List<Axis> axes(Parameters parameters) {
        return parameters.list("by").stream()
                .flatMap(code -> {
                    Optional<Axis> axis = Axis.of(code);
                    if (axis.isEmpty()) {
                        parameters.refuse(
                                "by",
                                "not-a-code",
                                "by must be of "
                                        + String.join(
                                                ", ",
                                                Axis.ALL.stream()
                                                        .map(Axis::code)
                                                        .toList()));
                    }
                    return axis.stream();
                })
                .toList();
    }

    private static IntervalMethod method(Parameters parameters) {
        String code = parameters.choice(
                "method",
                Stream.of(IntervalMethod.values()).map(IntervalMethod::code).toArray(String[]::new));
        return Arrays.stream(IntervalMethod.values())
                .filter(method -> method.code().equals(code))
                .findFirst()
                .orElse(IntervalMethod.WILSON);
    }
}
