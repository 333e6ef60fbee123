package entrapment.registry.exports;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A figure and the table with the same numbers. A page shows both under each other, a slide beside each other.
 *
 * @param title what it shows, in a few words
 * @param sentence what it says, in one sentence; may be empty
 * @param figure null where a table says it all
 * @param columns of the table
 * @param rows cells in the order of the columns: text, whole numbers, decimal numbers, {@link Limits}, or null
 */
public record Exhibit(
        String title,
        String sentence,
        @Nullable Figure figure,
        List<Column> columns,
        List<List<@Nullable Object>> rows) {

    public Exhibit {
        columns = List.copyOf(columns);
        rows = Table.checked(rows, columns.size());
    }
}
