package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Which of some counts must be hidden so that the small ones stay hidden, if everybody knows what all of them add up to?
 *
 * @param primary places, from 0, of the small counts
 * @param complementary places of what is hidden to protect them
 * @param safe whether the small counts are protected; if not, everything is hidden and their sum still tells too much
 */
public record OneWaySuppression(List<Integer> primary, List<Integer> complementary, boolean safe) {

    /**
     * The counts to hide.
     *
     * <p>Valid where a reader knows the total and all that is shown, and nothing else. What is hidden then has a known sum, and
     * with two hidden counts or more each could be anything from 0 to that sum: they are protected by {@link SmallCounts} if
     * the sum is k or more. Hidden beside the small ones: the smallest that protect, zeros last. Audited by
     * {@link SuppressionAuditAnalysis} as a table of one column whose rows have no totals.
     *
     * <p>Edges: no small count: nothing is hidden. Too little to hide: all of it is hidden, and not safe.
     *
     * <p><b>Same as</b> R {@code sdcTable::protectTable} on one dimension where that finds a solution [from memory]. Exact in
     * whole numbers.
     *
     * <p>[1] Hundepool A et al., Statistical Disclosure Control, Wiley 2012.
     *
     * @param counts those that may be hidden; what the reader knows anyway is not among them
     * @param threshold k in [2, 100]
     * @throws IllegalArgumentException if a count or the threshold is out of its range
     */
    public static OneWaySuppression of(List<Long> counts, int threshold) {
        counts.forEach(count -> Counts.require("count", count));
        SmallCounts.requireThreshold(threshold);
        List<Integer> primary = IntStream.range(0, counts.size())
                .filter(place -> SmallCounts.isSmall(counts.get(place), threshold))
                .boxed()
                .toList();
        Parts parts = new Parts(counts, threshold, primary);
        List<Integer> complementary = SmallCounts.protect(primary, parts).complementary().stream()
                .sorted()
                .toList();
        return new OneWaySuppression(primary, complementary, primary.isEmpty() || safe(threshold, primary, parts));
    }

    /** The audit of what is hidden: a column whose sum is known, with rows of which nothing is. */
    private static boolean safe(int threshold, List<Integer> primary, Parts parts) {
        List<List<@Nullable Long>> cells = new ArrayList<>();
        List<@Nullable Long> rowTotals = new ArrayList<>();
        List<@Nullable Long> sum = new ArrayList<>();
        List<TableCell> marked = new ArrayList<>();
        for (int place : parts.hidden) {
            List<@Nullable Long> cell = new ArrayList<>();
            cell.add(null);
            cells.add(cell);
            rowTotals.add(null);
            if (primary.contains(place)) {
                marked.add(new TableCell(cells.size(), 1));
            }
        }
        sum.add(parts.sum());
        return SuppressionAuditAnalysis.of(new PublishedTable(cells, rowTotals, sum), threshold, marked)
                .safe();
    }

    /** Counts whose sum is known. */
    private static final class Parts implements SmallCounts.Disclosure<Integer> {

        private final List<Long> counts;
        private final int threshold;
        private final SortedSet<Integer> hidden;

        Parts(List<Long> counts, int threshold, List<Integer> primary) {
            this.counts = counts;
            this.threshold = threshold;
            this.hidden = new TreeSet<>(primary);
        }

        long sum() {
            return hidden.stream().mapToLong(counts::get).sum();
        }

        @Override
        public boolean protects(Integer small) {
            return hidden.size() > 1 && SmallCounts.protects(0, (double) sum(), threshold);
        }

        @Override
        public boolean protectsAll(Collection<Integer> small) {
            return small.stream().allMatch(this::protects);
        }

        /** A zero adds nothing to the sum, so it comes last. */
        @Override
        public Collection<Integer> further(Integer small) {
            return IntStream.range(0, counts.size())
                    .boxed()
                    .filter(place -> !hidden.contains(place))
                    .min(Comparator.comparing((Integer place) -> counts.get(place) == 0)
                            .thenComparing(counts::get))
                    .stream()
                    .toList();
        }

        @Override
        public void hide(Integer place) {
            hidden.add(place);
        }

        @Override
        public void show(Integer place) {
            hidden.remove(place);
        }

        @Override
        public Comparator<Integer> dearestFirst() {
            return Comparator.comparing((Integer place) -> counts.get(place)).reversed();
        }
    }
}
