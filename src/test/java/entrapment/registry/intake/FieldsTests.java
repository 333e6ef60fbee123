package entrapment.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.vocabulary.Calcification;
import entrapment.registry.vocabulary.Enabler;
import entrapment.registry.vocabulary.Period;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

class FieldsTests {

    private static final BigDecimal LEAST = new BigDecimal("0.20");
    private static final BigDecimal MOST = new BigDecimal("6.00");
    private static final Period LATEST = new Period(2026, 3);

    @Test
    void answersEveryErrorAtOnceInTheOrderRead() {
        Reading<?> reading = read(
                "{'key': 7, 'lesion': {'vessel': 'aorta'}, 'size': 9, 'steps': [{'what': 'x'}, {}]}",
                fields -> List.of(
                        fields.requiredText("key"),
                        fields.requiredCode("harm", Calcification.class),
                        fields.object("lesion", lesion -> lesion.code("vessel", Enabler.class, Enabler.SHAFT_CUT)),
                        String.valueOf(fields.decimal("size", 2, LEAST, MOST)),
                        fields.objects("steps", 12, step -> step.requiredText("what"))));

        assertThat(FieldErrors.in(reading))
                .containsExactly(
                        "/key wrong-type",
                        "/harm missing",
                        "/lesion/vessel not-a-code",
                        "/size out-of-range",
                        "/steps/1/what missing");
    }

    @Test
    void pointsIntoNestedArrays() {
        assertThat(errors(
                        "{'attempts': [{'technique': 'x'}, {'technique': 5, 'enablers': ['shaft-cut', 'sawn', 5]}]}",
                        fields -> fields.objects(
                                "attempts",
                                12,
                                attempt -> List.of(
                                        attempt.requiredText("technique"), attempt.codes("enablers", Enabler.class)))))
                .containsExactly(
                        "/attempts/1/technique wrong-type",
                        "/attempts/1/enablers/1 not-a-code",
                        "/attempts/1/enablers/2 wrong-type");
    }

    @ParameterizedTest
    @CsvSource({"a/b, /a~1b", "a~b, /a~0b", "~1, /~01", "/, /~1", "~0/, /~00~1"})
    void escapesTildesAndSlashesAsRfc6901Says(String name, String pointer) {
        JsonNode body = JsonNodeFactory.instance.objectNode().put(name, 1);

        assertThat(FieldErrors.in(Fields.read(body, fields -> fields.requiredText(name))))
                .containsExactly(pointer + " wrong-type");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "lesionLength",
                "ab",
                "dateOfBirth",
                "oneTwoThreeFourFive",
                "abcdefghijabcdefghijabcdefghijabcdefghij"
            })
    void namesAnUnknownFieldThatIsAPlainCamelCaseWord(String name) {
        assertThat(FieldErrors.in(withUnknownLesionField(name))).containsExactly("/lesion/" + name + " unknown-field");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "a",
                "Smith",
                "john.smith",
                "John Smith",
                "71234567",
                "name1",
                "aB",
                "patientID",
                "na-me",
                "na~me",
                "",
                "oneTwoThreeFourFiveSix",
                "abcdefghijabcdefghijabcdefghijabcdefghijk"
            })
    void refusesAnyOtherUnknownFieldAtItsObjectWithoutRepeatingItsName(String name) {
        assertThat(withUnknownLesionField(name))
                .isEqualTo(new Reading.Refused<>(List.of(new FieldError(
                        "/lesion", "unknown-field", "unknown property; lesion may have vessel, position"))));
    }

    private static Reading<?> withUnknownLesionField(String name) {
        ObjectNode body = JsonNodeFactory.instance.objectNode();
        body.putObject("lesion").put(name, "x").put("vessel", "y");
        return Fields.read(
                body,
                fields -> fields.object("lesion", lesion -> List.of(lesion.has("vessel"), lesion.has("position"))));
    }

    @Test
    void listsUnknownFieldsByNameWhateverTheirOrder() {
        String[] expected = {" unknown-field", "/alpha unknown-field", "/mid unknown-field", "/zeta unknown-field"};

        assertThat(errors("{'zeta': 1, 'alpha': 1, 'mid': 1, '9': 1}", fields -> fields.has("key")))
                .containsExactly(expected);
        assertThat(errors("{'9': 1, 'mid': 1, 'alpha': 1, 'zeta': 1}", fields -> fields.has("key")))
                .containsExactly(expected);
    }

    @ParameterizedTest
    @ValueSource(strings = {"null", "''"})
    void takesNullAndAnEmptyTextForNotGiven(String nothing) {
        Reading<List<Object>> reading = read(
                "{'a': N, 'b': N, 'c': N, 'd': N, 'e': N, 'f': N}".replace("N", nothing),
                fields -> List.of(
                        fields.has("a"),
                        String.valueOf(fields.text("a")),
                        fields.code("b", Calcification.class, Calcification.UNKNOWN),
                        fields.codes("c", Enabler.class),
                        String.valueOf(fields.whole("d", 0, 9)),
                        fields.real("e", 0, 1, 0.95),
                        fields.object("f", inner -> inner.has("g"))));

        assertThat(reading.orRefuse())
                .containsExactly(false, "null", Calcification.UNKNOWN, Set.of(), "null", 0.95, false);
    }

    @Test
    void tellsAnArrayFromOneValue() {
        assertThat(read("{'a': [1, {'b': 2}], 'b': 1, 'c': null}", fields -> {
                            return Stream.of("a", "b", "c", "d")
                                    .filter(fields::hasArray)
                                    .toList();
                        })
                        .orRefuse())
                .isEqualTo(List.of("a"));
    }

    @Test
    void missesEveryKindOfFieldThatIsRequired() {
        assertThat(errors(
                        "{}",
                        fields -> List.of(
                                fields.requiredText("text"),
                                fields.requiredWhole("whole", 1, 9),
                                fields.period("period", LATEST),
                                fields.object("outcome", o -> o.requiredCode("harm", Calcification.class)))))
                .containsExactly("/text missing", "/whole missing", "/period missing", "/outcome/harm missing");
    }

    @Test
    void refusesABodyThatIsNoObjectWithoutAskingForItsFields() {
        for (String body : List.of("5", "[]", "'x'", "null", "true")) {
            assertThat(errors(body, fields -> fields.requiredText("key"))).containsExactly(" wrong-type");
        }
        assertThat(errors(
                        "{'lesion': [], 'key': 'x'}",
                        fields -> List.of(
                                fields.object("lesion", lesion -> lesion.requiredText("vessel")),
                                fields.requiredText("key"))))
                .containsExactly("/lesion wrong-type");
    }

    @ParameterizedTest
    @ValueSource(strings = {"5", "true", "[]", "['a']", "{}", "{'a': 1}"})
    void takesNothingButTextForText(String value) {
        assertThat(errors("{'a': " + value + "}", fields -> String.valueOf(fields.text("a"))))
                .containsExactly("/a wrong-type");
        assertThat(errors("{'a': " + value + "}", fields -> fields.requiredText("a")))
                .containsExactly("/a wrong-type");
    }

    @ParameterizedTest
    @CsvSource({
        "5, wrong-type",
        "true, wrong-type",
        "[], wrong-type",
        "{}, wrong-type",
        "\"Severe\", not-a-code",
        "\" severe\", not-a-code",
        "\"SEVERE\", not-a-code"
    })
    void takesNothingButACodeForACode(String value, String error) {
        String body = "{'a': " + value + "}";

        assertThat(errors(body, fields -> fields.code("a", Calcification.class, Calcification.UNKNOWN)))
                .containsExactly("/a " + error);
        assertThat(errors(body, fields -> fields.requiredCode("a", Calcification.class)))
                .containsExactly("/a " + error);
    }

    @Test
    void listsTheCodesWhereNoneOfThemWasSent() {
        assertThat(read(
                        "{'lesion': {'calcification': 'stony'}}",
                        fields -> fields.object("lesion", l -> l.requiredCode("calcification", Calcification.class))))
                .isEqualTo(new Reading.Refused<>(List.of(new FieldError(
                        "/lesion/calcification",
                        "not-a-code",
                        "calcification must be one of the texts none, mild, moderate, severe, unknown"))));
    }

    @Test
    void readsASetOfCodesInAnyOrderAndOnceEach() {
        assertThat(read(
                                "{'a': ['sheath-removed', 'shaft-cut', 'sheath-removed']}",
                                fields -> fields.codes("a", Enabler.class))
                        .orRefuse())
                .containsExactly(Enabler.SHAFT_CUT, Enabler.SHEATH_REMOVED);
    }

    @ParameterizedTest
    @ValueSource(strings = {"{}", "'shaft-cut'", "7", "true"})
    void takesNothingButAnArrayForAList(String value) {
        assertThat(errors("{'a': " + value + "}", fields -> fields.codes("a", Enabler.class)))
                .containsExactly("/a wrong-type");
        assertThat(errors("{'a': " + value + "}", fields -> fields.objects("a", 2, step -> step.has("what"))))
                .containsExactly("/a wrong-type");
    }

    @Test
    void readsAsManyObjectsAsAllowedAndNoneOfMore() {
        assertThat(read("{'a': [{'n': 1}, {'n': 2}]}", fields -> fields.objects("a", 2, each -> each.whole("n", 0, 9)))
                        .orRefuse())
                .containsExactly(1L, 2L);
        assertThat(errors(
                        "{'a': [{'n': 1}, {'n': 'x'}, {}]}",
                        fields -> fields.objects("a", 2, each -> each.requiredWhole("n", 0, 9))))
                .containsExactly("/a too-many");
        assertThat(errors(
                        "{'a': ['shaft-cut', 'shaft-cut', 'shaft-cut', 'shaft-cut', 'shaft-cut', 'shaft-cut']}",
                        fields -> fields.codes("a", Enabler.class)))
                .containsExactly("/a too-many");
    }

    @ParameterizedTest
    @CsvSource({
        "0.2, 0.2",
        "0.20, 0.2",
        "6, 6",
        "6.00, 6",
        "1.25, 1.25",
        "1.250000, 1.25",
        "125e-2, 1.25",
        "0.2e1, 2",
    })
    void readsADecimalFromItsLeastToItsMostWithoutTrailingZeros(String sent, BigDecimal read) {
        assertThat(read("{'a': " + sent + "}", fields -> fields.decimal("a", 2, LEAST, MOST))
                        .orRefuse())
                .isEqualTo(read);
    }

    @Test
    void readsADecimalAboveTenInFull() {
        assertThat(String.valueOf(read("{'a': 2e1}", fields -> fields.decimal("a", 2, LEAST, new BigDecimal("99")))
                        .orRefuse()))
                .isEqualTo("20");
    }

    @ParameterizedTest
    @CsvSource({
        "0.19, out-of-range",
        "6.01, out-of-range",
        "6.0000000000000000000001, out-of-range",
        "-1.25, out-of-range",
        "0, out-of-range",
        "1.255, out-of-range",
        "\"1.25\", wrong-type",
        "true, wrong-type",
        "[], wrong-type"
    })
    void refusesADecimalBeyondItsBoundsOrPlaces(String sent, String error) {
        assertThat(errors("{'a': " + sent + "}", fields -> String.valueOf(fields.decimal("a", 2, LEAST, MOST))))
                .containsExactly("/a " + error);
    }

    @ParameterizedTest
    @CsvSource({"0, 0", "1440, 1440", "21, 21", "21.0, 21", "2.1e1, 21", "-0, 0", "21.00000000000000000000, 21"})
    void readsAWholeNumberFromItsLeastToItsMost(String sent, long read) {
        assertThat(read("{'a': " + sent + "}", fields -> fields.whole("a", 0, 1440))
                        .orRefuse())
                .isEqualTo(read);
        assertThat(read("{'a': " + sent + "}", fields -> fields.requiredWhole("a", 0, 1440))
                        .orRefuse())
                .isEqualTo(read);
    }

    @ParameterizedTest
    @CsvSource({
        "-1, out-of-range",
        "1441, out-of-range",
        "1440.5, out-of-range",
        "18446744073709551617, out-of-range",
        "2.5, wrong-type",
        "0.0000001, wrong-type",
        "\"3\", wrong-type",
        "false, wrong-type",
        "{}, wrong-type"
    })
    void refusesAFractionAndAWholeNumberBeyondItsBounds(String sent, String error) {
        assertThat(errors("{'a': " + sent + "}", fields -> String.valueOf(fields.whole("a", 0, 1440))))
                .containsExactly("/a " + error);
        assertThat(errors("{'a': " + sent + "}", fields -> fields.requiredWhole("a", 0, 1440)))
                .containsExactly("/a " + error);
    }

    @ParameterizedTest
    @CsvSource({"0.5, 0.5", "0.9999, 0.9999", "95e-2, 0.95"})
    void readsARealNumberFromItsLeastToItsMost(String sent, double read) {
        assertThat(read("{'a': " + sent + "}", fields -> fields.real("a", 0.5, 0.9999, 0.9))
                        .orRefuse())
                .isEqualTo(read);
    }

    @ParameterizedTest
    @CsvSource({
        "0.4999, out-of-range",
        "0.99991, out-of-range",
        "-0.95, out-of-range",
        "1e308, out-of-range",
        "\"0.95\", wrong-type",
        "\"NaN\", wrong-type",
        "[0.95], wrong-type"
    })
    void refusesARealNumberBeyondItsBounds(String sent, String error) {
        assertThat(errors("{'a': " + sent + "}", fields -> fields.real("a", 0.5, 0.9999, 0.9)))
                .containsExactly("/a " + error);
    }

    @ParameterizedTest
    @ValueSource(strings = {"1e999999999", "-1e999999999", "1e-999999999", "1E+2147483647", "7e-2147483647"})
    void refusesAHugeExponentWithoutExpandingIt(String number) {
        assertThat(errors("{'a': " + number + "}", fields -> String.valueOf(fields.whole("a", 0, 9))))
                .containsExactly("/a out-of-range");
        assertThat(errors("{'a': " + number + "}", fields -> String.valueOf(fields.decimal("a", 2, LEAST, MOST))))
                .containsExactly("/a out-of-range");
    }

    @ParameterizedTest
    @ValueSource(strings = {"1e400", "-1e400", "1e999999999", "-1e999999999", "1E+2147483647"})
    void refusesARealNumberThatNoDoubleHolds(String number) {
        assertThat(errors("{'a': " + number + "}", fields -> fields.real("a", 0, 1e12, 1)))
                .containsExactly("/a out-of-range");
    }

    @ParameterizedTest
    @CsvSource({
        "2026-Q3, ''",
        "1990-Q1, ''",
        "2026-Q4, /period period-in-future",
        "2027-Q1, /period period-in-future",
        "2026-Q5, /period not-a-period",
        "2026, /period not-a-period",
        "2031, /period not-a-period",
        "2026-06-01, /period not-a-period"
    })
    void readsAQuarterThatHasBegun(String text, String error) {
        assertThat(String.join(", ", errors("{'period': '" + text + "'}", fields -> fields.period("period", LATEST))))
                .isEqualTo(error);
    }

    @Test
    void callsSoundWhatNoErrorTouches() {
        assertThat(read("{'lesion': {'vessel': 5}, 'lesionLength': 3}", fields -> {
                    fields.object("lesion", lesion -> lesion.requiredText("vessel"));
                    List<Boolean> sound = List.of(
                            fields.sound("/lesion"),
                            fields.sound("/lesion/vessel"),
                            fields.sound("/lesion/vessel/deeper"),
                            fields.sound("/lesion/position"),
                            fields.sound("/lesionLength"));
                    assertThat(sound).containsExactly(false, false, false, true, true);
                    return fields.has("lesionLength");
                }))
                .isInstanceOf(Reading.Refused.class);
    }

    @Test
    void pointsFromItsOwnObjectWhereARuleRefuses() {
        assertThat(errors("{'device': {}, 'steps': [{}, {}]}", fields -> {
                    fields.object("device", device -> {
                        device.refuseAt("/size", "size-for-class", "too large");
                        return device.sound("/size");
                    });
                    return fields.objects("steps", 2, step -> {
                        step.refuse("a/b", "odd", "odd");
                        return step.sound("/other");
                    });
                }))
                .containsExactly("/device/size size-for-class", "/steps/0/a~1b odd", "/steps/1/a~1b odd");
    }

    /** What stands in every junk value, and must stand in no answer: a name and a number that may identify. */
    private static final String NAME = "Zq Marker";

    private static final String NUMBER = "8675309";

    @Test
    void neverRepeatsAValueOrANameThatMayIdentify() {
        Random random = new Random(20310401);
        Set<String> codes = new TreeSet<>();
        for (int round = 0; round < 20_000; round++) {
            JsonNode body = junkBody(random, 0);
            List<FieldError> errors = Fields.read(body, FieldsTests::everything) instanceof Reading.Refused<?> refused
                    ? refused.errors()
                    : List.of();
            errors.forEach(error -> codes.add(error.code()));

            assertThat(errors.toString()).as("round %s", round).doesNotContain("Zq", "Marker", NUMBER);
        }
        assertThat(codes)
                .containsExactly(
                        "missing",
                        "not-a-code",
                        "not-a-period",
                        "out-of-range",
                        "too-many",
                        "unknown-field",
                        "wrong-type");
    }

    private static List<Object> everything(Fields fields) {
        return List.of(
                String.valueOf(fields.text("text")),
                fields.requiredText("requiredText"),
                fields.code("code", Calcification.class, Calcification.UNKNOWN),
                fields.requiredCode("requiredCode", Calcification.class),
                fields.codes("codes", Enabler.class),
                fields.period("period", LATEST),
                String.valueOf(fields.decimal("decimal", 2, LEAST, MOST)),
                fields.requiredWhole("whole", 0, 1440),
                fields.real("real", 0, 1, 1),
                fields.object("object", inner -> inner.requiredCode("code", Calcification.class)),
                fields.objects("objects", 3, each -> each.requiredWhole("whole", 0, 1440)));
    }

    private static final List<String> NAMES = List.of(
            "text",
            "requiredText",
            "code",
            "requiredCode",
            "codes",
            "period",
            "decimal",
            "whole",
            "real",
            "object",
            "objects",
            NAME,
            NUMBER,
            "zq8675309",
            "Marker",
            "zq.marker" + NUMBER);

    private static ObjectNode junkBody(Random random, int depth) {
        ObjectNode body = JsonNodeFactory.instance.objectNode();
        int size = random.nextInt(NAMES.size());
        for (int field = 0; field < size; field++) {
            body.set(NAMES.get(random.nextInt(NAMES.size())), junk(random, depth + 1));
        }
        return body;
    }

    private static JsonNode junk(Random random, int depth) {
        JsonNodeFactory nodes = JsonNodeFactory.instance;
        return switch (random.nextInt(depth > 3 ? 5 : 7)) {
            case 0 -> nodes.stringNode(NAME + (char) random.nextInt(0x20, 0xD800) + NUMBER);
            case 1 -> nodes.numberNode(new BigDecimal((random.nextBoolean() ? "-" : "") + NUMBER + "." + NUMBER));
            case 2 -> nodes.numberNode(Long.parseLong(NUMBER));
            case 3 -> nodes.booleanNode(random.nextBoolean());
            case 4 -> nodes.nullNode();
            case 5 -> {
                ArrayNode array = nodes.arrayNode();
                for (int element = random.nextInt(8); element > 0; element--) {
                    array.add(junk(random, depth + 1));
                }
                yield array;
            }
            default -> junkBody(random, depth);
        };
    }

    private static List<String> errors(String text, Function<Fields, ?> reader) {
        return FieldErrors.in(read(text, reader));
    }

    private static <T> Reading<T> read(String text, Function<Fields, T> reader) {
        return Fields.read(Bodies.json(text.replace('\'', '"').getBytes(StandardCharsets.UTF_8)), reader);
    }
}
