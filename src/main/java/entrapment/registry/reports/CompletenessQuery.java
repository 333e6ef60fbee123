package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import java.util.List;
import java.util.Map;

/**
 * Can we trust the numbers?
 *
 * @param by what to split by: the centre, or the period
 */
public record CompletenessQuery(ReportScope scope, GroupBy by) {

    /** Reads the query of a URL. */
    public static Reading<CompletenessQuery> of(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(
                given,
                parameters -> new CompletenessQuery(
                        ReportScope.read(parameters, viewer),
                        parameters.choice("by", "centre", "period").equals("period")
                                ? GroupBy.PERIOD
                                : GroupBy.CENTRE));
    }
}
