package entrapment.registry.calculations;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient;
import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.stats.Calculation;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;
import tools.jackson.dataformat.yaml.YAMLMapper;

/** Every number that may be sent is accepted at both ends of its documented range, and refused at an end that is left out. */
@RegistryTest
class CalculationBoundsTests {

    private static final JsonMapper JSON = JsonMapper.shared();

    private static final JsonNode FILE = file();

    /** As close to an end that is left out as anybody would ask. */
    private static final BigDecimal INSIDE = new BigDecimal("1e-9");

    /** A part is no more than the whole beside it. */
    private static final List<String> PARTS = List.of("events", "successes");

    private static final List<String> WHOLES = List.of("of", "known");

    /** What else must be said where a number at its end would contradict the rest of the example. */
    private static final Map<String, String> BESIDE = Map.ofEntries(
            Map.entry("rate-ratio /a/events maximum", "{\"b\": {\"events\": 0, \"exposure\": 9}}"),
            Map.entry("rate-ratio /b/events maximum", "{\"a\": {\"events\": 0, \"exposure\": 9}}"),
            Map.entry("trend /groups/0/of maximum", "{\"groups\": [{\"score\": 1, \"events\": 1}]}"),
            Map.entry("trend /groups/0/events maximum", "{\"groups\": [{\"score\": 1, \"events\": 0, \"of\": 0}]}"),
            Map.entry("u-chart /centre maximum", "{\"subgroups\": [{\"events\": 1, \"exposure\": 0.001}]}"),
            Map.entry(
                    "indirect-standardisation /centre/0/events maximum",
                    "{\"reference\": [{\"events\": 1, \"of\": 9}], \"centre\": [{\"events\": 0, \"of\": 0}]}"),
            Map.entry(
                    "direct-standardisation /strata/0/events maximum",
                    "{\"strata\": [{\"events\": 0, \"of\": 0, \"weight\": 1}]}"),
            Map.entry("cusum-design /p0 maximum", "{\"m\": 2}"),
            Map.entry("cusum-design /m maximum", "{\"p0\": 0.000001}"),
            Map.entry("missingness /records minimum", "{\"missing\": [], \"completeCases\": 0}"),
            Map.entry("missingness /records maximum", "{\"missing\": [], \"completeCases\": 2147483647}"),
            Map.entry("missingness /completeCases minimum", "{\"missing\": [{\"name\": \"age\", \"missing\": 153}]}"),
            Map.entry("missingness /completeCases maximum", "{\"records\": 2147483647, \"missing\": []}"),
            Map.entry(
                    "missingness /missing/0/missing minimum",
                    "{\"missing\": [{\"name\": \"age\"}], \"completeCases\": 153}"),
            Map.entry(
                    "missingness /missing/0/missing maximum",
                    "{\"records\": 2147483647, \"missing\": [{\"name\": \"age\"}], \"completeCases\": 0}"),
            Map.entry("missing-outcome-bounds /events maximum", "{\"missingOutcome\": 0}"),
            Map.entry("missing-outcome-bounds /known maximum", "{\"missingOutcome\": 0}"),
            Map.entry("missing-outcome-bounds /missingOutcome maximum", "{\"events\": 0, \"known\": 0}"));

    @Autowired
    private TestNetwork network;

    private RegistryClient steward;

    @BeforeEach
    void signIn() {
        steward = network.steward();
    }

    /** @param kind minimum, maximum, exclusiveMinimum or exclusiveMaximum */
    private record Bound(String pointer, String kind, BigDecimal value) {

        boolean leftOut() {
            return kind.startsWith("exclusive");
        }

        BigDecimal inside() {
            return !leftOut() ? value : kind.endsWith("Minimum") ? value.add(INSIDE) : value.subtract(INSIDE);
        }
    }

    @ParameterizedTest
    @EnumSource(Calculation.class)
    void acceptsTheEndsOfEveryRange(Calculation calculation) {
        String path = "/api/calculations/" + calculation.code();
        List<String> wrong = new ArrayList<>();
        JsonNode content = FILE.path("paths").path(path).path("post").at("/requestBody/content/application~1json");
        for (JsonNode example : content.path("examples")) {
            JsonNode body = resolve(example).get("value");
            for (Bound bound : bounds(content.get("schema"), body)) {
                Answer at = steward.post(path, with(body, calculation, bound, bound.inside()));
                if (at.status() != 200) {
                    wrong.add(bound + ": " + at.body());
                }
                if (bound.leftOut()) {
                    Answer beyond = steward.post(path, with(body, calculation, bound, bound.value()));
                    if (!pointers(beyond).contains(bound.pointer())) {
                        wrong.add(bound + " is not refused: " + beyond.body());
                    }
                }
            }
        }

        assertThat(wrong).isEmpty();
    }

    @Test
    void looksAtEveryCalculationThatTakesANumber() {
        assertThat(Calculation.values())
                .filteredOn(calculation -> FILE.path("paths")
                        .path("/api/calculations/" + calculation.code())
                        .at("/post/requestBody/content/application~1json/examples")
                        .isEmpty())
                .isEmpty();
        assertThat(bounds(
                        FILE.at("/components/schemas/PlanPrecisionInput"),
                        FILE.at("/components/examples/halfAPercent/value")))
                .hasSize(8)
                .contains(new Bound("/zeroEventBound", "exclusiveMaximum", BigDecimal.ONE));
    }

    private static Set<Bound> bounds(JsonNode schema, JsonNode body) {
        Set<Bound> bounds = new LinkedHashSet<>();
        addBounds(schema, body, "", bounds);
        return bounds;
    }

    /** Of a number, given or not, of all that an object may hold, and of the first entry of an array. */
    private static void addBounds(JsonNode described, JsonNode value, String pointer, Set<Bound> bounds) {
        JsonNode schema = resolve(described);
        for (String either : List.of("anyOf", "oneOf")) {
            schema.path(either).forEach(one -> addBounds(one, value, pointer, bounds));
        }
        if (value.isObject()) {
            schema.path("properties")
                    .propertyStream()
                    .forEach(property -> addBounds(
                            property.getValue(),
                            value.path(property.getKey()),
                            pointer + "/" + property.getKey(),
                            bounds));
        } else if (value.isArray() && !value.isEmpty()) {
            addBounds(schema.path("items"), value.get(0), pointer + "/0", bounds);
        } else {
            for (String kind : List.of("minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum")) {
                if (schema.has(kind)) {
                    bounds.add(new Bound(pointer, kind, schema.get(kind).decimalValue()));
                }
            }
        }
    }

    /** The example with this number in its place, and with what must go with it. */
    private static String with(JsonNode example, Calculation calculation, Bound bound, BigDecimal value) {
        ObjectNode body = (ObjectNode) example.deepCopy();
        JSON.readTree(BESIDE.getOrDefault(calculation.code() + " " + bound.pointer() + " " + bound.kind(), "{}"))
                .propertyStream()
                .forEach(field -> body.set(field.getKey(), field.getValue()));
        JsonPointer place = JsonPointer.compile(bound.pointer());
        if (body.at(place.head()) instanceof ArrayNode array) {
            array.set(0, body.numberNode(value));
        } else {
            ObjectNode object = (ObjectNode) body.at(place.head());
            String name = place.last().getMatchingProperty();
            object.set(name, body.numberNode(value));
            if (WHOLES.contains(name) && bound.kind().equals("minimum")) {
                PARTS.stream().filter(object::has).forEach(part -> object.put(part, 0));
            }
            if (PARTS.contains(name) && bound.kind().equals("maximum")) {
                WHOLES.stream().filter(object::has).forEach(whole -> object.set(whole, body.numberNode(value)));
            }
        }
        return body.toString();
    }

    private static List<String> pointers(Answer refusal) {
        return refusal.json()
                .path("errors")
                .valueStream()
                .map(error -> error.path("pointer").asString(""))
                .toList();
    }

    private static JsonNode resolve(JsonNode node) {
        return node.has("$ref") ? FILE.at(node.get("$ref").stringValue().substring(1)) : node;
    }

    private static JsonNode file() {
        try (InputStream file = CalculationBoundsTests.class.getResourceAsStream("/openapi/openapi.yaml")) {
            return new YAMLMapper().readTree(Objects.requireNonNull(file));
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }
}
