package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;

/** Every row of the reference file, at the row's own tolerance. */
class ReferenceTests {

    /** The file's published figures name some fields by an older spelling. */
    private static final Map<String, String> SPELLINGS = Map.ofEntries(
            Map.entry("wilson_cc", "wilsonContinuity"),
            Map.entry("clopper_pearson", "clopperPearson"),
            Map.entry("midp", "midP"),
            Map.entry("midp_p", "midPValue"),
            Map.entry("fisher_p", "fisherPValue"),
            Map.entry("conditional_mle", "conditionalMle"),
            Map.entry("sample_or", "oddsRatio"),
            Map.entry("mh_or", "oddsRatio"),
            Map.entry("p_exact_minlike", "minlikePValue"),
            Map.entry("p_minlike", "minlikePValue"),
            Map.entry("cmh_cc", "cmhContinuity"),
            Map.entry("p", "pValue"),
            Map.entry("p_two_sided", "pValue"),
            Map.entry("exact_p_one_sided_upper", "exactUpperPValue"),
            Map.entry("se", "standardError"),
            Map.entry("i2_reml", "i2Reml"),
            Map.entry("n1_exact", "n1Exact"));

    static Stream<ReferenceValues.Example> examples() {
        return ReferenceValues.examples(method -> true);
    }

    @ParameterizedTest
    @MethodSource("examples")
    void equalsTheComputedReference(ReferenceValues.Example example) {
        Object answer = ReferenceCalculations.answer(example.method(), example.input());

        assertThat(ReferenceComparison.differences(example.expected(), answer, example.absolute(), example.relative()))
                .isEmpty();
    }

    @ParameterizedTest
    @MethodSource("examples")
    void roundsToThePublishedFigures(ReferenceValues.Example example) {
        JsonNode answer =
                ReferenceValues.JSON.valueToTree(ReferenceCalculations.answer(example.method(), example.input()));

        for (JsonNode figure : example.published()) {
            double half = 0.5 * Math.pow(10, -figure.required("decimals").intValue());
            assertThat(at(answer, figure.required("path").stringValue()).doubleValue())
                    .as(figure.required("citation").stringValue())
                    .isCloseTo(figure.required("value").doubleValue(), within(half * (1 + 1e-9)));
        }
    }

    @ParameterizedTest
    @EnumSource(Calculation.class)
    void everyCalculationStandsInTheReferenceFile(Calculation calculation) {
        assertThat(ReferenceCalculations.answers(calculation.code())).isTrue();
        assertThat(ReferenceValues.examples(calculation.code()::equals)).isNotEmpty();
    }

    @Test
    void theComparisonSeesADifferenceInEachKindOfValue() {
        JsonNode expected = ReferenceValues.JSON.readTree("""
                {"lower": 1.0, "upper": "Inf", "estimate": null, "flags": [true], "word": "ok"}""");

        assertThat(differences(expected, 1.0, Double.POSITIVE_INFINITY, null, true, "ok"))
                .isEmpty();
        assertThat(differences(expected, 1.0 + 1e-7, Double.POSITIVE_INFINITY, null, true, "ok"))
                .isEmpty();
        assertThat(differences(expected, 1.0 + 2e-6, Double.POSITIVE_INFINITY, null, true, "ok"))
                .singleElement()
                .asString()
                .startsWith("/lower");
        assertThat(differences(expected, Double.NaN, Double.NEGATIVE_INFINITY, 0.0, false, "no"))
                .hasSize(5);
    }

    private static List<String> differences(
            JsonNode expected, double lower, double upper, @Nullable Double estimate, boolean flag, String word) {
        record Answer(double lower, double upper, @Nullable Double estimate, List<Boolean> flags, String word) {}
        return ReferenceComparison.differences(
                expected, new Answer(lower, upper, estimate, List.of(flag), word), 1e-12, 1e-6);
    }

    private static JsonNode at(JsonNode answer, String path) {
        JsonNode node = answer;
        for (String step : Arrays.asList(path.split("\\."))) {
            node = node.required(SPELLINGS.getOrDefault(step, step));
        }
        return node;
    }
}
