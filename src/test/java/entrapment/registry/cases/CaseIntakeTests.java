package entrapment.registry.cases;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.FieldErrors;
import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Period.Resolution;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

class CaseIntakeTests {

    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-08-15T00:00:00Z"), ZoneOffset.UTC);
    private static final CaseIntake INTAKE = new CaseIntake(CLOCK, new Settings(Resolution.QUARTER, false, 5));
    private static final CaseIntake WITH_IDENTIFIERS = new CaseIntake(CLOCK, new Settings(Resolution.QUARTER, true, 5));
    private static final CaseIntake BY_YEAR = new CaseIntake(CLOCK, new Settings(Resolution.YEAR, false, 5));
    private static final String KEY = "QK7-A4TZ";

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/period",
                "/device/deviceClass",
                "/event/haemodynamics",
                "/attempts",
                "/attempts/0/technique",
                "/attempts/0/result",
                "/outcome/release",
                "/outcome/harm"
            })
    void requiresWhatTheContractRequires(String pointer) {
        JsonNode body = body(CaseSamples.aCase());
        int last = pointer.lastIndexOf('/');
        body.at(pointer.substring(0, last)).asObject().remove(pointer.substring(last + 1));

        assertThat(FieldErrors.in(INTAKE.read(body, KEY))).containsExactly(pointer + " missing");
    }

    @Test
    void requiresNothingElse() {
        JsonNode least = json("""
                {"period": "2026-Q3", "device": {"deviceClass": "filter"}, "event": {"haemodynamics": "unknown"},
                 "attempts": [{"technique": "snare", "result": "no-change"}],
                 "outcome": {"release": "none", "harm": "none"}}""");

        assertThat(FieldErrors.in(INTAKE.read(least, KEY))).isEmpty();
    }

    @Test
    void readsAnEmptyBodyAsEverythingThatIsMissing() {
        assertThat(FieldErrors.in(INTAKE.read(json("{}"))))
                .containsExactly(
                        "/caseKey missing",
                        "/period missing",
                        "/device/deviceClass missing",
                        "/event/haemodynamics missing",
                        "/outcome/release missing",
                        "/outcome/harm missing",
                        "/attempts missing");
    }

    @ParameterizedTest
    @CsvSource({"2026-Q3, ''", "2026-Q4, /period period-in-future"})
    void readsACaseOfTheCurrentQuarterButOfNoLaterOne(String period, String error) {
        assertThat(String.join(", ", errors(CaseSamples.aCase().with("/period", period))))
                .isEqualTo(error);
    }

    @ParameterizedTest
    @CsvSource({
        "2026, ''",
        "2025, ''",
        "2027, /period period-in-future",
        "2026-Q2, /period not-a-period",
        "26, /period not-a-period"
    })
    void readsYearsAloneWhereTheNetworkKeepsYears(String period, String error) {
        JsonNode body = body(CaseSamples.aCase().with("/period", period));

        assertThat(String.join(", ", FieldErrors.in(BY_YEAR.read(body, KEY)))).isEqualTo(error);
    }

    @Test
    void saysWhichResolutionTheNetworkHas() {
        assertThat(details(BY_YEAR.read(body(CaseSamples.aCase()), KEY)))
                .containsExactly("period must be a year, YYYY: the periods of this network are years");
        assertThat(details(INTAKE.read(body(CaseSamples.aCase().with("/period", "2026")), KEY)))
                .containsExactly("period must be a quarter, YYYY-Qn: the periods of this network are quarters");
        assertThat(details(BY_YEAR.read(body(CaseSamples.aCase().with("/period", "2027")), KEY)))
                .containsExactly("period must not be after the current year, 2026");
    }

    private static List<String> details(Reading<KeyedCase> reading) {
        return ((Reading.Refused<KeyedCase>) reading)
                .errors().stream().map(FieldError::detail).toList();
    }

    @ParameterizedTest
    @CsvSource({"12, ''", "13, /attempts too-many"})
    void readsUpToTwelveAttempts(int attempts, String error) {
        CaseSamples sample = CaseSamples.aCase().change(tree -> {
            ArrayNode array = tree.putArray("attempts");
            for (int attempt = 1; attempt <= attempts; attempt++) {
                array.addObject()
                        .put("technique", "snare")
                        .put("result", attempt < attempts ? "no-change" : "released");
            }
        });

        assertThat(String.join(", ", errors(sample))).isEqualTo(error);
    }

    @ParameterizedTest
    @CsvSource({"0, ''", "1440, ''", "1441, out-of-range", "-1, out-of-range", "1439.5, wrong-type"})
    void readsMinutesOfOneDay(double minutes, String error) {
        CaseSamples sample = CaseSamples.aCase().change(tree -> tree.at("/attempts/1")
                .asObject()
                .put("minutesFromEntrapment", minutes)
                .put("result", "released"));

        assertThat(errors(
                        sample.change(tree -> tree.at("/attempts/0").asObject().remove("minutesFromEntrapment"))))
                .isEqualTo(error.isEmpty() ? List.of() : List.of("/attempts/1/minutesFromEntrapment " + error));
    }

    @ParameterizedTest
    @CsvSource({
        "QRM-P6G9G4, ''",
        "short, key-format",
        "case_0001, key-format",
        "case-1234567, key-identifying",
        "12-03-1961, key-identifying"
    })
    void readsOnlyOpaqueKeysOfCasesAndProcedures(String key, String error) {
        String told = error.isEmpty() ? "" : "/caseKey " + error;

        assertThat(String.join(", ", FieldErrors.in(INTAKE.read(body(CaseSamples.aCase()), key))))
                .isEqualTo(told);
        assertThat(String.join(
                        ", ",
                        FieldErrors.in(INTAKE.read(json(CaseSamples.aCase().line(key))))))
                .isEqualTo(told);
        assertThat(String.join(", ", errors(CaseSamples.aCase().with("/procedureKey", key))))
                .isEqualTo(told.replace("caseKey", "procedureKey"));
    }

    @Test
    void aKeyInTheBodyIsTheKeyInThePath() {
        assertThat(FieldErrors.in(INTAKE.read(json(CaseSamples.aCase().line(KEY)), KEY)))
                .isEmpty();
        assertThat(FieldErrors.in(INTAKE.read(json(CaseSamples.aCase().line("QK7-OTHER")), KEY)))
                .containsExactly("/caseKey other-key");
    }

    /**
     * 06291041500213 is the example of GS1's own check digit calculator; 51022222233336 that of the UDI formats of the
     * FDA's issuing agencies [both from memory].
     */
    @ParameterizedTest
    @ValueSource(strings = {"06291041500213", "51022222233336", "00000000000000"})
    void readsADeviceIdentifierWithAValidCheckDigitAlone(String identifier) {
        for (char digit = '0'; digit <= '9'; digit++) {
            String other = identifier.substring(0, 13) + digit;

            assertThat(identifierErrors(WITH_IDENTIFIERS, other))
                    .as(other)
                    .isEqualTo(
                            other.equals(identifier)
                                    ? List.of()
                                    : List.of("/device/deviceIdentifier not-a-device-identifier"));
        }
    }

    @Test
    void seesEveryDigitOfADeviceIdentifierThatIsWrong() {
        String identifier = "51022222233336";
        for (int place = 0; place < 14; place++) {
            char digit = identifier.charAt(place) == '9' ? '0' : (char) (identifier.charAt(place) + 1);
            String wrong = identifier.substring(0, place) + digit + identifier.substring(place + 1);

            assertThat(identifierErrors(WITH_IDENTIFIERS, wrong))
                    .as(wrong)
                    .containsExactly("/device/deviceIdentifier not-a-device-identifier");
        }
    }

    /**
     * UDIs as their issuing agencies write them, after the FDA's UDI formats by issuing agency: GS1 with parentheses, bare,
     * with the FNC1 of a barcode and as a link; HIBC; ICCBBA.
     */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "(01)51022222233336",
                "(01)51022222233336(11)141231(17)150707(10)A213B1(21)1234",
                "0151022222233336",
                "015102222223333611141231171507071",
                "01510222222333361114123117150707",
                "015102222223333611141231171507071" + "0A213B1\u001D211234",
                "]d201510222222333361715070710A213B1\u001D211234",
                "\u001D015102222223333621ABC",
                "01510222222333362112345",
                "51022222233336(21)1234",
                "5102222223333621",
                "https://id.example/01/51022222233336/10/A213B1",
                "+A999123457",
                "+H123PARTNO1234567890120/$$420020216LOT123456789012345/SXYZ456789012345678/16D20130202C",
                "+BLUEUNICORN7N",
                "=/A9999XYZ100T0944=,000025=A99971312345600=>014032=}013032&,1000000000000XYZ123",
                "A9999XYZ100T0944",
                "\uFF15\uFF11\uFF10\uFF12\uFF12\uFF12\uFF12\uFF12\uFF12\uFF13\uFF13\uFF13\uFF13\uFF16",
                "51022222233335",
                "5102222 2233336",
                "5102222-2233336",
                "\n51022222233336",
                "51022222233336 ",
                "5102222223333",
                "510222222333366",
                "6291041500213",
                "5102222223333A",
                "٥١٠٢٢٢٢٢٢٣٣٣٣٦"
            })
    void refusesAnythingBeyondTheDeviceIdentifierItself(String identifier) {
        assertThat(identifierErrors(WITH_IDENTIFIERS, identifier))
                .containsExactly("/device/deviceIdentifier not-a-device-identifier");
        assertThat(identifierErrors(INTAKE, identifier))
                .containsExactly("/device/deviceIdentifier device-identifier-off");
    }

    @Test
    void refusesEvenAValidDeviceIdentifierWhereTheFieldIsOff() {
        assertThat(identifierErrors(INTAKE, "06291041500213"))
                .containsExactly("/device/deviceIdentifier device-identifier-off");
        assertThat(identifierErrors(INTAKE, "")).isEmpty();
    }

    private static List<String> identifierErrors(CaseIntake intake, String identifier) {
        return FieldErrors.in(intake.read(body(CaseSamples.aCase().with("/device/deviceIdentifier", identifier)), KEY));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "93",
                "90",
                "67",
                "67.5",
                "90-94",
                "95-99",
                "100-or-over",
                ">89",
                "70-75",
                "1961",
                "\uFF19\uFF10-or-over"
            })
    void readsAgeInBandsAloneWithNinetyAndOverPooled(String age) {
        assertThat(errors(CaseSamples.aCase().with("/patient/ageBand", age)))
                .containsExactly("/patient/ageBand not-a-code");
        assertThat(errors(CaseSamples.aCase().with("/patient/ageBand", "90-or-over")))
                .isEmpty();
    }

    @Test
    void readsAgeAsNoNumber() {
        assertThat(errors(CaseSamples.aCase().with("/patient/ageBand", 93)))
                .containsExactly("/patient/ageBand wrong-type");
    }

    /** Where somebody would write what the registry must not know. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "/patient/dateOfBirth",
                "/patient/age",
                "/patient/name",
                "/procedure/operator",
                "/procedure/date",
                "/lesion/comment",
                "/device/lot",
                "/device/serialNumber",
                "/event/notes",
                "/attempts/0/operator",
                "/outcome/narrative",
                "/notes",
                "/hospitalNumber"
            })
    void refusesAFieldThatACaseDoesNotHave(String pointer) {
        JsonNode body = body(CaseSamples.aCase());
        put(body, pointer, JsonNodeFactory.instance.stringNode("QK7"));

        assertThat(FieldErrors.in(INTAKE.read(body, KEY))).containsExactly(pointer + " unknown-field");
    }

    @Test
    void refusesFreeTextWhereverACodeBelongs() {
        List<String> texts = places(body(CaseSamples.aCase()), "").stream()
                .filter(pointer -> body(CaseSamples.aCase()).at(pointer).isString())
                .filter(pointer -> !pointer.equals("/period"))
                .toList();
        assertThat(texts).hasSizeGreaterThan(30);
        for (String pointer : texts) {
            JsonNode body = body(CaseSamples.aCase());
            put(body, pointer, JsonNodeFactory.instance.stringNode("see the report of 12 March"));

            assertThat(FieldErrors.in(INTAKE.read(body, KEY))).as(pointer).containsExactly(pointer + " not-a-code");
        }
    }

    @ParameterizedTest
    @CsvSource({
        "procedureKey, QX7-4TZ, ''",
        "procedureKey, 1961-03-12, /procedureKey key-identifying",
        "procedureKey, a name, /procedureKey key-format",
        "deviceIdentifier, 51022222233336, ''",
        "deviceIdentifier, 015102222223333621ABC, /deviceIdentifier not-a-device-identifier",
        "vessel, somebody, /vessel not-a-code",
        "period, 1961-03-12, /period not-a-period",
        "deviceSizeMm, 12.03.61, /deviceSizeMm wrong-type"
    })
    void readsNoFreeTextInTheQueryOfAListOfCases(String name, String value, String error) {
        assertThat(String.join(", ", FieldErrors.in(CaseQuery.of("centre", Map.of(name, List.of(value))))))
                .isEqualTo(error);
    }

    /** What is put at one place of a good case, and must stand in no answer. */
    private static final String MARKER = "Zq Marker 8675309";

    @Test
    void neverRepeatsAValueWhereverItStands() {
        Random random = new Random(20310401);
        List<String> pointers = places(body(CaseSamples.aCase()), "");
        int refused = 0;
        for (int round = 0; round < 3_000; round++) {
            JsonNode body = body(CaseSamples.aCase());
            String pointer = pointers.get(random.nextInt(pointers.size()));
            put(body, pointer, junk(random));
            Reading<KeyedCase> reading = random.nextBoolean()
                    ? INTAKE.read(body, KEY)
                    : WITH_IDENTIFIERS.read(body.asObject().put("caseKey", MARKER));
            List<FieldError> errors = reading instanceof Reading.Refused<KeyedCase> wrong ? wrong.errors() : List.of();
            refused += errors.isEmpty() ? 0 : 1;

            assertThat(errors.toString()).as(pointer).doesNotContain("Zq", "Marker", "8675309");
        }
        assertThat(pointers).hasSizeGreaterThan(40).contains("/attempts/1/enablers/0", "/outcome/harm", "/period");
        assertThat(refused).isGreaterThan(2_900);
    }

    private static List<String> places(JsonNode node, String pointer) {
        List<String> places = new ArrayList<>();
        if (!pointer.isEmpty()) {
            places.add(pointer);
        }
        if (node.isArray()) {
            for (int index = 0; index < node.size(); index++) {
                places.addAll(places(node.get(index), pointer + "/" + index));
            }
        }
        node.properties().forEach(field -> places.addAll(places(field.getValue(), pointer + "/" + field.getKey())));
        return places;
    }

    private static void put(JsonNode body, String pointer, JsonNode value) {
        int last = pointer.lastIndexOf('/');
        JsonNode place = body.at(pointer.substring(0, last));
        String name = pointer.substring(last + 1);
        if (place.isArray()) {
            place.asArray().set(Integer.parseInt(name), value);
        } else {
            place.asObject().set(name, value);
        }
    }

    private static JsonNode junk(Random random) {
        JsonNodeFactory nodes = JsonNodeFactory.instance;
        return switch (random.nextInt(5)) {
            case 0 -> nodes.stringNode(MARKER);
            case 1 -> nodes.numberNode(new BigDecimal("8675309.8675309"));
            case 2 -> nodes.numberNode(-8675309);
            case 3 ->
                nodes.arrayNode()
                        .add(MARKER)
                        .add(8675309)
                        .add(nodes.objectNode().put(MARKER, MARKER));
            default -> {
                ObjectNode object = nodes.objectNode().put(MARKER, MARKER);
                object.putObject("8675309").put(MARKER, 8675309);
                yield object;
            }
        };
    }

    private static List<String> errors(CaseSamples sample) {
        return FieldErrors.in(INTAKE.read(body(sample), KEY));
    }

    private static JsonNode body(CaseSamples sample) {
        return json(sample.json());
    }

    private static JsonNode json(String text) {
        return JsonMapper.shared().readTree(text);
    }
}
