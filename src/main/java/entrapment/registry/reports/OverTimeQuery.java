package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import entrapment.registry.vocabulary.Period;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Is it changing?
 *
 * @param baseline a rate to hold the data against, a proportion; null to take it from the data
 * @param baselineFrom the first period of the baseline; null for the first there is
 * @param baselineTo the last period of the baseline; null for the earliest that hold a year and ten events
 * @param oddsRatio the change that the CUSUM watches for
 * @param threshold the CUSUM's decision limit h
 */
public record OverTimeQuery(
        ReportScope scope,
        Chart chart,
        @Nullable Double baseline,
        @Nullable Period baselineFrom,
        @Nullable Period baselineTo,
        double oddsRatio,
        double threshold) {

    /** How change is looked for. */
    enum Chart {
        PROPORTION,
        BETWEEN_EVENTS,
        CUSUM
    }

    private static final double DOUBLING = 2;
    private static final double USUAL_THRESHOLD = 3.5;

    /** The bounds of the baseline by the name of their parameter. */
    Map<String, Period> baselinePeriods() {
        Map<String, Period> periods = new LinkedHashMap<>();
        if (baselineFrom != null) {
            periods.put("baselineFrom", baselineFrom);
        }
        if (baselineTo != null) {
            periods.put("baselineTo", baselineTo);
        }
        return periods;
    }

    /** Reads the query of a URL. */
    public static Reading<OverTimeQuery> of(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(given, parameters -> {
            double oddsRatio = parameters.decimal("oddsRatio", 1.1, 100).orElse(DOUBLING);
            return new OverTimeQuery(
                    ReportScope.read(parameters, viewer),
                    switch (parameters.choice("chart", "proportion", "between-events", "cusum")) {
                        case "between-events" -> Chart.BETWEEN_EVENTS;
                        case "cusum" -> Chart.CUSUM;
                        default -> Chart.PROPORTION;
                    },
                    parameters.decimal("baseline", 1e-6, 0.5).orElse(null),
                    parameters.period("baselineFrom").orElse(null),
                    parameters.period("baselineTo").orElse(null),
                    oddsRatio,
                    parameters.decimal("threshold", 0.5, 20).orElse(USUAL_THRESHOLD));
        });
    }
}
