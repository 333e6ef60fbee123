package entrapment.registry.cases.web;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.cases.CaseColumn;
import entrapment.registry.cases.CaseColumns;
import entrapment.registry.cases.CaseSamples;
import entrapment.registry.intake.FieldError;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

class CaseFormTests {

    private static final JsonNode CASE =
            JsonMapper.shared().readTree(CaseSamples.aCase().json());

    private static CaseForm form() {
        return CaseForm.of(CaseSamples.aCase().keyed("QRM-KFHW"));
    }

    @Test
    void aCaseComesBackFromItsFormAsItWas() {
        ObjectNode expected = CASE.deepCopy().asObject();
        expected.put("caseKey", "QRM-KFHW");
        expected.withObject("/outcome").put("miDefinition", "unknown").remove("complications");

        assertThat(JsonMapper.shared().readTree(form().tree().toString())).isEqualTo(expected);
    }

    @Test
    void theFormHasEveryFieldOfACase() {
        assertThat(Stream.of(Section.values()).flatMap(section -> section.fields().stream()))
                .containsExactlyInAnyOrderElementsOf(CaseColumns.columns().stream()
                        .filter(column -> column.attempt() == 0)
                        .map(CaseColumn::field)
                        .toList());
    }

    @Test
    void readsWhatABrowserSends() {
        CaseForm form = CaseForm.of(Map.of(
                "deviceSizeMm", List.of(" 1,25 "),
                "complications", List.of("tamponade", "stroke"),
                "attempt2Technique", List.of("snare"),
                "vessel", List.of(""),
                "somethingElse", List.of("x")));

        assertThat(form.attempts()).isEqualTo(2);
        assertThat(form.tree().at("/device/deviceSizeMm").decimalValue()).isEqualByComparingTo("1.25");
        assertThat(form.tree().at("/outcome/complications")).hasSize(2);
        assertThat(form.tree().at("/attempts/1/technique").asString()).isEqualTo("snare");
        assertThat(form.tree().has("lesion")).isFalse();
    }

    @ParameterizedTest
    @CsvSource({
        "up-2, parallel-balloon;steady-traction",
        "down-1, parallel-balloon;steady-traction",
        "remove-1, parallel-balloon",
        "remove-2, steady-traction",
        "up-1, steady-traction;parallel-balloon",
        "down-2, steady-traction;parallel-balloon",
        "up-9, steady-traction;parallel-balloon",
        "remove-0, steady-traction;parallel-balloon"
    })
    void attemptsMoveWithAllTheirFields(String action, String techniques) {
        JsonNode attempts = form().after(action).tree().get("attempts");

        assertThat(attempts.valueStream().map(each -> each.get("technique").asString()))
                .containsExactly(techniques.split(";", -1));
        assertThat(attempts.valueStream()
                        .filter(each -> each.get("technique").asString().equals("parallel-balloon"))
                        .map(each -> each.get("enablers").size()))
                .allMatch(size -> size == 2);
    }

    @Test
    void hasRoomForTwelveAttemptsAndAlwaysForOne() {
        CaseForm form = form();
        for (int times = 0; times < 20; times++) {
            form = form.after("add-attempt");
        }
        assertThat(form.attempts()).isEqualTo(12);
        for (int times = 0; times < 20; times++) {
            form = form.after("remove-1");
        }
        assertThat(form.attempts()).isEqualTo(1);
        assertThat(form.tree().has("attempts")).isFalse();
    }

    @ParameterizedTest
    @CsvSource({
        "/device/deviceSizeMm, deviceSizeMm",
        "/attempts, attempt1Technique",
        "/attempts/2, attempt3Technique",
        "/attempts/2/minutesFromEntrapment, attempt3Minutes",
        "/attempts/11/enablers/1, attempt12Enablers",
        "/outcome/complications/0, complications",
        "/caseKey, caseKey"
    })
    void anErrorLeadsToItsField(String pointer, String column) {
        assertThat(CaseForm.byColumn(List.of(new FieldError(pointer, "missing", ""))))
                .containsOnlyKeys(column);
    }

    @ParameterizedTest
    @CsvSource({
        "caseKey, QRM-KFHW, QRM-KFHW",
        "caseKey, 1961-03-12, ''",
        "caseKey, case-1234567, ''",
        "caseKey, a name, ''",
        "vessel, rca, rca",
        "vessel, somebody, ''",
        "complications, stroke;somebody, stroke",
        "deviceSizeMm, 9.99, 9.99",
        "deviceSizeMm, 5550123, ''",
        "attempt1Minutes, 21, 21",
        "attempt1Minutes, room 4, ''",
        "period, 2026-Q2, 2026-Q2",
        "period, 12 March, ''"
    })
    void showsNothingAgainThatMayNameSomebody(String column, String typed, String shown) {
        assertThat(CaseForm.of(Map.of(column, List.of(typed))).shown().values().get(column))
                .isEqualTo(shown);
    }
}
