package entrapment.registry.stats;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Which cells of a table must be hidden so that its small counts stay hidden, if all totals are printed?
 *
 * @param primary the small counts themselves, row by row
 * @param minimumComplementaryCells number of cells to hide beside them; {@code null} if nothing protects them
 * @param minimumComplementarySum sum of the counts in those cells
 * @param complementary those cells; other sets of the same size may do as well
 * @param optimal whether no smaller set does; otherwise the set is good but was not proved smallest
 * @param notes what to do if nothing helps
 */
public record SuppressionAnalysis(
        List<Cell> primary,
        @Nullable Integer minimumComplementaryCells,
        @Nullable Long minimumComplementarySum,
        List<Cell> complementary,
        boolean optimal,
        List<Note> notes) {

    /**
     * A cell that is to be hidden.
     *
     * @param row from 1
     * @param column from 1
     * @param count what it holds: not for the reader of the release
     */
    public record Cell(int row, int column, long count) {}

    /**
     * The cells to hide.
     *
     * <p>Valid for a table of counts whose row and column totals are all printed. Primary: counts from 1 to k−1; zeros are
     * shown. Complementary: the fewest further cells, then the smallest sum, that make every primary cell pass the rule of
     * {@link SmallCounts}; cells of k and more first, zeros only if those do not suffice.
     *
     * <p>Sets of up to six cells are tried one by one as long as there are at most 200,000 of them; beyond that, rectangles
     * are added where a primary cell is not protected and then thinned out, and {@code optimal} is false.
     *
     * <p>Edges: no small count: nothing to hide. If even all cells together do not protect them, as in a table of one row, the
     * numbers are {@code null} and the note says not to print the totals.
     *
     * <p><b>Same as</b> R {@code sdcTable::protectTable(method = "OPT")} where optimal, but for cells of equal cost [from
     * memory]. Exact in whole numbers.
     *
     * <p>[1] Hundepool A et al., Statistical Disclosure Control, Wiley 2012. [2] Fischetti M, Salazar JJ, J Am Stat Assoc
     * 2000;95:916.
     *
     * @param cells row by row, each row as long as the first
     * @param threshold k in [2, 100]
     * @throws IllegalArgumentException if the table is empty, too large or not a rectangle, or a value out of its range
     */
    public static SuppressionAnalysis of(List<List<Long>> cells, int threshold) {
        PublishedTable.requireRectangle(cells);
        cells.forEach(row -> row.forEach(count -> Counts.require("cell", count)));
        SmallCounts.requireThreshold(threshold);
        SuppressionSearch search = new SuppressionSearch(cells, threshold);
        List<Cell> primary = search.primary();
        Optional<SuppressionSearch.Pattern> found = search.pattern();
        List<Cell> hidden = found.map(SuppressionSearch.Pattern::cells).orElse(List.of());
        boolean optimal = found.map(SuppressionSearch.Pattern::optimal).orElse(true);
        return new SuppressionAnalysis(
                primary,
                found.isEmpty() ? null : hidden.size(),
                found.isEmpty() ? null : hidden.stream().mapToLong(Cell::count).sum(),
                hidden,
                optimal,
                notes(found.isPresent(), optimal));
    }

    private static List<Note> notes(boolean found, boolean optimal) {
        if (!found) {
            return List.of(new Note(
                    NoteCode.DISCLOSED,
                    "Hiding cells does not protect the small counts: do not print the totals, or merge rows or"
                            + " columns."));
        }
        return optimal
                ? List.of()
                : List.of(new Note(
                        NoteCode.APPROXIMATE,
                        "The table is too large to try every set of cells: a smaller one may do."));
    }
}
