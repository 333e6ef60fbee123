package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import entrapment.registry.stats.IntervalMethod;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * How often is a device entrapped?
 *
 * @param by what to split by, in order; empty for one figure of all
 */
public record IncidenceQuery(ReportScope scope, List<GroupBy> by, IntervalMethod method) {

    /** Reads the query of a URL. */
    public static Reading<IncidenceQuery> of(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(
                given,
                parameters -> new IncidenceQuery(
                        ReportScope.read(parameters, viewer),
                        GroupBy.read(parameters, "by", GroupBy.ALL),
                        method(parameters)));
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
