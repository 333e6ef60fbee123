package entrapment.registry.reports.overtime;

import com.fasterxml.jackson.annotation.JsonValue;
import entrapment.registry.reports.question.ReportQuery;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Method;
import entrapment.registry.vocabulary.Period;
import java.util.LinkedHashMap;
import java.util.Locale;
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
        double threshold)
        implements ReportQuery {

    /** How change is looked for. */
    public enum Chart {
        PROPORTION(Calculation.P_CHART),
        BETWEEN_EVENTS(Calculation.G_CHART),
        CUSUM(Calculation.CUSUM);

        private final Calculation calculation;

        Chart(Calculation calculation) {
            this.calculation = calculation;
        }

        @JsonValue
        public String code() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        Method method() {
            return calculation.method();
        }
    }

    static final double DOUBLING = 2;
    static final double USUAL_THRESHOLD = 3.5;

    /** With the usual settings. */
    public static OverTimeQuery of(ReportScope scope, Chart chart) {
        return new OverTimeQuery(scope, chart, null, null, null, DOUBLING, USUAL_THRESHOLD);
    }

    @Override
    public Map<String, Period> periods() {
        Map<String, Period> periods = new LinkedHashMap<>();
        if (baselineFrom != null) {
            periods.put("baselineFrom", baselineFrom);
        }
        if (baselineTo != null) {
            periods.put("baselineTo", baselineTo);
        }
        periods.putAll(scope.periods());
        return periods;
    }
}
