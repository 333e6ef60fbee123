package entrapment.registry.calculations;

import static entrapment.registry.calculations.CountFields.MOST;

import entrapment.registry.intake.Entry;
import entrapment.registry.intake.Fields;
import entrapment.registry.stats.PublishedTable;
import entrapment.registry.stats.SuppressionAnalysis;
import entrapment.registry.stats.SuppressionAuditAnalysis;
import entrapment.registry.stats.TableCell;
import java.util.List;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Bodies of tables with small counts. */
final class DisclosureCalculations {

    /** Rows and columns: the search for cells to hide grows fast. */
    private static final int LARGEST_SIDE = 60;

    private static final int CUSTOMARY_THRESHOLD = 5;

    private DisclosureCalculations() {}

    static Supplier<Record> suppression(Fields fields) {
        List<List<Long>> cells = cells(fields, cell -> cell.whole(0, MOST));
        int threshold = threshold(fields);
        return () -> SuppressionAnalysis.of(cells, threshold);
    }

    /** A hidden cell or total is null. Without {@code primary} every hidden cell counts as one to be protected. */
    static Supplier<Record> audit(Fields fields) {
        List<List<@Nullable Long>> cells = cells(fields, DisclosureCalculations::printed);
        List<@Nullable Long> rowTotals = totals(fields, "rowTotals", cells.size());
        List<@Nullable Long> columnTotals = totals(
                fields, "columnTotals", cells.isEmpty() ? 0 : cells.get(0).size());
        int threshold = threshold(fields);
        if (!fields.has("primary")) {
            return () -> SuppressionAuditAnalysis.of(new PublishedTable(cells, rowTotals, columnTotals), threshold);
        }
        List<TableCell> primary = fields.requiredObjects(
                "primary",
                LARGEST_SIDE * LARGEST_SIDE,
                cell -> new TableCell((int) cell.requiredWhole("row", 1, LARGEST_SIDE), (int)
                        cell.requiredWhole("column", 1, LARGEST_SIDE)));
        for (int index = 0; index < primary.size() && fields.sound("/cells"); index++) {
            if (!hidden(cells, primary.get(index))) {
                fields.refuseAt("/primary/" + index, "not-hidden", "a primary cell must be one of the hidden ones");
            }
        }
        return () ->
                SuppressionAuditAnalysis.of(new PublishedTable(cells, rowTotals, columnTotals), threshold, primary);
    }

    /** Rows of equal length. */
    private static <T> List<List<T>> cells(Fields fields, Function<Entry, T> reader) {
        List<List<T>> cells = fields.list("cells", LARGEST_SIDE, row -> row.list(LARGEST_SIDE, reader));
        if (fields.sound("/cells") && (cells.isEmpty() || cells.get(0).isEmpty())) {
            fields.refuse("cells", "too-few", "cells must have at least one row and one column");
        }
        for (int row = 1; row < cells.size(); row++) {
            if (cells.get(row).size() != cells.get(0).size() && fields.sound("/cells")) {
                fields.refuseAt("/cells/" + row, "wrong-length", "each row must have as many cells as the first");
            }
        }
        return cells;
    }

    private static List<@Nullable Long> totals(Fields fields, String name, int size) {
        List<@Nullable Long> totals = fields.list(name, LARGEST_SIDE, DisclosureCalculations::printed);
        if (totals.size() != size && fields.sound("/cells") && fields.sound("/" + name)) {
            fields.refuse(name, "wrong-length", name + " must have as many entries as cells does");
        }
        return totals;
    }

    private static @Nullable Long printed(Entry entry) {
        return entry.isNull() ? null : Long.valueOf(entry.whole(0, MOST));
    }

    private static boolean hidden(List<List<@Nullable Long>> cells, TableCell cell) {
        return cell.row() <= cells.size()
                && cell.column() <= cells.get(cell.row() - 1).size()
                && cells.get(cell.row() - 1).get(cell.column() - 1) == null;
    }

    private static int threshold(Fields fields) {
        Long threshold = fields.whole("threshold", 2, 100);
        return threshold == null ? CUSTOMARY_THRESHOLD : threshold.intValue();
    }
}
