package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A table of counts as it is printed, some of its cells hidden.
 *
 * @param cells row by row, each row as long as the first; {@code null} for a hidden cell
 * @param rowTotals one for each row; {@code null} for a total that is not printed
 * @param columnTotals one for each column; {@code null} for a total that is not printed
 */
public record PublishedTable(
        List<List<@Nullable Long>> cells, List<@Nullable Long> rowTotals, List<@Nullable Long> columnTotals) {

    /** An audit goes through every cell; larger tables are to be released in parts. */
    static final int LARGEST_TABLE = 10_000;

    /** @throws IllegalArgumentException if the table is empty, too large or not a rectangle, or a count out of its range */
    public PublishedTable {
        cells = cells.stream()
                .<List<@Nullable Long>>map(row -> Collections.unmodifiableList(new ArrayList<>(row)))
                .toList();
        requireRectangle(cells);
        Counts.require("number of row totals", rowTotals.size(), cells.size(), cells.size());
        Counts.require(
                "number of column totals",
                columnTotals.size(),
                cells.get(0).size(),
                cells.get(0).size());
        rowTotals = Collections.unmodifiableList(new ArrayList<>(rowTotals));
        columnTotals = Collections.unmodifiableList(new ArrayList<>(columnTotals));
        cells.forEach(row -> row.forEach(cell -> require("cell", cell)));
        rowTotals.forEach(total -> require("row total", total));
        columnTotals.forEach(total -> require("column total", total));
    }

    /** @throws IllegalArgumentException if there is no row or column, rows differ in length, or there are too many cells */
    static void requireRectangle(List<? extends List<?>> cells) {
        Counts.require("number of rows", cells.size(), 1, LARGEST_TABLE);
        int columns = cells.get(0).size();
        Counts.require("number of columns", columns, 1, LARGEST_TABLE / cells.size());
        cells.forEach(row -> Counts.require("cells in a row", row.size(), columns, columns));
    }

    private static void require(String name, @Nullable Long count) {
        if (count != null) {
            Counts.require(name, count);
        }
    }

    boolean hidden(int row, int column) {
        return cells.get(row).get(column) == null;
    }

    /** How far the hidden cells can be moved. */
    Transport transport() {
        int rows = cells.size();
        int columns = columnTotals.size();
        boolean[][] hidden = new boolean[rows][columns];
        @Nullable Long[] rowRest = rowTotals.toArray(new Long[0]);
        @Nullable Long[] columnRest = columnTotals.toArray(new Long[0]);
        for (int i = 0; i < rows; i++) {
            for (int j = 0; j < columns; j++) {
                Long printed = cells.get(i).get(j);
                hidden[i][j] = printed == null;
                if (printed != null) {
                    rowRest[i] = less(rowRest[i], printed);
                    columnRest[j] = less(columnRest[j], printed);
                }
            }
        }
        return new Transport(hidden, rowRest, columnRest);
    }

    private static @Nullable Long less(@Nullable Long total, long printed) {
        return total == null ? null : Long.valueOf(total - printed);
    }
}
