package entrapment.registry.stats;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** From the input of a reference row to this module's answer. */
final class ReferenceCalculations {

    private static final Map<String, Function<JsonNode, Object>> CALCULATIONS = Map.of(
            "proportion", in -> ProportionAnalysis.of(proportion(in), confidence(in)),
            "rate",
                    in -> RateAnalysis.of(
                            new Rate(count(in, "events"), number(in, "exposure")), number(in, "per"), confidence(in)),
            "difference",
                    in -> DifferenceAnalysis.of(
                            proportion(in.required("a")), proportion(in.required("b")), confidence(in)),
            "relative-risk",
                    in -> RelativeRiskAnalysis.of(
                            proportion(in.required("a")), proportion(in.required("b")), confidence(in)),
            "odds-ratio",
                    in -> OddsRatioAnalysis.of(
                            TwoByTwo.of(proportion(in.required("exposed")), proportion(in.required("reference"))),
                            confidence(in)),
            "odds-ratio-levels",
                    in -> OddsRatioLevelsAnalysis.of(
                            in.required("levels")
                                    .valueStream()
                                    .map(level ->
                                            new Group(level.required("name").stringValue(), proportion(level)))
                                    .toList(),
                            in.required("reference").stringValue(),
                            confidence(in)),
            "attempts", in -> AttemptsAnalysis.of(patterns(in), confidence(in)),
            "discordance",
                    in -> DiscordanceAnalysis.of(in.required("rows")
                            .valueStream()
                            .map(ReferenceCalculations::row)
                            .toList()));

    private ReferenceCalculations() {}

    static boolean answers(String method) {
        return CALCULATIONS.containsKey(method);
    }

    static Object answer(String method, JsonNode input) {
        return Objects.requireNonNull(CALCULATIONS.get(method)).apply(input);
    }

    private static Proportion proportion(JsonNode in) {
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

    private static Confidence confidence(JsonNode in) {
        return new Confidence(number(in, "confidence"));
    }

    private static long count(JsonNode in, String field) {
        return in.required(field).longValue();
    }

    private static double number(JsonNode in, String field) {
        return in.required(field).doubleValue();
    }
}
