package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * How long until we could tell?
 *
 * @param by what to split by
 * @param halfWidth the half-width of an interval that would do, per 1,000 uses; null for half of the present rate
 * @param power the chance of noticing a change that is there
 */
public record PlanningQuery(
        ReportScope scope, List<GroupBy> by, @Nullable Double halfWidth, double power) {

    private static final double USUAL_POWER = 0.8;

    /** Reads the query of a URL. */
    public static Reading<PlanningQuery> of(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(
                given,
                parameters -> new PlanningQuery(
                        ReportScope.read(parameters, viewer),
                        GroupBy.read(parameters, "by", GroupBy.FACTORS),
                        parameters.decimal("halfWidth", 0.01, 400).orElse(null),
                        parameters.decimal("power", 0.5, 0.999).orElse(USUAL_POWER)));
    }
}
