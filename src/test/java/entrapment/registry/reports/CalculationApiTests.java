package entrapment.registry.reports;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.stats.Calculation;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The reference examples over HTTP; each names its source. */
@RegistryTest
class CalculationApiTests {

    @Autowired
    private TestNetwork network;

    static Stream<JsonNode> examples() throws Exception {
        Set<String> offered =
                Arrays.stream(Calculation.values()).map(Calculation::code).collect(Collectors.toSet());
        try (InputStream file = CalculationApiTests.class.getResourceAsStream("/reference/reference-values.json")) {
            return JsonMapper.shared()
                    .readTree(Objects.requireNonNull(file))
                    .required("examples")
                    .valueStream()
                    .filter(example ->
                            offered.contains(example.required("method").asString()))
                    .toList()
                    .stream();
        }
    }

    @ParameterizedTest
    @MethodSource("examples")
    void answersTheReferenceValue(JsonNode example) {
        Answer answer = network.steward()
                .post(
                        "/api/calculations/" + example.required("method").asString(),
                        example.required("input").toString());

        assertThat(answer.status()).isEqualTo(200);
        List<String> differences = new ArrayList<>();
        compare("", example.required("expected"), answer.json(), example.required("tolerance"), differences);
        assertThat(differences).isEmpty();
        assertThat(answer.json().at("/method/citation").asString()).isNotEmpty();
    }

    private static void compare(
            String at, JsonNode expected, JsonNode actual, JsonNode tolerance, List<String> differences) {
        if (expected.isObject()) {
            expected.propertyStream()
                    .forEach(field -> compare(
                            at + "/" + field.getKey(),
                            field.getValue(),
                            actual.path(field.getKey()),
                            tolerance,
                            differences));
        } else if (expected.isArray()) {
            if (expected.size() != actual.size()) {
                differences.add(at + ": expected " + expected.size() + " entries, got " + actual.size());
                return;
            }
            for (int index = 0; index < expected.size(); index++) {
                compare(at + "/" + index, expected.get(index), actual.get(index), tolerance, differences);
            }
        } else if (expected.isNumber()) {
            double allowed = tolerance.required("abs").doubleValue()
                    + tolerance.required("rel").doubleValue() * Math.abs(expected.doubleValue());
            if (!actual.isNumber() || Math.abs(actual.doubleValue() - expected.doubleValue()) > allowed) {
                differences.add(at + ": expected " + expected + ", got " + actual);
            }
        } else if (!expected.equals(actual)) {
            differences.add(at + ": expected " + expected + ", got " + actual);
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            proportion | {"events": -1, "of": 10}                                          | /events
            proportion | {"events": 11, "of": 10}                                          | /events
            proportion | {"events": 1.5, "of": 10}                                         | /events
            proportion | {"events": 1, "of": 3000000000}                                   | /of
            proportion | {"events": 1, "of": 10, "confidence": 1}                          | /confidence
            difference | {"a": {"events": 1, "of": 10}, "b": {"events": 3, "of": 2}}       | /b/events
            odds-ratio | {"exposed": {"events": 1, "of": 10}}                              | /reference/of
            attempts   | {"cases": [[1], [0, 2]]}                                          | /cases/1
            rate       | {"events": 3, "exposure": -1}                                     | /exposure
            odds-ratio-levels | {"levels": [{"name": "a", "events": 1, "of": 2}]}          | /levels
            discordance | {"rows": [{"name": "jan", "numerator": 0.5, "of": 3}]}           | /rows/0/numerator
            """)
    void pointsAtCountsThatCannotBe(String method, String body, String pointer) {
        Answer answer = network.steward().post("/api/calculations/" + method, body);

        assertThat(answer.status()).isEqualTo(422);
        assertThat(answer.json().required("errors").valueStream())
                .extracting(error -> error.required("pointer").asString())
                .contains(pointer);
    }

    @Test
    void answers404ToAMethodItDoesNotHave() {
        assertThat(network.steward()
                        .post("/api/calculations/crystal-ball", "{}")
                        .status())
                .isEqualTo(404);
    }
}
