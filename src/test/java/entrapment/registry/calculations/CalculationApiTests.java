package entrapment.registry.calculations;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.stats.Calculation;
import java.io.IOException;
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

    private static final Set<String> OFFERED =
            Arrays.stream(Calculation.values()).map(Calculation::code).collect(Collectors.toSet());

    /** Computed for reports, and not offered by themselves. */
    private static final Set<String> OF_REPORTS = Set.of("silence", "cusum-reach", "quartiles");

    private static final List<String> LOGISTIC = List.of("logistic", "logistic-firth", "logistic-separation");

    @Autowired
    private TestNetwork network;

    static Stream<JsonNode> examples() throws IOException {
        return everyExample()
                .filter(example -> OFFERED.contains(example.required("method").asString()));
    }

    private static Stream<JsonNode> everyExample() throws IOException {
        try (InputStream file = CalculationApiTests.class.getResourceAsStream("/reference/reference-values.json")) {
            return JsonMapper.shared()
                    .readTree(Objects.requireNonNull(file))
                    .required("examples")
                    .valueStream();
        }
    }

    @Test
    void offersEveryMethodOfTheReferenceFile() throws IOException {
        assertThat(everyExample()
                        .map(example -> example.required("method").asString())
                        .filter(method -> !OF_REPORTS.contains(method)))
                .containsAll(OFFERED)
                .isSubsetOf(OFFERED);
        assertThat(OFFERED).hasSize(38);
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

    /** Adds to the differences whatever of the expected the actual does not hold; it may hold more. */
    static void compare(String at, JsonNode expected, JsonNode actual, JsonNode tolerance, List<String> differences) {
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
            attempts   | {"cases": [[1], [0, 2]]}                                          | /cases/1/1
            rate       | {"events": 3, "exposure": -1}                                     | /exposure
            odds-ratio-levels | {"levels": [{"name": "a", "events": 1, "of": 2}]}          | /levels
            discordance | {"rows": [{"name": "jan", "numerator": 0.5, "of": 3}]}           | /rows/0/numerator
            rate       | {"events": 3, "exposure": 1, "per": 0}                            | /per
            rate       | {"exposure": 1}                                                   | /events
            rate-ratio | {"a": {"events": -2, "exposure": 1}, "b": {"events": 2, "exposure": 1}}   | /a/events
            rate-ratio | {"a": {"events": 2, "exposure": 1}, "b": {"events": 2, "exposure": 1e-12}} | /b/exposure
            relative-risk | {"a": {"events": 1, "of": 10}, "b": {"events": 3, "of": 2}}    | /b/events
            relative-risk | {"a": [1, 10], "b": {"events": 1, "of": 2}}                    | /a
            odds-ratio-levels | {"levels": [{"name": "a", "events": 1, "of": 2}, {"name": "a", "events": 1, "of": 2}]} | /levels/1/name
            odds-ratio-levels | {"levels": [{"name": "a", "events": 1, "of": 2}, {"name": "b", "events": 1, "of": 2}], "reference": "c"} | /reference
            stratified-odds-ratio | {"strata": []}                                         | /strata
            stratified-odds-ratio | {"strata": [{"name": "a", "exposed": {"events": 3, "of": 2}, "reference": {"events": 1, "of": 2}}]} | /strata/0/exposed/events
            attempts   | {"cases": [[1], []]}                                              | /cases/1
            attempts   | {"cases": [1, 0]}                                                 | /cases/0
            adjusted-p-values | {"pValues": [0.1, null, 1.1]}                              | /pValues/2
            adjusted-p-values | {"pvalues": [0.1]}                                         | /pValues
            pairwise-differences | {"groups": [{"name": "a", "successes": 1, "of": 2}]}    | /groups
            pairwise-differences | {"groups": [{"name": "a", "successes": 3, "of": 2}, {"name": "b", "successes": 1, "of": 2}]} | /groups/0/successes
            adjusted-p-values | {"pValues": [1e-300, 1e400]}                               | /pValues/1
            discrimination | {"rows": [{"predicted": 1.2, "events": 1, "of": 2}]}           | /rows/0/predicted
            discrimination | {"rows": [{"predicted": 0.2, "events": 3, "of": 2}]}           | /rows/0/events
            logistic-random-intercept | {"terms": [], "patterns": [{"events": 1, "of": 2}]} | /cluster
            logistic-random-intercept | {"terms": [], "cluster": "lab", "patterns": [{"events": 1, "of": 2}]} | /patterns/0/lab
            logistic-random-intercept | {"terms": [{"name": "lab", "type": "numeric"}], "cluster": "lab", "patterns": [{"lab": 1, "events": 1, "of": 2}]} | /cluster
            trend      | {"groups": [{"score": "2031", "events": 1, "of": 2}]}             | /groups/0/score
            trend      | {"groups": [{"events": 1, "of": 2}]}                              | /groups/0/score
            p-chart    | {"subgroups": [{"events": 3, "of": 2}]}                           | /subgroups/0/events
            p-chart    | {"subgroups": [{"events": 1, "of": 2}], "tailProbability": 0.5}   | /tailProbability
            p-chart    | {"subgroups": [{"events": 1, "of": 2}], "centre": 0}              | /centre
            u-chart    | {"subgroups": [{"events": 0.5, "exposure": 2}]}                   | /subgroups/0/events
            u-chart    | {"subgroups": {"events": 1, "exposure": 2}}                       | /subgroups
            g-chart    | {"gaps": [3, -1]}                                                 | /gaps/1
            g-chart    | {"gaps": [3, 1.5]}                                                | /gaps/1
            t-chart    | {"times": [3, -0.5]}                                              | /times/1
            t-chart    | {"times": [3, null]}                                              | /times/1
            cusum      | {"outcomes": [0, 2], "risk": 0.1, "oddsRatioAlternative": 2, "threshold": 3} | /outcomes/1
            cusum      | {"outcomes": [0, 1], "risk": [0.1], "oddsRatioAlternative": 2, "threshold": 3} | /risk
            cusum      | {"outcomes": [0, 1], "risk": [0.1, 1], "oddsRatioAlternative": 2, "threshold": 3} | /risk/1
            cusum      | {"outcomes": [0, 1], "risk": 0.1, "oddsRatioAlternative": 1, "threshold": 3} | /oddsRatioAlternative
            cusum      | {"outcomes": [0, 1], "risk": 0.1, "oddsRatioAlternative": 2, "threshold": 3, "resetAfterSignal": "no"} | /resetAfterSignal
            cusum-design | {"p0": 0.01, "m": 100, "threshold": 300}                        | /m
            cusum-design | {"p0": 0.01, "m": 60, "threshold": 300, "pTrue": [0]}           | /pTrue/0
            funnel     | {"centres": [{"name": "north", "events": 4, "of": 3}]}            | /centres/0/events
            funnel     | {"centres": [{"name": "north", "events": 2, "of": 3}], "target": 1} | /target
            funnel-overdispersion | {"centres": [{"events": 2, "of": 3}]}                  | /centres/0/name
            funnel-overdispersion | {"centres": [{"name": "north", "events": 2, "of": 3}], "winsor": 0.5} | /winsor
            indirect-standardisation | {"reference": [{"events": 1, "of": 3}], "centre": []} | /centre
            indirect-standardisation | {"reference": [{"events": 1, "of": -3}], "centre": [{"events": 0, "of": 1}]} | /reference/0/of
            direct-standardisation | {"strata": [{"events": 1, "of": 3, "weight": 0}]}     | /strata
            direct-standardisation | {"strata": [{"events": 1, "of": 3, "weight": -1}]}    | /strata/0/weight
            shrinkage  | {"centres": [{"name": "north", "events": 4, "of": 3}]}            | /centres/0/events
            shrinkage  | {"centres": [{"name": "north", "events": 2, "of": 3, "rank": 1}]} | /centres/0/rank
            pooled-proportion | {"centres": [{"name": "north", "events": "4", "of": 9}]}   | /centres/0/events
            pooled-proportion | {}                                                         | /centres
            pooled-effects | {"effects": {"y": [0.1, 0.2], "v": [0.1]}}                    | /effects/v
            pooled-effects | {"effects": {"y": [0.1, 0.2], "v": [0.1, 0]}}                 | /effects/v/1
            pooled-effects | {"effects": {"y": [0.1], "v": [0.1]}, "centres": []}          | ''
            plan-comparison | {"p1": 0.1, "p2": 0.1}                                       | /p2
            plan-comparison | {"p1": 0.1, "p2": 1}                                         | /p2
            plan-comparison | {"p1": 0.1, "p2": 0.2, "n1": 12.5}                           | /n1
            plan-precision | {"anticipatedProportion": -0.01, "halfWidth": 0.1}            | /anticipatedProportion
            plan-precision | {"anticipatedProportion": 1.01, "halfWidth": 0.1}             | /anticipatedProportion
            plan-precision | {"anticipatedProportion": 0.1}                                | /halfWidth
            plan-detectable-change | {"volume": 0, "p0": 0.1}                              | /volume
            plan-detectable-change | {"volume": 10, "p0": 0.1, "power": 0.3}               | /power
            suppression | {"cells": [[1, 2], [3]]}                                         | /cells/1
            suppression | {"cells": [[1, 2], [3, null]]}                                   | /cells/1/1
            suppression | {"cells": [[1, 2]], "threshold": 1}                              | /threshold
            suppression-audit | {"cells": [[1, null]], "rowTotals": [5], "columnTotals": [1]} | /columnTotals
            suppression-audit | {"cells": [[1, -1]], "rowTotals": [5], "columnTotals": [1, 4]} | /cells/0/1
            suppression-audit | {"cells": [[1, null]], "rowTotals": [5], "columnTotals": [1, 4], "primary": [{"row": 1, "column": 1}]} | /primary/0
            missingness | {"records": 10, "missing": [{"name": "age", "missing": 11}], "completeCases": 0} | /missing/0/missing
            missingness | {"records": 10, "missing": [{"name": "age", "missing": 4}], "completeCases": 7} | /completeCases
            missing-outcome-bounds | {"events": 5, "known": 4, "missingOutcome": 1}        | /events
            missing-outcome-bounds | {"events": 1, "known": 4, "missingOutcome": -1}       | /missingOutcome
            discordance | {"rows": [{"numerator": 1, "of": 3}]}                            | /rows/0/name
            """)
    void pointsAtCountsThatCannotBe(String method, String body, String pointer) {
        refuses(method, body, pointer);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            2nd       | numeric |           |      | small | 1 | 2     | /terms/0/name
            a b       | numeric |           |      | small | 1 | 2     | /terms/0/name
            size      | ordinal |           |      | small | 1 | 2     | /terms/0/type
            size      | numeric |           |      | small | 1 | 2     | /patterns/1/size
            size      | factor  |           |      | small | 1 | 2     | /terms/0/levels
            size      | factor  | small     | small | small | 1 | 2    | /terms/0/levels
            size      | factor  | small,big | huge | small | 1 | 2     | /terms/0/reference
            size      | factor  | small,big | big  | huge  | 1 | 2     | /patterns/1/size
            size      | factor  | small,big | big  | small | 3 | 2     | /patterns/1/events
            size      | factor  | small,big | small | small | 0 | 0    | /terms/0/reference
            size      | factor  | small,big | big  | big   | 1 | 2     | /terms/1
            """)
    void pointsAtTheTermOrPatternThatCannotBe(
            String name, String type, String levels, String reference, String level, int events, int of, String at) {
        String factor = levels == null
                ? ""
                : ", \"levels\": [\"" + levels.replace(",", "\", \"") + "\"], \"reference\": \"" + reference + "\"";
        String body = """
                {"terms": [{"name": "%1$s", "type": "%2$s"%3$s}, {"name": "x", "type": "numeric"}],
                 "patterns": [{"%1$s": "big", "x": 1, "events": 1, "of": 2},
                              {"%1$s": "%4$s", "x": 1, "events": %5$d, "of": %6$d}]}""".formatted(name, type, factor, level, events, of);

        for (String method : LOGISTIC) {
            refuses(method, body, at);
        }
    }

    @Test
    void keepsTheNamesOfTheCountsForTheCounts() {
        for (String method : LOGISTIC) {
            refuses(method, """
                    {"terms": [{"name": "events", "type": "numeric"}], "patterns": [{"events": 1, "of": 2}]}""", "/terms/0/name");
        }
    }

    @Test
    void pointsAtAnAliasedLevelWithoutRepeatingIt() {
        String body = """
                {"terms": [{"name": "hand", "type": "factor", "levels": ["left", "Ada"], "reference": "left"},
                           {"name": "room", "type": "factor", "levels": ["one", "Ada"], "reference": "one"}],
                 "patterns": [{"hand": "left", "room": "one", "events": 1, "of": 3},
                              {"hand": "Ada", "room": "Ada", "events": 2, "of": 3}]}""";

        for (String method : LOGISTIC) {
            assertThat(refuses(method, body, "/terms/1/levels/1").toString()).doesNotContain("Ada");
        }
    }

    @Test
    void saysEverythingThatIsWrongAtOnce() {
        JsonNode problem = refuses("plan-comparison", """
                {"p1": 1.5, "p2": 1.5, "alpha": 2, "power": 0, "n2": 4}""", "/p1");

        assertThat(problem.required("errors").valueStream())
                .extracting(error -> error.required("pointer").asString())
                .containsExactly("/p1", "/p2", "/alpha", "/power", "");
    }

    @Test
    void refusesMoreRowsThanItAnswersAtOnce() {
        refuses("g-chart", "{\"gaps\": [" + "1,".repeat(10_000) + "1]}", "/gaps");
        refuses("suppression", "{\"cells\": [" + "[1],".repeat(60) + "[1]]}", "/cells");
        refuses("suppression", "{\"cells\": [[" + "1,".repeat(60) + "1]]}", "/cells/0");
        refuses("stratified-odds-ratio", "{\"strata\": [" + "{},".repeat(500) + "{}]}", "/strata");
        refuses(
                "logistic",
                "{\"terms\": [], \"patterns\": [" + "{\"events\": 1, \"of\": 2},".repeat(2_000)
                        + "{\"events\": 1, \"of\": 2}]}",
                "/patterns");
    }

    @Test
    void takesAMillionUsesIntoACusum() {
        String body = """
                {"outcomes": [%s0], "risk": [%s0.0125], "oddsRatioAlternative": 2, "threshold": 4}""".formatted("0,".repeat(999_999), "0.0125,".repeat(999_999));

        Answer answer = network.steward().post("/api/calculations/cusum", body);

        assertThat(answer.status()).isEqualTo(200);
        assertThat(answer.json().required("path").size()).isEqualTo(1_000_000);
        refuses("cusum", body.replace("[0,0", "[0,0,0"), "/outcomes");
    }

    private JsonNode refuses(String method, String body, String pointer) {
        Answer answer = network.steward().post("/api/calculations/" + method, body);

        assertThat(answer.status()).isEqualTo(422);
        assertThat(answer.json().required("errors").valueStream())
                .extracting(error -> error.required("pointer").asString())
                .contains(pointer);
        return answer.json();
    }

    @Test
    void answers404ToAMethodItDoesNotHave() {
        assertThat(network.steward()
                        .post("/api/calculations/crystal-ball", "{}")
                        .status())
                .isEqualTo(404);
    }
}
