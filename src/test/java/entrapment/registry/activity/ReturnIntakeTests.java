package entrapment.registry.activity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import entrapment.registry.intake.FieldErrors;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Refusal;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Calcification;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.GuideFrench;
import entrapment.registry.vocabulary.OperatorStage;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Period.Resolution;
import entrapment.registry.vocabulary.StentLayers;
import entrapment.registry.vocabulary.Tortuosity;
import entrapment.registry.vocabulary.TotalOcclusion;
import entrapment.registry.vocabulary.Vessel;
import java.io.ByteArrayInputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.json.JsonMapper;

class ReturnIntakeTests {

    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-08-15T00:00:00Z"), ZoneOffset.UTC);
    private static final ReturnIntake INTAKE = new ReturnIntake(CLOCK, new Settings(Resolution.QUARTER, false, 5));
    private static final ReturnIntake BY_YEAR = new ReturnIntake(CLOCK, new Settings(Resolution.YEAR, false, 5));

    /** The header and the first rows of contract, section 4. */
    private static final String CONTRACT = """
            deviceClass,deviceSizeMm,vessel,calcification,tortuosity,totalOcclusion,stentLayers,guideFrench,operatorStage,uses
            rotational-burr,1.25,lad,severe,moderate,no,0,6,established,14
            balloon,,,,,,,,,903
            """;

    private static final UseCount BURRS = new UseCount(
            DeviceClass.ROTATIONAL_BURR,
            new BigDecimal("1.25"),
            Vessel.LAD,
            Calcification.SEVERE,
            Tortuosity.MODERATE,
            TotalOcclusion.NO,
            StentLayers.NONE,
            GuideFrench.F6,
            OperatorStage.ESTABLISHED,
            14);

    private static final UseCount BALLOONS = new UseCount(
            DeviceClass.BALLOON,
            null,
            Vessel.UNKNOWN,
            Calcification.UNKNOWN,
            Tortuosity.UNKNOWN,
            TotalOcclusion.UNKNOWN,
            StentLayers.UNKNOWN,
            GuideFrench.UNKNOWN,
            OperatorStage.UNKNOWN,
            903);

    @Test
    void takesAnEmptyCellForUnknown() {
        CsvReading reading = csv(CONTRACT);

        assertThat(reading.received()).isEqualTo(2);
        assertThat(reading.refusedRows()).isEmpty();
        assertThat(reading.value()).contains(new ActivityReturn(new Period(2026, 2), List.of(BALLOONS, BURRS)));
    }

    @Test
    void readsTheSameReturnFromJson() {
        String rows = """
                [{"deviceClass": "rotational-burr", "deviceSizeMm": 1.25, "vessel": "lad", "calcification": "severe",
                  "tortuosity": "moderate", "totalOcclusion": "no", "stentLayers": "0", "guideFrench": "6",
                  "operatorStage": "established", "uses": 14},
                 {"deviceClass": "balloon", "vessel": "", "calcification": null, "uses": 903}]""";

        assertThat(json(rows, "2026-Q2").orRefuse())
                .isEqualTo(json("{\"rows\": " + rows + "}", "2026-Q2").orRefuse())
                .isEqualTo(csv(CONTRACT).value().orElseThrow());
    }

    @Test
    void namesEachRefusedRowByItsLineAndReadsNoHalfReturn() {
        CsvReading reading = csv(
                "deviceClass,vessel,uses\r\n" // line 1
                        + "balloon,lad,3\r\n"
                        + "balloons,lad,3\r\n"
                        + "\r\n"
                        + "balloon,\"la\r\nd\",4\r\n"
                        + "balloon,lad,4,5\r\n"
                        + "balloon,lad,-4\r\n"
                        + ",,\r\n"
                        + "stent,rca,5\r\n");

        assertThat(reading.value()).isEmpty();
        assertThat(reading.received()).isEqualTo(7);
        assertThat(reading.refusedRows().stream()
                        .map(row -> row.line() + " " + String.join(", ", FieldErrors.in(row.errors()))))
                .containsExactly(
                        "3 /deviceClass not-a-code",
                        "5 /vessel not-a-code",
                        "7  row-shape",
                        "8 /uses out-of-range",
                        "9 /deviceClass missing, /uses missing");
    }

    @ParameterizedTest
    @CsvSource({
        "rotational-burr, 0.99, false",
        "rotational-burr, 1.00, true",
        "rotational-burr, 3.01, false",
        "guidewire, 0.36, true",
        "guidewire, 1.25, false",
        "filter, 6.00, true"
    })
    void refusesASizeThatTheClassCannotHave(String deviceClass, String size, boolean accepted) {
        CsvReading reading = csv("deviceClass,deviceSizeMm,uses\n" + deviceClass + "," + size + ",1\n");

        assertThat(reading.refusedRows().stream().map(row -> FieldErrors.in(row.errors())))
                .isEqualTo(accepted ? List.of() : List.of(List.of("/deviceSizeMm size-for-class")));
    }

    @Test
    void asksForNoSizeOfAClassThatCouldNotBeRead() {
        assertThat(csv("deviceClass,deviceSizeMm,uses\nburr,0.25,1\n").refusedRows().stream()
                        .map(row -> FieldErrors.in(row.errors())))
                .containsExactly(List.of("/deviceClass not-a-code"));
    }

    @ParameterizedTest
    @CsvSource({
        "0, ''",
        "1000000, ''",
        "3.0, ''",
        "1000001, out-of-range",
        "-1, out-of-range",
        "2.5, wrong-type",
        "1e3, wrong-type",
        "many, wrong-type",
        "'', missing"
    })
    void readsUsesFromNoneToAMillion(String uses, String error) {
        assertThat(csv("deviceClass,uses\nballoon," + uses + "\n").refusedRows().stream()
                        .map(row -> String.join(", ", FieldErrors.in(row.errors()))))
                .isEqualTo(error.isEmpty() ? List.of() : List.of("/uses " + error));
    }

    @Test
    void readsAnEmptyReturn() {
        assertThat(csv("deviceClass,uses\n").value()).contains(new ActivityReturn(new Period(2026, 2), List.of()));
        assertThat(json("[]", "2026-Q2").orRefuse()).isEqualTo(new ActivityReturn(new Period(2026, 2), List.of()));
    }

    @Test
    void doesNotTakeAnEmptyObjectForAnEmptyReturn() {
        assertThat(FieldErrors.in(json("{}", "2026-Q2"))).containsExactly("/rows missing");
        assertThat(FieldErrors.in(json("{\"rows\": null}", "2026-Q2"))).containsExactly("/rows missing");
        assertThat(FieldErrors.in(json("{\"rows\": {}}", "2026-Q2"))).containsExactly("/rows wrong-type");
        assertThat(FieldErrors.in(json("7", "2026-Q2"))).contains(" wrong-type");
    }

    @Test
    void answersTheErrorsOfEveryRowOfJsonAtOnce() {
        assertThat(FieldErrors.in(json("""
                        {"rows": [{"deviceClass": "balloon", "uses": 1}, {"uses": 2.5}, 7,
                                  {"deviceClass": "stent", "deviceSizeMm": 7, "uses": 1}],
                         "centre": "north"}""", "2026-Q2")))
                .containsExactly(
                        "/rows/1/deviceClass missing",
                        "/rows/1/uses wrong-type",
                        "/rows/2 wrong-type",
                        "/rows/3/deviceSizeMm out-of-range",
                        "/centre unknown-field");
    }

    @ParameterizedTest
    @CsvSource({"2026-Q3, ''", "2026-Q4, period-in-future", "2026-13, not-a-period", "2026, not-a-period"})
    void readsAReturnOfAQuarterThatHasBegun(String period, String error) {
        List<String> errors = error.isEmpty() ? List.of() : List.of("/period " + error);

        assertThat(FieldErrors.in(json("[]", period))).isEqualTo(errors);
        Refusal refusal = catchThrowableOfType(Refusal.class, () -> INTAKE.readCsv(bytes(CONTRACT), period));
        assertThat(refusal == null ? List.of() : FieldErrors.in(refusal.errors()))
                .isEqualTo(errors);
    }

    @ParameterizedTest
    @CsvSource({"2026, ''", "2027, period-in-future", "2026-Q2, not-a-period"})
    void readsAReturnOfAYearWhereTheNetworkKeepsYears(String period, String error) {
        assertThat(FieldErrors.in(BY_YEAR.readJson(JsonMapper.shared().readTree("[]"), period)))
                .isEqualTo(error.isEmpty() ? List.of() : List.of("/period " + error));
    }

    @ParameterizedTest
    @ValueSource(ints = {20_000, 20_001})
    void readsUpToTwentyThousandRows(int rows) {
        boolean accepted = rows <= 20_000;
        String csv = "deviceClass,uses\n" + "balloon,1\n".repeat(rows);

        Refusal refusal = catchThrowableOfType(Refusal.class, () -> csv(csv));

        assertThat(refusal == null).isEqualTo(accepted);
        assertThat(refusal == null ? Problem.TOO_LARGE : refusal.problem()).isEqualTo(Problem.TOO_LARGE);
        String json = "[" + "{\"deviceClass\":\"balloon\",\"uses\":1},".repeat(rows - 1)
                + "{\"deviceClass\":\"balloon\",\"uses\":1}]";
        assertThat(FieldErrors.in(json(json, "2026-Q2"))).isEqualTo(accepted ? List.of() : List.of(" too-many"));
    }

    @Test
    void pointsIntoTheArrayThatWasSent() {
        assertThat(FieldErrors.in(json("[{\"deviceClass\": \"balloon\"}]", "2026-Q2")))
                .containsExactly("/0/uses missing");
    }

    @Test
    void countsRefusedRowsAmongTheTwentyThousand() {
        String csv = "deviceClass,uses\n" + "balloon,1\nballoon,-1\n".repeat(10_000);

        assertThat(csv(csv).received()).isEqualTo(20_000);
        assertThat(catchThrowableOfType(Refusal.class, () -> csv(csv + "balloon,1\n"))
                        .problem())
                .isEqualTo(Problem.TOO_LARGE);
    }

    @Test
    void refusesAColumnThatAReturnDoesNotHave() {
        Refusal refusal = catchThrowableOfType(Refusal.class, () -> csv("deviceClass,angulation,uses\nballoon,,1\n"));

        assertThat(FieldErrors.in(refusal.errors())).containsExactly("/columns/1 unknown-column");
    }

    private static CsvReading csv(String body) {
        return INTAKE.readCsv(bytes(body), "2026-Q2");
    }

    private static Reading<ActivityReturn> json(String body, String period) {
        return INTAKE.readJson(JsonMapper.shared().readTree(body), period);
    }

    private static ByteArrayInputStream bytes(String body) {
        return new ByteArrayInputStream(body.getBytes(StandardCharsets.UTF_8));
    }
}
