package entrapment.registry.stats;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** From the input of a reference row to this module's answer. */
final class ReferenceCalculations {

    private static final Map<String, Function<JsonNode, Object>> CALCULATIONS = Map.ofEntries(
            Map.entry("proportion", in -> ProportionAnalysis.of(proportion(in), confidence(in))),
            Map.entry("rate", in -> RateAnalysis.of(rate(in), number(in, "per"), confidence(in))),
            Map.entry(
                    "difference",
                    in -> DifferenceAnalysis.of(
                            proportion(in.required("a")), proportion(in.required("b")), confidence(in))),
            Map.entry(
                    "relative-risk",
                    in -> RelativeRiskAnalysis.of(
                            proportion(in.required("a")), proportion(in.required("b")), confidence(in))),
            Map.entry(
                    "odds-ratio",
                    in -> OddsRatioAnalysis.of(
                            TwoByTwo.of(proportion(in.required("exposed")), proportion(in.required("reference"))),
                            confidence(in))),
            Map.entry(
                    "odds-ratio-levels",
                    in -> OddsRatioLevelsAnalysis.of(
                            list(
                                    in.required("levels"),
                                    level -> new Group(level.required("name").stringValue(), proportion(level))),
                            in.required("reference").stringValue(),
                            confidence(in))),
            Map.entry("attempts", in -> AttemptsAnalysis.of(patterns(in), confidence(in))),
            Map.entry(
                    "discordance", in -> DiscordanceAnalysis.of(list(in.required("rows"), ReferenceCalculations::row))),
            Map.entry(
                    "rate-ratio",
                    in -> RateRatioAnalysis.of(rate(in.required("a")), rate(in.required("b")), confidence(in))),
            Map.entry(
                    "adjusted-p-values",
                    in -> AdjustedPValuesAnalysis.of(list(in.required("pValues"), JsonNode::doubleValue))),
            Map.entry(
                    "pairwise-differences",
                    in -> PairwiseDifferencesAnalysis.of(
                            list(
                                    in.required("groups"),
                                    group -> new Group(
                                            group.required("name").stringValue(),
                                            new Proportion(count(group, "successes"), count(group, "of")))),
                            confidence(in))),
            Map.entry(
                    "stratified-odds-ratio",
                    in -> StratifiedOddsRatioAnalysis.of(
                            list(
                                    in.required("strata"),
                                    stratum -> new Stratum(
                                            stratum.required("name").stringValue(),
                                            proportion(stratum.required("exposed")),
                                            proportion(stratum.required("reference")))),
                            confidence(in))),
            Map.entry("logistic-separation", in -> LogisticSeparationAnalysis.of(design(in))),
            Map.entry("logistic", in -> LogisticAnalysis.of(design(in), confidence(in))),
            Map.entry("logistic-firth", in -> LogisticFirthAnalysis.of(design(in), confidence(in))),
            Map.entry(
                    "discrimination",
                    in -> DiscriminationAnalysis.of(
                            list(
                                    in.required("rows"),
                                    row -> new PredictedRow(number(row, "predicted"), proportion(row))),
                            confidence(in))),
            Map.entry(
                    "logistic-random-intercept",
                    in -> LogisticRandomInterceptAnalysis.of(
                            design(in), in.required("cluster").stringValue())));

    private ReferenceCalculations() {}

    static boolean answers(String method) {
        return CALCULATIONS.containsKey(method) || ReferenceWatchCalculations.CALCULATIONS.containsKey(method);
    }

    static Object answer(String method, JsonNode input) {
        Function<JsonNode, Object> watch = ReferenceWatchCalculations.CALCULATIONS.get(method);
        return watch == null ? Objects.requireNonNull(CALCULATIONS.get(method)).apply(input) : watch.apply(input);
    }

    private static <T> List<T> list(JsonNode array, Function<JsonNode, T> element) {
        return array.valueStream().map(element).toList();
    }

    private static Rate rate(JsonNode in) {
        return new Rate(count(in, "events"), number(in, "exposure"));
    }

    private static DesignMatrix design(JsonNode in) {
        return DesignMatrix.of(
                list(in.required("terms"), ReferenceCalculations::term),
                list(in.required("patterns"), ReferenceCalculations::pattern));
    }

    private static Term term(JsonNode in) {
        String name = in.required("name").stringValue();
        return in.required("type").stringValue().equals("numeric")
                ? new Term.Numeric(name)
                : new Term.Factor(
                        name,
                        list(in.required("levels"), JsonNode::stringValue),
                        in.required("reference").stringValue());
    }

    private static CovariatePattern pattern(JsonNode in) {
        Map<String, String> levels = new HashMap<>();
        Map<String, Double> numbers = new HashMap<>();
        in.properties().forEach(field -> {
            if (field.getValue().isString()) {
                levels.put(field.getKey(), field.getValue().stringValue());
            } else {
                numbers.put(field.getKey(), field.getValue().doubleValue());
            }
        });
        return new CovariatePattern(levels, numbers, proportion(in));
    }

    static Proportion proportion(JsonNode in) {
        return new Proportion(count(in, "events"), count(in, "of"));
    }

    private static List<AttemptPattern> patterns(JsonNode in) {
        return in.required("cases")
                .valueStream()
                .map(one -> new AttemptPattern(one.valueStream()
                        .map(attempt -> attempt.intValue() == 1)
                        .toList()))
                .toList();
    }

    private static DiscordanceAnalysis.Row row(JsonNode in) {
        return new DiscordanceAnalysis.Row(
                in.required("name").stringValue(), orNull(in.required("numerator")), orNull(in.required("of")));
    }

    private static @Nullable Long orNull(JsonNode count) {
        return count.isNull() ? null : Long.valueOf(count.longValue());
    }

    static Confidence confidence(JsonNode in) {
        return new Confidence(number(in, "confidence"));
    }

    static long count(JsonNode in, String field) {
        return in.required(field).longValue();
    }

    static double number(JsonNode in, String field) {
        return in.required(field).doubleValue();
    }
}
