package entrapment.registry.cases;

import static java.util.stream.Collectors.joining;
import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.exports.CsvWriter;
import entrapment.registry.exports.Table;
import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Rows;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Field;
import entrapment.registry.vocabulary.Period.Resolution;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class CaseColumnsTests {

    private static final CaseIntake INTAKE = new CaseIntake(
            Clock.fixed(Instant.parse("2026-08-15T00:00:00Z"), ZoneOffset.UTC),
            new Settings(Resolution.QUARTER, true, 5));

    @Test
    void everyLeafOfACaseIsAColumn() {
        JsonNode tree = tree(full());

        assertThat(leaves(tree, ""))
                .filteredOn(pointer -> !pointer.startsWith("/attempts/"))
                .containsExactlyElementsOf(CaseColumns.LEAVES.stream()
                        .map(leaf -> leaf.csv().pointer())
                        .toList());
        assertThat(leaves(tree.at("/attempts/0"), ""))
                .containsExactlyElementsOf(CaseColumns.ATTEMPT.stream()
                        .map(leaf -> leaf.csv().pointer())
                        .toList());
    }

    @Test
    void everyFieldIsAColumn() {
        assertThat(CaseColumns.columns().stream().map(CaseColumn::field)).containsAll(List.of(Field.values()));
    }

    @Test
    void everySetIsASetAndEveryNumberANumber() {
        JsonNode tree = tree(full());
        for (CsvColumn column : CaseColumns.csv()) {
            JsonNode value = tree.at(column.pointer());

            assertThat(column.kind())
                    .as(column.name())
                    .isEqualTo(
                            value.isArray()
                                    ? CsvColumn.Kind.SET
                                    : value.isNumber() ? CsvColumn.Kind.NUMBER : CsvColumn.Kind.TEXT);
        }
    }

    @Test
    void namesTheColumnsAsTheContractDoes() {
        List<String> names = CaseColumns.csv().stream().map(CsvColumn::name).toList();

        assertThat(names).doesNotHaveDuplicates().hasSize(1 + 35 + 12 * 4);
        assertThat(names).startsWith("caseKey", "period", "procedureKey", "ageBand", "sex", "presentation");
        assertThat(names)
                .containsSequence(
                        "procedureEnd",
                        "attempt1Technique",
                        "attempt1Result",
                        "attempt1Minutes",
                        "attempt1Enablers",
                        "attempt2Technique")
                .endsWith("attempt12Technique", "attempt12Result", "attempt12Minutes", "attempt12Enablers");
    }

    @Test
    void namesTheColumnsOfTheDatabaseInSnakeCase() {
        assertThat(CaseColumns.sqlList(CaseColumns.ATTEMPT))
                .isEqualTo("technique, result, minutes_from_entrapment, enablers");
        assertThat(CaseColumns.sqlList(CaseColumns.LEAVES))
                .startsWith("period, procedure_key, age_band,")
                .contains(", device_size_mm, ", ", final_timi_flow, ");
    }

    @Test
    void aCaseAsCsvIsTheSameCase() {
        List<KeyedCase> cases =
                List.of(full(), least(), read(CaseSamples.aCase().line("QK7-A4TZ")));

        List<KeyedCase> returned = new ArrayList<>();
        Rows.csv(
                new ByteArrayInputStream(csv(cases).getBytes(StandardCharsets.UTF_8)),
                CaseColumns.csv(),
                row -> returned.add(INTAKE.read(((Reading.Valid<JsonNode>) row.tree()).value())
                        .orRefuse()));

        assertThat(returned).isEqualTo(cases);
    }

    /** The CSV of contract, section 9, made from the JSON. */
    private static String csv(List<KeyedCase> cases) {
        List<List<Object>> rows = new ArrayList<>();
        for (KeyedCase keyed : cases) {
            JsonNode tree = tree(keyed).asObject().put("caseKey", keyed.caseKey());
            rows.add(CaseColumns.csv().stream()
                    .<Object>map(column -> cell(tree.at(column.pointer())))
                    .toList());
        }
        return CsvWriter.write(
                new Table(
                        List.of(),
                        CaseColumns.csv().stream().map(CsvColumn::name).toList(),
                        List.copyOf(rows)),
                false);
    }

    private static String cell(JsonNode value) {
        return value.isArray()
                ? value.valueStream().map(JsonNode::stringValue).collect(joining(";"))
                : value.isNull() || value.isMissingNode() ? "" : value.asString();
    }

    @Test
    void writesACaseAsOneLineOfTheDatabasesCopyText() {
        assertThat(CaseColumns.copyLine(
                        Stream.of("1", "QK7-A4TZ"),
                        CaseColumns.ATTEMPT,
                        full().content().attempts().get(0)))
                .isEqualTo("1\tQK7-A4TZ\tsteady-traction\tno-change\t0\t{shaft-cut,second-access}\n");
        assertThat(CaseColumns.copyLine(
                        Stream.of("1"),
                        CaseColumns.ATTEMPT,
                        least().content().attempts().get(0)))
                .isEqualTo("1\tsnare\tno-change\t\\N\t{}\n");
        assertThat(CaseColumns.copyLine(Stream.of("1"), CaseColumns.LEAVES, full().content()))
                .isEqualTo("1\t2026-Q3\tPROC-7F\t70-74\tfemale\tchronic-coronary\telective\tradial\t6\tin-training\t"
                        + "rca\tmid\t2\tsevere\tmoderate\t45-to-90\tno\t0\trotational-burr\t1.25\t06291041500213\t"
                        + "passed-beyond-lesion\tfinal-pass\tstable\tA\t2\tno\tpartial\tin-vessel\tB\tI\t3\t"
                        + "{periprocedural-mi,stroke}\tscai\tsevere\tcompleted-otherwise\n");
    }

    /** A case in which every field is given. */
    private static KeyedCase full() {
        return read("""
                {"caseKey": "QK7-A4TZ", "period": "2026-Q3", "procedureKey": "PROC-7F",
                 "patient": {"ageBand": "70-74", "sex": "female"},
                 "procedure": {"presentation": "chronic-coronary", "urgency": "elective", "access": "radial",
                               "guideFrench": "6", "operatorStage": "in-training"},
                 "lesion": {"vessel": "rca", "position": "mid", "segment": "2", "calcification": "severe",
                            "tortuosity": "moderate", "angulation": "45-to-90", "totalOcclusion": "no",
                            "stentLayers": "0"},
                 "device": {"deviceClass": "rotational-burr", "deviceSizeMm": 1.250,
                            "deviceIdentifier": "06291041500213"},
                 "event": {"mechanism": "passed-beyond-lesion", "phase": "final-pass", "haemodynamics": "stable",
                           "shockStage": "A", "timiFlow": "2", "fractured": "no"},
                 "attempts": [%s],
                 "outcome": {"release": "partial", "fragment": "in-vessel", "dissection": "B", "perforation": "I",
                             "finalTimiFlow": "3", "complications": ["stroke", "periprocedural-mi"],
                             "miDefinition": "scai", "harm": "severe", "procedureEnd": "completed-otherwise"}}""".formatted(Stream.iterate(0, minutes -> minutes + 120)
                .limit(12)
                .map("""
                                {"technique": "steady-traction", "result": "no-change", "minutesFromEntrapment": %d,
                                 "enablers": ["second-access", "shaft-cut"]}"""::formatted)
                .collect(joining(", "))));
    }

    /** A case in which only the required fields are given. */
    private static KeyedCase least() {
        return read("""
                {"caseKey": "QK7-B5UZ", "period": "1990-Q1", "device": {"deviceClass": "other"},
                 "event": {"haemodynamics": "unknown"}, "attempts": [{"technique": "snare", "result": "no-change"}],
                 "outcome": {"release": "none", "harm": "none"}}""");
    }

    private static KeyedCase read(String json) {
        return INTAKE.read(JsonMapper.shared().readTree(json)).orRefuse();
    }

    private static JsonNode tree(KeyedCase keyed) {
        return JsonMapper.shared().valueToTree(keyed.content());
    }

    private static List<String> leaves(JsonNode node, String pointer) {
        List<String> leaves = new ArrayList<>();
        if (node.isObject()) {
            node.properties().forEach(field -> leaves.addAll(leaves(field.getValue(), pointer + "/" + field.getKey())));
        } else if (node.isArray() && node.path(0).isObject()) {
            leaves.addAll(leaves(node.get(0), pointer + "/0"));
        } else {
            leaves.add(pointer);
        }
        return leaves;
    }
}
