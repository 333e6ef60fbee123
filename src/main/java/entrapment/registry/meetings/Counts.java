package entrapment.registry.meetings;

import entrapment.registry.exports.Table;
import entrapment.registry.reports.Report;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** What a report counted, read from its table by the names of the columns. */
record Counts(Table table) {

    static Counts of(Report report) {
        return new Counts(report.table());
    }

    /** A row of the table by the names of its columns. */
    record Row(List<String> columns, List<@Nullable Object> cells) {

        String text(String column) {
            return String.valueOf(cells.get(columns.indexOf(column)));
        }

        /** 0 where the cell is empty. */
        long count(String column) {
            return cells.get(columns.indexOf(column)) instanceof Long count ? count : 0;
        }
    }

    Stream<Row> rows() {
        return table.rows().stream().map(cells -> new Row(table.columns(), cells));
    }

    /** One column of the rows that are asked for, added up. */
    long sum(Predicate<Row> which, String column) {
        return rows().filter(which).mapToLong(row -> row.count(column)).sum();
    }

    /** The report's notes, which stand in the table's comments. */
    List<String> notes() {
        String mark = " note: ";
        return table.comments().stream()
                .filter(comment -> comment.startsWith(mark))
                .map(comment -> comment.substring(mark.length()))
                .toList();
    }
}
