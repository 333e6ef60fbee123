package entrapment.registry.exports;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A table for other programs.
 *
 * @param comments what must be said beside the table, a line each
 * @param columns names, in order
 * @param rows cells in the order of the columns: text, whole numbers, decimal numbers, or null for an empty cell
 */
public record Table(List<String> comments, List<String> columns, List<List<@Nullable Object>> rows) {

    public Table {
        comments = List.copyOf(comments);
        columns = List.copyOf(columns);
        rows = checked(rows, columns.size());
    }

    /** The rows, if each has as many cells as there are columns. */
    static List<List<@Nullable Object>> checked(List<List<@Nullable Object>> rows, int columns) {
        for (List<@Nullable Object> row : rows) {
            if (row.size() != columns) {
                throw new IllegalArgumentException("a row must have " + columns + " cells, got " + row.size());
            }
        }
        return Collections.unmodifiableList(new ArrayList<>(rows));
    }
}
