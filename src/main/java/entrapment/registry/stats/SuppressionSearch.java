package entrapment.registry.stats;

import entrapment.registry.stats.SuppressionAnalysis.Cell;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.util.CombinatoricsUtils;
import org.jspecify.annotations.Nullable;

/**
 * The search for cells that protect others. Hiding a further cell never narrows what another can be, so a set protects if
 * one of its parts does.
 */
final class SuppressionSearch {

    private static final int MOST_CELLS = 6;
    private static final double MOST_SETS = 200_000;
    private static final Comparator<Cell> ORDER =
            Comparator.comparingInt(Cell::row).thenComparingInt(Cell::column);

    private final List<List<Long>> counts;
    private final HiddenCells hidden;
    private final List<Cell> primary = new ArrayList<>();
    private final List<Cell> large = new ArrayList<>();
    private final List<Cell> zeros = new ArrayList<>();

    SuppressionSearch(List<List<Long>> counts, int threshold) {
        this.counts = counts;
        for (int i = 0; i < counts.size(); i++) {
            for (int j = 0; j < counts.get(i).size(); j++) {
                long count = counts.get(i).get(j);
                (count == 0 ? zeros : SmallCounts.isSmall(count, threshold) ? primary : large)
                        .add(new Cell(i + 1, j + 1, count));
            }
        }
        large.sort(Comparator.comparingLong(Cell::count).thenComparing(ORDER));
        hidden = new HiddenCells(counts, threshold, primary);
    }

    /** Cells to hide, and whether no fewer would do. */
    record Pattern(List<Cell> cells, boolean optimal) {

        private static Pattern of(Collection<Cell> cells, boolean optimal) {
            return new Pattern(cells.stream().sorted(ORDER).toList(), optimal);
        }
    }

    List<Cell> primary() {
        return List.copyOf(primary);
    }

    /** Empty if nothing protects the small counts. */
    Optional<Pattern> pattern() {
        if (hidden.protect(primary, large)) {
            return Optional.of(best(large));
        }
        List<Cell> all = new ArrayList<>(zeros);
        all.addAll(large);
        return hidden.protect(primary, all) ? Optional.of(best(all)) : Optional.empty();
    }

    private Pattern best(List<Cell> candidates) {
        double sets = 0;
        for (int size = 0; size <= Math.min(MOST_CELLS, candidates.size()); size++) {
            sets += CombinatoricsUtils.binomialCoefficientDouble(candidates.size(), size);
            if (sets > MOST_SETS) {
                break;
            }
            Smallest smallest = new Smallest(candidates);
            smallest.choose(0, size, 0);
            if (smallest.cells != null) {
                return Pattern.of(smallest.cells, true);
            }
        }
        return Pattern.of(
                SmallCounts.protect(primary, new Rectangles(candidates)).complementary(), false);
    }

    /** The set of a given size with the smallest sum, by depth-first search over candidates in ascending order. */
    private final class Smallest {

        private final List<Cell> candidates;
        private final List<Cell> chosen = new ArrayList<>();
        private long sum = Long.MAX_VALUE;
        private @Nullable List<Cell> cells;

        private Smallest(List<Cell> candidates) {
            this.candidates = candidates;
        }

        private void choose(int from, int left, long sofar) {
            if (left == 0) {
                if (hidden.protect(primary, chosen)) {
                    sum = sofar;
                    cells = List.copyOf(chosen);
                }
                return;
            }
            for (int i = from; i + left <= candidates.size(); i++) {
                Cell cell = candidates.get(i);
                if (sofar + left * cell.count() >= sum) {
                    return;
                }
                chosen.add(cell);
                choose(i + 1, left - 1, sofar + cell.count());
                chosen.remove(chosen.size() - 1);
            }
        }
    }

    /** Rectangles where a cell is not protected, cheapest first; if none is left, everything. */
    private final class Rectangles implements SmallCounts.Disclosure<Cell> {

        private final List<Cell> candidates;
        private final List<Cell> added = new ArrayList<>();

        private Rectangles(List<Cell> candidates) {
            this.candidates = candidates;
        }

        @Override
        public boolean protects(Cell small) {
            return protectsAll(List.of(small));
        }

        @Override
        public boolean protectsAll(Collection<Cell> small) {
            return hidden.protect(small, added);
        }

        @Override
        public Collection<Cell> further(Cell small) {
            List<Cell> rectangle = cheapestRectangle(small, candidates, added);
            return rectangle.isEmpty()
                    ? candidates.stream().filter(one -> !added.contains(one)).toList()
                    : rectangle;
        }

        @Override
        public void hide(Cell cell) {
            added.add(cell);
        }

        @Override
        public void show(Cell cell) {
            added.remove(cell);
        }

        @Override
        public Comparator<Cell> dearestFirst() {
            return Comparator.comparingLong(Cell::count).reversed();
        }
    }

    /** What is still to be hidden of the rectangle through a cell that needs the fewest, then the smallest, cells. */
    private List<Cell> cheapestRectangle(Cell corner, List<Cell> candidates, List<Cell> added) {
        List<Cell> best = List.of();
        for (int i = 1; i <= counts.size(); i++) {
            for (int j = 1; j <= counts.get(0).size(); j++) {
                List<Cell> rectangle = List.of(at(corner.row(), j), at(i, corner.column()), at(i, j));
                List<Cell> missing = rectangle.stream()
                        .filter(cell -> !added.contains(cell) && !primary.contains(cell))
                        .toList();
                boolean possible = i != corner.row() && j != corner.column() && candidates.containsAll(missing);
                if (possible && !missing.isEmpty() && (best.isEmpty() || cheaper(missing, best))) {
                    best = missing;
                }
            }
        }
        return best;
    }

    private static boolean cheaper(List<Cell> one, List<Cell> other) {
        return one.size() < other.size()
                || (one.size() == other.size()
                        && one.stream().mapToLong(Cell::count).sum()
                                < other.stream().mapToLong(Cell::count).sum());
    }

    private Cell at(int row, int column) {
        return new Cell(row, column, counts.get(row - 1).get(column - 1));
    }
}
