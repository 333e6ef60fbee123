package entrapment.registry.stats;

import java.util.ArrayDeque;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Whole numbers ≥ 0 in the hidden cells of a table that agree with its printed totals, as a flow from rows to columns, and
 * how far each cell can be moved.
 *
 * <p>Nodes: rows, columns, and one for everything that is not printed, from which rows without a total draw and into which
 * columns without a total drain. Raising a cell by one means sending one back from its column to its row by other ways, so
 * its largest value is the present one plus the maximum flow from column to row with the cell itself taken out; its smallest
 * likewise with a flow from row to column. Exact in integers: the polytope of such a table has whole corners.
 */
final class Transport {

    /** Stands for no bound; far above any sum of counts. */
    private static final long NO_BOUND = Long.MAX_VALUE / 4;

    private final int rows;
    private final int columns;
    private final int open;
    private final long[][] capacity;
    private final boolean consistent;

    /**
     * @param hidden which cells are unknown
     * @param rowRest what is left of each row's total for its hidden cells, {@code null} if it is not printed
     * @param columnRest the same for columns
     */
    Transport(boolean[][] hidden, @Nullable Long[] rowRest, @Nullable Long[] columnRest) {
        rows = rowRest.length;
        columns = columnRest.length;
        open = rows + columns;
        int source = open + 1;
        int sink = open + 2;
        capacity = new long[sink + 1][sink + 1];
        for (int i = 0; i < rows; i++) {
            for (int j = 0; j < columns; j++) {
                capacity[i][rows + j] = hidden[i][j] ? NO_BOUND : 0;
            }
        }
        long supply = connect(rowRest, 0, source, true);
        long demand = connect(columnRest, rows, sink, false);
        capacity[source][open] = Math.max(0, demand - supply);
        capacity[open][sink] = Math.max(0, supply - demand);
        consistent = supply >= 0 && demand >= 0 && push(source, sink, NO_BOUND) == Math.max(supply, demand);
        for (int node = 0; node <= sink; node++) {
            capacity[source][node] = 0;
            capacity[node][source] = 0;
            capacity[sink][node] = 0;
            capacity[node][sink] = 0;
        }
    }

    /** Rows draw from the source and columns drain into the sink; those without a printed total use the open node. */
    private long connect(@Nullable Long[] rest, int offset, int end, boolean rowwise) {
        long sum = 0;
        for (int i = 0; i < rest.length; i++) {
            Long printed = rest[i];
            int other = printed == null ? open : end;
            long bound = printed == null ? NO_BOUND : printed;
            if (bound < 0) {
                return -1;
            }
            sum += printed == null ? 0 : printed;
            capacity[rowwise ? other : offset + i][rowwise ? offset + i : other] = bound;
        }
        return sum;
    }

    /** Whether any filling agrees with the totals. */
    boolean consistent() {
        return consistent;
    }

    /** The largest value of a hidden cell; infinite if nothing printed bounds it. */
    double maximum(int row, int column) {
        long now = capacity[rows + column][row];
        long more = without(row, column, rows + column, row, NO_BOUND);
        return more >= NO_BOUND / 2 ? Double.POSITIVE_INFINITY : now + more;
    }

    /** The smallest value of a hidden cell. */
    long minimum(int row, int column) {
        long now = capacity[rows + column][row];
        return now - without(row, column, row, rows + column, now);
    }

    private long without(int row, int column, int from, int to, long most) {
        long[][] kept = Arrays.stream(capacity).map(long[]::clone).toArray(long[][]::new);
        capacity[row][rows + column] = 0;
        capacity[rows + column][row] = 0;
        long flow = push(from, to, most);
        for (int node = 0; node < kept.length; node++) {
            capacity[node] = kept[node];
        }
        return flow;
    }

    /** Maximum flow by shortest augmenting paths (Edmonds, Karp 1972), stopped at the bound. */
    private long push(int from, int to, long most) {
        long flow = 0;
        while (flow < most) {
            int[] before = path(from, to);
            if (before[to] < 0) {
                break;
            }
            long step = most - flow;
            for (int node = to; node != from; node = before[node]) {
                step = Math.min(step, capacity[before[node]][node]);
            }
            for (int node = to; node != from; node = before[node]) {
                capacity[before[node]][node] -= step;
                capacity[node][before[node]] += step;
            }
            flow += step;
        }
        return flow;
    }

    private int[] path(int from, int to) {
        int[] before = new int[capacity.length];
        Arrays.fill(before, -1);
        before[from] = from;
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        queue.add(from);
        while (!queue.isEmpty() && before[to] < 0) {
            int node = queue.remove();
            for (int next = 0; next < before.length; next++) {
                if (before[next] < 0 && capacity[node][next] > 0) {
                    before[next] = node;
                    queue.add(next);
                }
            }
        }
        return before;
    }
}
