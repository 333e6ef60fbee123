package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Audits against the listing of every table that agrees with what is printed; patterns against every set of cells. */
class DisclosureExhaustiveTests {

    private final Random random = new Random(20_310_102);

    @Test
    void theAuditFindsTheEndsOfEveryPossibleFilling() {
        for (int round = 0; round < 300; round++) {
            int rows = 2 + random.nextInt(2);
            int columns = 2 + random.nextInt(2);
            long[][] counts = counts(rows, columns, 8);
            boolean[][] hidden = new boolean[rows][columns];
            int left = 2 + random.nextInt(4);
            for (int k = 0; k < left; k++) {
                hidden[random.nextInt(rows)][random.nextInt(columns)] = true;
            }
            SuppressionAuditAnalysis audit = SuppressionAuditAnalysis.of(table(counts, hidden), 5);
            long[][][] ends = ends(counts, hidden);

            assertThat(audit.consistent()).isTrue();
            boolean safe = true;
            for (SuppressionAuditAnalysis.SuppressedCell cell : audit.suppressedCells()) {
                long[] end = ends[cell.row() - 1][cell.column() - 1];
                assertThat(cell.minimum()).isEqualTo(end[0]);
                assertThat(cell.maximum()).isEqualTo((double) end[1]);
                assertThat(cell.exactlyDisclosed()).isEqualTo(end[0] == end[1]);
                assertThat(cell.isProtected()).isEqualTo(end[1] >= 5 && end[1] - end[0] >= 4);
                safe &= cell.isProtected();
            }
            assertThat(audit.safe()).isEqualTo(safe);
        }
    }

    @Test
    void noSmallerSetOfCellsProtectsTheSmallCounts() {
        int found = 0;
        for (int round = 0; round < 60; round++) {
            long[][] counts = counts(3, 3, 12);
            SuppressionAnalysis analysis = SuppressionAnalysis.of(lists(counts), 4);
            long[] best = best(counts, 4);

            if (best[0] == Long.MAX_VALUE) {
                // Only zeros could still help: no set of larger cells does.
                assertThat(analysis.complementary().stream().anyMatch(cell -> cell.count() == 0)
                                || analysis.minimumComplementaryCells() == null)
                        .isTrue();
            } else {
                found++;
                assertThat(analysis.minimumComplementaryCells()).isEqualTo((int) best[0]);
                assertThat(analysis.minimumComplementarySum()).isEqualTo(best[1]);
                assertThat(analysis.optimal()).isTrue();
                assertThat(passes(counts, analysis, 4)).isTrue();
            }
        }
        assertThat(found).isGreaterThan(30);
    }

    @Test
    void aLargeTableIsProtectedThoughNotProvedSmallest() {
        for (int round = 0; round < 5; round++) {
            long[][] counts = counts(12, 9, 60);
            SuppressionAnalysis analysis = SuppressionAnalysis.of(lists(counts), 5);

            assertThat(analysis.minimumComplementaryCells()).isNotNull();
            assertThat(passes(counts, analysis, 5)).isTrue();
            assertThat(analysis.optimal() || analysis.notes().size() == 1).isTrue();
        }
    }

    @Test
    void noCellOfAGreedyPatternCanBeShownAgain() {
        long[][] counts = large();
        counts[0][0] = 1;
        counts[5][5] = 2;
        counts[9][1] = 3;
        counts[13][7] = 4;
        SuppressionAnalysis analysis = SuppressionAnalysis.of(lists(counts), 5);

        assertThat(analysis.optimal()).isFalse();
        assertThat(passes(counts, analysis, 5)).isTrue();
        for (SuppressionAnalysis.Cell cell : analysis.complementary()) {
            List<SuppressionAnalysis.Cell> fewer = new ArrayList<>(analysis.complementary());
            fewer.remove(cell);
            assertThat(passes(counts, analysis.primary(), fewer, 5)).isFalse();
        }
    }

    /** Of the cells in a cycle with the small one, a rectangle has the fewest; every rectangle is looked at here. */
    @Test
    void inATableTooLargeToTryTheCheapestRectangleIsHidden() {
        for (int round = 0; round < 20; round++) {
            long[][] counts = large();
            int row = random.nextInt(14);
            int column = random.nextInt(14);
            counts[row][column] = 1L + random.nextInt(4);
            long cheapest = Long.MAX_VALUE;
            for (int i = 0; i < 14; i++) {
                for (int j = 0; j < 14; j++) {
                    if (i != row && j != column) {
                        cheapest = Math.min(cheapest, counts[row][j] + counts[i][column] + counts[i][j]);
                    }
                }
            }
            SuppressionAnalysis analysis = SuppressionAnalysis.of(lists(counts), 5);

            assertThat(analysis.optimal()).isFalse();
            assertThat(analysis.minimumComplementaryCells()).isEqualTo(3);
            assertThat(analysis.minimumComplementarySum()).isEqualTo(cheapest);
        }
    }

    /** A rectangle through another small count takes two further cells, any other three. */
    @Test
    void fewerCellsComeBeforeSmallerOnes() {
        long[][] counts = large();
        int[] places = {0, 3, 7, 11};
        for (int i : places) {
            for (int j : places) {
                counts[i][j] = i == j ? 4 : 900L + i + j;
            }
        }
        SuppressionAnalysis analysis = SuppressionAnalysis.of(lists(counts), 5);

        assertThat(passes(counts, analysis, 5)).isTrue();
        assertThat(analysis.minimumComplementaryCells()).isBetween(4, 6);
    }

    /** The row and column of the small count hold one other cell each, and these meet in a zero: a cycle of six is left. */
    @Test
    void whereNoRectangleHelpsALongerCycleDoes() {
        long[][] counts = large();
        for (int i = 1; i < 14; i++) {
            counts[0][i] = i == 4 ? 30 : 0;
            counts[i][0] = i == 9 ? 40 : 0;
        }
        counts[9][4] = 0;
        counts[0][0] = 3;
        SuppressionAnalysis analysis = SuppressionAnalysis.of(lists(counts), 5);

        assertThat(passes(counts, analysis, 5)).isTrue();
        assertThat(analysis.complementary()).noneMatch(cell -> cell.count() == 0);
        assertThat(analysis.minimumComplementaryCells()).isGreaterThanOrEqualTo(5);
    }

    private long[][] large() {
        long[][] counts = counts(14, 14, 90);
        for (long[] row : counts) {
            for (int j = 0; j < row.length; j++) {
                row[j] += 10;
            }
        }
        return counts;
    }

    /** Fewest cells of k and more, then smallest sum, over all subsets. */
    private static long[] best(long[][] counts, int threshold) {
        long[] best = {Long.MAX_VALUE, Long.MAX_VALUE};
        for (int bits = 0; bits < 512; bits++) {
            boolean[][] hidden = new boolean[3][3];
            long cells = 0;
            long sum = 0;
            boolean allowed = true;
            for (int i = 0; i < 9; i++) {
                long count = counts[i / 3][i % 3];
                boolean small = count > 0 && count < threshold;
                boolean chosen = (bits >> i & 1) == 1;
                allowed &= !chosen || count >= threshold;
                hidden[i / 3][i % 3] = small || chosen;
                cells += chosen ? 1 : 0;
                sum += chosen ? count : 0;
            }
            if (allowed
                    && (cells < best[0] || (cells == best[0] && sum < best[1]))
                    && guarded(counts, hidden, threshold)) {
                best = new long[] {cells, sum};
            }
        }
        return best;
    }

    private static boolean guarded(long[][] counts, boolean[][] hidden, int threshold) {
        long[][][] ends = ends(counts, hidden);
        boolean all = true;
        for (int i = 0; i < counts.length; i++) {
            for (int j = 0; j < counts[i].length; j++) {
                if (counts[i][j] > 0 && counts[i][j] < threshold) {
                    all &= ends[i][j][1] >= threshold && ends[i][j][1] - ends[i][j][0] >= threshold - 1;
                }
            }
        }
        return all;
    }

    /** Smallest and largest value of each hidden cell over all fillings, listed one by one. */
    private static long[][][] ends(long[][] counts, boolean[][] hidden) {
        int rows = counts.length;
        int columns = counts[0].length;
        long[] rowRest = new long[rows];
        long[] columnRest = new long[columns];
        long[][][] ends = new long[rows][columns][];
        List<int[]> cells = new ArrayList<>();
        for (int i = 0; i < rows; i++) {
            for (int j = 0; j < columns; j++) {
                ends[i][j] = new long[] {Long.MAX_VALUE, Long.MIN_VALUE};
                if (hidden[i][j]) {
                    cells.add(new int[] {i, j});
                    rowRest[i] += counts[i][j];
                    columnRest[j] += counts[i][j];
                }
            }
        }
        list(cells, 0, new long[cells.size()], rowRest, columnRest, ends);
        return ends;
    }

    private static void list(
            List<int[]> cells, int at, long[] values, long[] rowRest, long[] columnRest, long[][][] ends) {
        if (at == cells.size()) {
            for (long rest : rowRest) {
                if (rest != 0) {
                    return;
                }
            }
            for (long rest : columnRest) {
                if (rest != 0) {
                    return;
                }
            }
            for (int k = 0; k < values.length; k++) {
                long[] end = ends[cells.get(k)[0]][cells.get(k)[1]];
                end[0] = Math.min(end[0], values[k]);
                end[1] = Math.max(end[1], values[k]);
            }
            return;
        }
        int i = cells.get(at)[0];
        int j = cells.get(at)[1];
        boolean lastOfRow = at + 1 == cells.size() || cells.get(at + 1)[0] != i;
        for (long value = lastOfRow ? rowRest[i] : 0; value <= Math.min(rowRest[i], columnRest[j]); value++) {
            values[at] = value;
            rowRest[i] -= value;
            columnRest[j] -= value;
            list(cells, at + 1, values, rowRest, columnRest, ends);
            rowRest[i] += value;
            columnRest[j] += value;
        }
    }

    private static boolean passes(long[][] counts, SuppressionAnalysis analysis, int threshold) {
        return passes(counts, analysis.primary(), analysis.complementary(), threshold);
    }

    private static boolean passes(
            long[][] counts,
            List<SuppressionAnalysis.Cell> primary,
            List<SuppressionAnalysis.Cell> complementary,
            int threshold) {
        boolean[][] hidden = new boolean[counts.length][counts[0].length];
        primary.forEach(cell -> hidden[cell.row() - 1][cell.column() - 1] = true);
        complementary.forEach(cell -> hidden[cell.row() - 1][cell.column() - 1] = true);
        return SuppressionAuditAnalysis.of(
                        table(counts, hidden),
                        threshold,
                        primary.stream()
                                .map(cell -> new TableCell(cell.row(), cell.column()))
                                .toList())
                .safe();
    }

    private static PublishedTable table(long[][] counts, boolean[][] hidden) {
        List<List<@Nullable Long>> cells = new ArrayList<>();
        List<@Nullable Long> rowTotals = new ArrayList<>();
        long[] columnTotals = new long[counts[0].length];
        for (int i = 0; i < counts.length; i++) {
            List<@Nullable Long> row = new ArrayList<>();
            long total = 0;
            for (int j = 0; j < counts[i].length; j++) {
                row.add(hidden[i][j] ? null : Long.valueOf(counts[i][j]));
                total += counts[i][j];
                columnTotals[j] += counts[i][j];
            }
            cells.add(row);
            rowTotals.add(total);
        }
        List<@Nullable Long> columns = new ArrayList<>();
        for (long total : columnTotals) {
            columns.add(total);
        }
        return new PublishedTable(cells, rowTotals, columns);
    }

    private static List<List<Long>> lists(long[][] counts) {
        List<List<Long>> lists = new ArrayList<>();
        for (long[] row : counts) {
            List<Long> list = new ArrayList<>();
            for (long count : row) {
                list.add(count);
            }
            lists.add(list);
        }
        return lists;
    }

    private long[][] counts(int rows, int columns, int below) {
        long[][] counts = new long[rows][columns];
        for (long[] row : counts) {
            for (int j = 0; j < columns; j++) {
                row[j] = random.nextInt(below);
            }
        }
        return counts;
    }
}
