package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BiPredicate;

/**
 * What can a reader work out about the hidden cells of a table from what is printed?
 *
 * @param consistent whether any table agrees with the printed cells and totals
 * @param suppressedCells one for each hidden cell, row by row; empty if not consistent
 * @param safe whether every hidden cell, or every marked one, is protected
 * @param notes what is given away
 */
public record SuppressionAuditAnalysis(
        boolean consistent, List<SuppressedCell> suppressedCells, boolean safe, List<Note> notes) {

    /**
     * What is known of a hidden cell. An answer spells {@code isProtected} as {@code protected}, a word that Java keeps for
     * itself.
     *
     * @param row from 1
     * @param column from 1
     * @param minimum the smallest count that agrees with what is printed
     * @param maximum the largest one; infinite if nothing printed bounds it
     * @param exactlyDisclosed whether they are the same
     * @param isProtected whether maximum ≥ k and maximum−minimum ≥ k−1
     */
    public record SuppressedCell(
            int row, int column, long minimum, double maximum, boolean exactlyDisclosed, boolean isProtected) {

        private static SuppressedCell of(Transport transport, int row, int column, int threshold) {
            long minimum = transport.minimum(row, column);
            double maximum = transport.maximum(row, column);
            return new SuppressedCell(
                    row + 1,
                    column + 1,
                    minimum,
                    maximum,
                    minimum == maximum,
                    SmallCounts.protects((double) minimum, maximum, threshold));
        }
    }

    /** The audit in which every hidden cell must be protected. */
    public static SuppressionAuditAnalysis of(PublishedTable table, int threshold) {
        return audit(table, threshold, (row, column) -> true);
    }

    /**
     * The audit in which the marked cells, those that hold small counts, must be protected.
     *
     * <p>Valid for one table of counts; the same cells in other tables, sub-totals or earlier releases need a joint audit.
     * Unknown counts are whole and ≥ 0 and agree with every printed total; each is made as small and as large as possible,
     * exactly, by maximum flows. A cell is protected if its maximum is at least k and its range at least k−1.
     *
     * <p>Edges: printed figures that contradict each other: {@code consistent} false, no cells, not safe. A cell whose row and
     * column totals are both hidden may be unbounded.
     *
     * <p><b>Same as</b> R {@code lpSolve::lp} run for the minimum and maximum of each cell; flows of whole numbers reach the
     * same corners [1]. Exact in whole numbers.
     *
     * <p>[1] Gusfield D, SIAM J Comput 1988;17:552. Rules: Hundepool A et al., Statistical Disclosure Control, Wiley 2012.
     *
     * @param threshold k in [2, 100]: counts from 1 to k−1 are small
     * @param marked cells counted from 1, each of them hidden
     * @throws IllegalArgumentException if the threshold is out of its range or a marked cell is not hidden
     */
    public static SuppressionAuditAnalysis of(PublishedTable table, int threshold, List<TableCell> marked) {
        for (TableCell cell : marked) {
            Counts.require("row", cell.row(), 1, table.rowTotals().size());
            Counts.require("column", cell.column(), 1, table.columnTotals().size());
            if (!table.hidden(cell.row() - 1, cell.column() - 1)) {
                throw new IllegalArgumentException(
                        "a marked cell must be hidden, got row " + cell.row() + ", column " + cell.column());
            }
        }
        return audit(table, threshold, (row, column) -> marked.contains(new TableCell(row + 1, column + 1)));
    }

    private static SuppressionAuditAnalysis audit(
            PublishedTable table, int threshold, BiPredicate<Integer, Integer> counts) {
        SmallCounts.requireThreshold(threshold);
        Transport transport = table.transport();
        if (!transport.consistent()) {
            return new SuppressionAuditAnalysis(
                    false,
                    List.of(),
                    false,
                    List.of(new Note(
                            NoteCode.INCONSISTENT,
                            "The printed cells and totals contradict each other: no table agrees with them.")));
        }
        List<SuppressedCell> cells = new ArrayList<>();
        boolean safe = true;
        for (int i = 0; i < table.rowTotals().size(); i++) {
            for (int j = 0; j < table.columnTotals().size(); j++) {
                if (table.hidden(i, j)) {
                    SuppressedCell cell = SuppressedCell.of(transport, i, j, threshold);
                    cells.add(cell);
                    safe &= cell.isProtected() || !counts.test(i, j);
                }
            }
        }
        return new SuppressionAuditAnalysis(true, List.copyOf(cells), safe, notes(cells, safe));
    }

    private static List<Note> notes(List<SuppressedCell> cells, boolean safe) {
        long known = cells.stream().filter(SuppressedCell::exactlyDisclosed).count();
        if (known > 0) {
            return List.of(new Note(
                    NoteCode.DISCLOSED,
                    known + (known == 1 ? " hidden cell is" : " hidden cells are")
                            + " recovered exactly by subtraction from the totals."));
        }
        return safe
                ? List.of()
                : List.of(new Note(
                        NoteCode.DISCLOSED, "A hidden cell is narrowed down so far that it is not protected."));
    }
}
