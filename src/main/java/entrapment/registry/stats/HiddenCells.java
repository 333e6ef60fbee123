package entrapment.registry.stats;

import entrapment.registry.stats.SuppressionAnalysis.Cell;
import java.util.Collection;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A table of known counts with all totals printed and some cells hidden: are the small counts safe? */
final class HiddenCells {

    private final List<List<Long>> counts;
    private final int threshold;
    private final boolean[][] hidden;

    HiddenCells(List<List<Long>> counts, int threshold, List<Cell> primary) {
        this.counts = counts;
        this.threshold = threshold;
        this.hidden = new boolean[counts.size()][counts.get(0).size()];
        hide(primary, true);
    }

    private void hide(Collection<Cell> cells, boolean state) {
        cells.forEach(cell -> hidden[cell.row() - 1][cell.column() - 1] = state);
    }

    /** Whether the given primary cells are protected once further cells are hidden beside all primary ones. */
    boolean protect(Collection<Cell> cells, Collection<Cell> further) {
        hide(further, true);
        boolean all = cells.stream().noneMatch(this::alone) && guarded(cells);
        hide(further, false);
        return all;
    }

    /** A cell alone in its row or column is recovered by subtraction: a cheap look before the flows. */
    private boolean alone(Cell cell) {
        int inRow = 0;
        int inColumn = 0;
        for (int j = 0; j < hidden[0].length; j++) {
            inRow += hidden[cell.row() - 1][j] ? 1 : 0;
        }
        for (boolean[] row : hidden) {
            inColumn += row[cell.column() - 1] ? 1 : 0;
        }
        return inRow < 2 || inColumn < 2;
    }

    private boolean guarded(Collection<Cell> cells) {
        Transport transport = transport();
        return cells.stream()
                .allMatch(cell -> SmallCounts.protects(
                        (double) transport.minimum(cell.row() - 1, cell.column() - 1),
                        transport.maximum(cell.row() - 1, cell.column() - 1),
                        threshold));
    }

    /** What is left of each total for its hidden cells is their sum. */
    private Transport transport() {
        @Nullable Long[] rowRest = new Long[hidden.length];
        @Nullable Long[] columnRest = new Long[hidden[0].length];
        for (int i = 0; i < hidden.length; i++) {
            for (int j = 0; j < hidden[i].length; j++) {
                long count = hidden[i][j] ? counts.get(i).get(j) : 0;
                rowRest[i] = count + (rowRest[i] == null ? 0 : rowRest[i]);
                columnRest[j] = count + (columnRest[j] == null ? 0 : columnRest[j]);
            }
        }
        return new Transport(hidden, rowRest, columnRest);
    }
}
