package entrapment.registry.meetings;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Table;
import java.util.List;
import java.util.Map;

/** TEMPORARY until Report.answer() is here. */
final class TableAnswer {
    private TableAnswer() {}

    static Answer of(Table table) {
        List<Column> columns = java.util.stream.IntStream.range(
                        0, table.columns().size())
                .mapToObj(index -> {
                    Object sample = table.rows().stream()
                            .map(row -> row.get(index))
                            .filter(java.util.Objects::nonNull)
                            .findFirst()
                            .orElse("");
                    return Column.of(
                            table.columns().get(index),
                            sample instanceof Double
                                    ? Column.Kind.NUMBER
                                    : sample instanceof Long ? Column.Kind.COUNT : Column.Kind.TEXT);
                })
                .toList();
        String question = table.comments().get(0).strip();
        return new Answer(
                question,
                question,
                "",
                List.of(new Exhibit(question, "", null, columns, table.rows())),
                List.of(),
                entrapment.registry.reports.Reports.CAUTIONS,
                new Answer.Basis("", "", 0, null, Map.of(), 0.95));
    }
}
