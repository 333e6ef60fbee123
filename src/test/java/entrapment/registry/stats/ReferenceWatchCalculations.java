package entrapment.registry.stats;

import static entrapment.registry.stats.ReferenceCalculations.confidence;
import static entrapment.registry.stats.ReferenceCalculations.count;
import static entrapment.registry.stats.ReferenceCalculations.number;
import static entrapment.registry.stats.ReferenceCalculations.proportion;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Reference rows about time, centres, planning, disclosure and missing data, and what is computed for reports alone. */
final class ReferenceWatchCalculations {

    static final Map<String, Function<JsonNode, Object>> CALCULATIONS = Map.ofEntries(
            Map.entry(
                    "trend",
                    in -> TrendAnalysis.of(rows(in, "groups")
                            .map(row -> new ScoredGroup(number(row, "score"), proportion(row)))
                            .toList())),
            Map.entry("p-chart", in -> PChartAnalysis.of(proportions(in, "subgroups"), tail(in))),
            Map.entry(
                    "u-chart",
                    in -> UChartAnalysis.of(
                            rows(in, "subgroups")
                                    .map(row -> new Rate(count(row, "events"), number(row, "exposure")))
                                    .toList(),
                            tail(in))),
            Map.entry(
                    "g-chart",
                    in -> GChartAnalysis.of(
                            rows(in, "gaps").map(JsonNode::longValue).toList(), tail(in))),
            Map.entry("t-chart", in -> TChartAnalysis.of(numbers(in, "times"), tail(in))),
            Map.entry("cusum", ReferenceWatchCalculations::cusum),
            Map.entry(
                    "cusum-design",
                    in -> CusumDesignAnalysis.of(
                            new CusumDesign(number(in, "p0"), (int) count(in, "m"), (int) count(in, "threshold")),
                            numbers(in, "pTrue"),
                            number(in, "targetArl0"))),
            Map.entry(
                    "funnel",
                    in -> in.has("target")
                            ? FunnelAnalysis.of(groups(in, "centres"), number(in, "target"))
                            : FunnelAnalysis.of(groups(in, "centres"))),
            Map.entry(
                    "funnel-overdispersion",
                    in -> FunnelOverdispersionAnalysis.of(groups(in, "centres"), number(in, "winsor"))),
            Map.entry(
                    "indirect-standardisation",
                    in -> IndirectStandardisationAnalysis.of(
                            proportions(in, "reference"), proportions(in, "centre"), confidence(in))),
            Map.entry(
                    "direct-standardisation",
                    in -> DirectStandardisationAnalysis.of(
                            rows(in, "strata")
                                    .map(row -> new WeightedStratum(proportion(row), number(row, "weight")))
                                    .toList(),
                            confidence(in))),
            Map.entry(
                    "missingness",
                    in -> MissingnessAnalysis.of(
                            count(in, "records"),
                            rows(in, "missing")
                                    .map(row -> new MissingnessAnalysis.Missing(
                                            row.required("name").stringValue(), count(row, "missing")))
                                    .toList(),
                            count(in, "completeCases"),
                            confidence(in))),
            Map.entry(
                    "missing-outcome-bounds",
                    in -> MissingOutcomeBoundsAnalysis.of(
                            new Proportion(count(in, "events"), count(in, "known")),
                            count(in, "missingOutcome"),
                            confidence(in))),
            Map.entry(
                    "plan-comparison",
                    in -> PlanComparisonAnalysis.of(
                            new PlanComparison(
                                    number(in, "p1"),
                                    number(in, "p2"),
                                    number(in, "alpha"),
                                    number(in, "power"),
                                    in.has("ratio") ? number(in, "ratio") : 1),
                            in.has("n1") ? count(in, "n1") : null)),
            Map.entry(
                    "plan-precision",
                    in -> PlanPrecisionAnalysis.of(
                            number(in, "anticipatedProportion"),
                            number(in, "halfWidth"),
                            number(in, "zeroEventBound"),
                            confidence(in))),
            Map.entry(
                    "plan-detectable-change",
                    in -> PlanDetectableChangeAnalysis.of(
                            count(in, "volume"), number(in, "p0"), number(in, "alphaOneSided"), number(in, "power"))),
            Map.entry(
                    "suppression-audit",
                    in -> SuppressionAuditAnalysis.of(
                            new PublishedTable(
                                    rows(in, "cells")
                                            .map(ReferenceWatchCalculations::counts)
                                            .toList(),
                                    counts(in.required("rowTotals")),
                                    counts(in.required("columnTotals"))),
                            (int) count(in, "threshold"))),
            Map.entry("shrinkage", in -> ShrinkageAnalysis.of(groups(in, "centres"), confidence(in))),
            Map.entry("pooled-effects", ReferenceWatchCalculations::pooledEffects),
            Map.entry("pooled-proportion", in -> PooledProportionAnalysis.of(groups(in, "centres"), confidence(in))),
            Map.entry(
                    "suppression",
                    in -> SuppressionAnalysis.of(
                            rows(in, "cells")
                                    .map(row -> row.valueStream()
                                            .map(JsonNode::longValue)
                                            .toList())
                                    .toList(),
                            (int) count(in, "threshold"))),
            Map.entry(
                    "silence",
                    in -> SilenceAnalysis.of(
                            proportions(in, "reference"),
                            rows(in, "uses").map(JsonNode::longValue).toList())),
            Map.entry(
                    "cusum-reach",
                    in -> CusumReachAnalysis.of(
                            new CusumRule(number(in, "oddsRatioAlternative"), number(in, "threshold"), true),
                            number(in, "p0"))),
            Map.entry("quartiles", in -> {
                SortedMap<Long, Long> counts = new TreeMap<>();
                rows(in, "counts").forEach(row -> counts.put(count(row, "value"), count(row, "count")));
                return Quartiles.of(counts);
            }));

    private ReferenceWatchCalculations() {}

    private static Object cusum(JsonNode in) {
        List<Boolean> outcomes =
                rows(in, "outcomes").map(outcome -> outcome.intValue() == 1).toList();
        CusumRule rule = new CusumRule(
                number(in, "oddsRatioAlternative"),
                number(in, "threshold"),
                in.required("resetAfterSignal").booleanValue());
        return in.required("risk").isArray()
                ? CusumAnalysis.of(outcomes, numbers(in, "risk"), rule)
                : CusumAnalysis.of(outcomes, number(in, "risk"), rule);
    }

    private static List<@Nullable Long> counts(JsonNode array) {
        List<@Nullable Long> counts = new ArrayList<>();
        array.valueStream().forEach(count -> counts.add(count.isNull() ? null : Long.valueOf(count.longValue())));
        return counts;
    }

    private static Object pooledEffects(JsonNode in) {
        if (in.has("centres")) {
            return PooledEffectsAnalysis.ofCentres(groups(in, "centres"), confidence(in));
        }
        List<Double> y = numbers(in.required("effects"), "y");
        List<Double> v = numbers(in.required("effects"), "v");
        return PooledEffectsAnalysis.of(
                IntStream.range(0, y.size())
                        .mapToObj(i -> new Effect(y.get(i), v.get(i)))
                        .toList(),
                confidence(in));
    }

    private static double tail(JsonNode in) {
        return number(in, "tailProbability");
    }

    private static List<Proportion> proportions(JsonNode in, String field) {
        return rows(in, field).map(ReferenceCalculations::proportion).toList();
    }

    private static List<Group> groups(JsonNode in, String field) {
        return rows(in, field)
                .map(row -> new Group(row.required("name").stringValue(), proportion(row)))
                .toList();
    }

    private static List<Double> numbers(JsonNode in, String field) {
        return rows(in, field).map(JsonNode::doubleValue).toList();
    }

    private static Stream<JsonNode> rows(JsonNode in, String field) {
        return in.required(field).valueStream();
    }
}
