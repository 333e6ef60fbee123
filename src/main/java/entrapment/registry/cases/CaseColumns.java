package entrapment.registry.cases;

import static java.util.stream.Collectors.joining;

import entrapment.registry.intake.CsvColumn;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import tools.jackson.databind.JsonNode;

/**
 * The leaves of a case: the same field as a place in JSON, a column of CSV (contract, section 9) and a column of the
 * table {@code case_version}. Written down once, here, so that the three cannot drift apart.
 */
final class CaseColumns {

    /** What stands outside the attempts, in the order of a CSV row. */
    static final List<CsvColumn> LEAVES = Stream.of(
                    "/period",
                    "/procedureKey",
                    "/patient/ageBand",
                    "/patient/sex",
                    "/procedure/presentation",
                    "/procedure/urgency",
                    "/procedure/access",
                    "/procedure/guideFrench",
                    "/procedure/operatorStage",
                    "/lesion/vessel",
                    "/lesion/position",
                    "/lesion/segment",
                    "/lesion/calcification",
                    "/lesion/tortuosity",
                    "/lesion/angulation",
                    "/lesion/totalOcclusion",
                    "/lesion/stentLayers",
                    "/device/deviceClass",
                    "/device/deviceSizeMm",
                    "/device/deviceIdentifier",
                    "/event/mechanism",
                    "/event/phase",
                    "/event/haemodynamics",
                    "/event/shockStage",
                    "/event/timiFlow",
                    "/event/fractured",
                    "/outcome/release",
                    "/outcome/fragment",
                    "/outcome/dissection",
                    "/outcome/perforation",
                    "/outcome/finalTimiFlow",
                    "/outcome/complications",
                    "/outcome/miDefinition",
                    "/outcome/harm",
                    "/outcome/procedureEnd")
            .map(CaseColumns::leaf)
            .toList();

    /** The columns of {@code attempt} that hold what was sent. */
    static final List<CsvColumn> ATTEMPT = List.of(
            new CsvColumn("technique", "/technique", CsvColumn.Kind.TEXT),
            new CsvColumn("result", "/result", CsvColumn.Kind.TEXT),
            new CsvColumn("minutesFromEntrapment", "/minutesFromEntrapment", CsvColumn.Kind.NUMBER),
            new CsvColumn("enablers", "/enablers", CsvColumn.Kind.SET));

    private CaseColumns() {}

    private static CsvColumn leaf(String pointer) {
        String name = pointer.substring(pointer.lastIndexOf('/') + 1);
        return new CsvColumn(
                name,
                pointer,
                switch (name) {
                    case "deviceSizeMm" -> CsvColumn.Kind.NUMBER;
                    case "complications" -> CsvColumn.Kind.SET;
                    default -> CsvColumn.Kind.TEXT;
                });
    }

    /** Every column that a file of cases may have: the key, the leaves, and up to twelve attempts. */
    static List<CsvColumn> csv() {
        List<CsvColumn> columns = new ArrayList<>();
        columns.add(new CsvColumn("caseKey", "/caseKey", CsvColumn.Kind.TEXT));
        columns.addAll(LEAVES);
        for (int number = 1; number <= EntrapmentCase.MOST_ATTEMPTS; number++) {
            for (CsvColumn column : ATTEMPT) {
                String part = column.name().startsWith("minutes") ? "minutes" : column.name();
                String name = "attempt" + number + part.substring(0, 1).toUpperCase(Locale.ROOT) + part.substring(1);
                columns.add(new CsvColumn(name, "/attempts/" + (number - 1) + column.pointer(), column.kind()));
            }
        }
        return columns;
    }

    /** The column's name in the database. */
    static String sql(CsvColumn column) {
        return column.name().replaceAll("([A-Z])", "_$1").toLowerCase(Locale.ROOT);
    }

    static String sqlList(List<CsvColumn> columns) {
        return columns.stream().map(CaseColumns::sql).collect(joining(", "));
    }

    /** For each field that can be unknown or absent, the condition under which it is, on {@code case_version c}. */
    static Map<String, String> unknown() {
        Map<String, String> unknown = new LinkedHashMap<>();
        for (CsvColumn column : LEAVES) {
            List<? extends Code> codes = Vocabulary.fields().getOrDefault(column.name(), List.of());
            if (codes.stream().anyMatch(code -> code.code().equals(Factor.UNKNOWN))) {
                String condition = "c.%s = '%s'".formatted(sql(column), Factor.UNKNOWN);
                String meaning = meaning(column.name());
                unknown.put(column.name(), meaning.equals("true") ? condition : condition + " and " + meaning);
            } else if (List.of("segment", "deviceSizeMm").contains(column.name())) {
                unknown.put(column.name(), "c." + sql(column) + " is null");
            }
        }
        unknown.put(
                CompletenessTally.MINUTES,
                "exists (select 1 from attempt a where a.revision = c.revision and a.minutes_from_entrapment is null)");
        return unknown;
    }

    /** The condition under which a field means something: a definition of infarction needs an infarction. */
    static String meaning(String field) {
        return field.equals("miDefinition") ? "'periprocedural-mi' = any (c.complications)" : "true";
    }

    /** One line of the database's COPY text; no accepted value holds a character that COPY would escape. */
    static String copyLine(Stream<String> first, List<CsvColumn> columns, JsonNode tree) {
        return Stream.concat(first, columns.stream().map(column -> copyText(tree.at(column.pointer()))))
                        .collect(joining("\t"))
                + "\n";
    }

    private static String copyText(JsonNode value) {
        if (value.isNull() || value.isMissingNode()) {
            return "\\N";
        }
        if (value.isArray()) {
            return StreamSupport.stream(value.spliterator(), false)
                    .map(JsonNode::asString)
                    .collect(joining(",", "{", "}"));
        }
        return value.isNumber() ? value.decimalValue().toPlainString() : value.asString();
    }
}
