package entrapment.registry.pages;

import entrapment.registry.activity.Activity;
import entrapment.registry.cases.Cases;
import entrapment.registry.exports.CsvWriter;
import entrapment.registry.exports.Table;
import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.Rows;
import entrapment.registry.vocabulary.Period;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Files to begin with: the header and an invented row. */
final class DataTemplates {

    private static final Map<String, String> EXAMPLE = Map.ofEntries(
            Map.entry("caseKey", "example-key-a"),
            Map.entry("ageBand", "70-74"),
            Map.entry("sex", "female"),
            Map.entry("presentation", "chronic-coronary"),
            Map.entry("urgency", "elective"),
            Map.entry("access", "radial"),
            Map.entry("guideFrench", "7"),
            Map.entry("operatorStage", "established"),
            Map.entry("vessel", "rca"),
            Map.entry("position", "mid"),
            Map.entry("calcification", "severe"),
            Map.entry("tortuosity", "moderate"),
            Map.entry("angulation", "45-to-90"),
            Map.entry("totalOcclusion", "no"),
            Map.entry("stentLayers", "0"),
            Map.entry("deviceClass", "rotational-burr"),
            Map.entry("deviceSizeMm", "1.25"),
            Map.entry("mechanism", "passed-beyond-lesion"),
            Map.entry("phase", "final-pass"),
            Map.entry("haemodynamics", "stable"),
            Map.entry("timiFlow", "2"),
            Map.entry("fractured", "no"),
            Map.entry("release", "intact"),
            Map.entry("fragment", "none"),
            Map.entry("dissection", "none"),
            Map.entry("perforation", "none"),
            Map.entry("finalTimiFlow", "3"),
            Map.entry("harm", "mild"),
            Map.entry("procedureEnd", "completed-as-planned"),
            Map.entry("attempt1Technique", "steady-traction"),
            Map.entry("attempt1Result", "no-change"),
            Map.entry("attempt1Minutes", "3"),
            Map.entry("attempt2Technique", "parallel-balloon"),
            Map.entry("attempt2Result", "released"),
            Map.entry("attempt2Minutes", "21"),
            Map.entry("attempt2Enablers", "shaft-cut;sheath-removed"),
            Map.entry("uses", "14"));

    private DataTemplates() {}

    static Optional<String> find(String name, Period period) {
        return switch (name) {
            case "cases.csv" -> Optional.of(csv(Cases.columns(), period));
            case "activity.csv" -> Optional.of(csv(Activity.columns(), period));
            case "cases.ndjson" -> Optional.of(Rows.tree(example(period), Cases.columns()) + "\n");
            default -> Optional.empty();
        };
    }

    private static Map<String, String> example(Period period) {
        Map<String, String> cells = new HashMap<>(EXAMPLE);
        cells.put("period", period.toString());
        return cells;
    }

    private static String csv(List<CsvColumn> columns, Period period) {
        Map<String, String> cells = example(period);
        List<@Nullable Object> row = new ArrayList<>();
        columns.forEach(column -> row.add(cells.get(column.name())));
        return CsvWriter.write(
                new Table(List.of(), columns.stream().map(CsvColumn::name).toList(), List.of(row)), false);
    }
}
