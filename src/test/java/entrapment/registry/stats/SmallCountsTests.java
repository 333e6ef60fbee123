package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** The rule itself, and its use on counts whose sum is known, against every list that adds up to it. */
class SmallCountsTests {

    @Test
    void areFromOneToOneBelowTheThreshold() {
        assertThat(counts(0, 5).filter(count -> SmallCounts.isSmall(count, 5))).containsExactly(1L, 2L, 3L, 4L);
        assertThat(SmallCounts.isSmall(1, 2)).isTrue();
        assertThat(SmallCounts.isSmall(2, 2)).isFalse();
    }

    private static Stream<Long> counts(int from, int to) {
        return IntStream.rangeClosed(from, to).mapToObj(Long::valueOf);
    }

    @Test
    void areProtectedByWhatIsLargeEnoughAndFarEnoughApart() {
        assertThat(SmallCounts.protects(0, 5, 5)).isTrue();
        assertThat(SmallCounts.protects(0, 4, 5)).isFalse();
        assertThat(SmallCounts.protects(3, 7, 5)).isTrue();
        assertThat(SmallCounts.protects(3, 6, 5)).isFalse();
        assertThat(SmallCounts.protects(3, Double.POSITIVE_INFINITY, 5)).isTrue();
    }

    /** Every list of up to five counts below eight, and every list that a reader of what is shown must reckon with. */
    @Test
    void noneOfAKnownSumCanBeWorkedOut() {
        int safe = 0;
        int given = 0;
        for (int size = 0; size <= 5; size++) {
            int lists = (int) Math.pow(8, size);
            for (int number = 0; number < lists; number += size == 5 ? 3 : 1) {
                List<Long> counts = digits(number, size);
                for (int threshold = 2; threshold <= 5; threshold++) {
                    OneWaySuppression suppression = OneWaySuppression.of(counts, threshold);
                    List<Integer> hidden = hidden(suppression);

                    assertThat(suppression.primary()).isEqualTo(small(counts, threshold));
                    assertThat(suppression.safe()).isEqualTo(protectedBy(counts, hidden, threshold));
                    if (suppression.safe()) {
                        assertThat(suppression.complementary()).isEqualTo(cheapest(counts, threshold));
                        safe += suppression.primary().isEmpty() ? 0 : 1;
                    } else {
                        assertThat(hidden).hasSize(size);
                        given++;
                    }
                }
            }
        }
        assertThat(safe).isGreaterThan(10_000);
        assertThat(given).isGreaterThan(100);
    }

    private static List<Long> digits(int number, int size) {
        return IntStream.range(0, size)
                .mapToObj(place -> (long) ((number >> (3 * place)) & 7))
                .toList();
    }

    private static List<Integer> hidden(OneWaySuppression suppression) {
        return Stream.concat(suppression.primary().stream(), suppression.complementary().stream())
                .sorted()
                .toList();
    }

    private static List<Integer> small(List<Long> counts, int threshold) {
        return IntStream.range(0, counts.size())
                .filter(place -> counts.get(place) > 0 && counts.get(place) < threshold)
                .boxed()
                .toList();
    }

    /** Whether each small count, over every list of whole numbers with that sum, reaches k and k−1 apart. */
    private static boolean protectedBy(List<Long> counts, List<Integer> hidden, int threshold) {
        if (small(counts, threshold).isEmpty()) {
            return true;
        }
        long sum = hidden.stream().mapToLong(counts::get).sum();
        long least = Long.MAX_VALUE;
        long most = Long.MIN_VALUE;
        for (long first = 0; first <= sum; first++) {
            if (hidden.size() > 1 || first == sum) {
                least = Math.min(least, first);
                most = Math.max(most, first);
            }
        }
        return most >= threshold && most - least >= threshold - 1;
    }

    /** Of all sets that protect, the fewest counts, then the smallest sum, then the first; zeros only where nothing else does. */
    private static List<Integer> cheapest(List<Long> counts, int threshold) {
        List<Integer> primary = small(counts, threshold);
        List<Integer> best = null;
        for (int set = 0; set < 1 << counts.size(); set++) {
            int chosen = set;
            List<Integer> further = IntStream.range(0, counts.size())
                    .filter(place -> (chosen >> place & 1) == 1)
                    .boxed()
                    .toList();
            if (further.stream().anyMatch(primary::contains)) {
                continue;
            }
            List<Integer> all = new ArrayList<>(primary);
            all.addAll(further);
            if (protectedBy(counts, all, threshold) && (best == null || cost(counts, further) < cost(counts, best))) {
                best = further;
            }
        }
        return best == null ? List.of() : best;
    }

    private static long cost(List<Long> counts, List<Integer> further) {
        return 1_000L * further.size() + further.stream().mapToLong(counts::get).sum();
    }

    @Test
    void hidesTheSmallestThatProtects() {
        assertThat(OneWaySuppression.of(List.of(9L, 0L, 3L, 7L, 8L), 5))
                .isEqualTo(new OneWaySuppression(List.of(2), List.of(3), true));
        assertThat(OneWaySuppression.of(List.of(9L, 4L, 3L), 5))
                .isEqualTo(new OneWaySuppression(List.of(1, 2), List.of(), true));
        assertThat(OneWaySuppression.of(List.of(0L, 9L), 5))
                .isEqualTo(new OneWaySuppression(List.of(), List.of(), true));
        assertThat(OneWaySuppression.of(List.of(0L, 2L, 0L, 1L), 5))
                .isEqualTo(new OneWaySuppression(List.of(1, 3), List.of(0, 2), false));
        assertThat(OneWaySuppression.of(List.of(2L), 5)).isEqualTo(new OneWaySuppression(List.of(0), List.of(), false));
    }

    @Test
    void refusesWhatIsNoCountAndNoThreshold() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> OneWaySuppression.of(List.of(-1L), 5))
                .withMessage("count must be in [0, 2147483647], got -1");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> OneWaySuppression.of(List.of(1L), 1))
                .withMessage("threshold must be in [2, 100], got 1");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> OneWaySuppression.of(List.of(1L), 101))
                .withMessage("threshold must be in [2, 100], got 101");
    }

    /** After hiding, the audit finds no small cell that the totals give away, however large the table. */
    @Test
    void noneOfATableCanBeWorkedOut() {
        Random random = new Random(20_310_111);
        int audited = 0;
        for (int round = 0; round < 40; round++) {
            int rows = 2 + random.nextInt(9);
            int columns = 2 + random.nextInt(9);
            int threshold = 2 + random.nextInt(6);
            List<List<Long>> counts = new ArrayList<>();
            for (int row = 0; row < rows; row++) {
                counts.add(
                        Stream.generate(() -> (long) (random.nextInt(6) == 0 ? random.nextInt(5) : random.nextInt(40)))
                                .limit(columns)
                                .toList());
            }
            SuppressionAnalysis analysis = SuppressionAnalysis.of(counts, threshold);
            if (analysis.minimumComplementaryCells() != null) {
                SuppressionAuditAnalysis audit = SuppressionAuditAnalysis.of(
                        published(counts, analysis),
                        threshold,
                        analysis.primary().stream()
                                .map(cell -> new TableCell(cell.row(), cell.column()))
                                .toList());

                assertThat(audit.safe()).isTrue();
                assertThat(audit.suppressedCells())
                        .filteredOn(cell -> analysis.primary().stream()
                                .anyMatch(small -> small.row() == cell.row() && small.column() == cell.column()))
                        .hasSameSizeAs(analysis.primary())
                        .noneMatch(SuppressionAuditAnalysis.SuppressedCell::exactlyDisclosed);
                audited++;
            }
        }
        assertThat(audited).isGreaterThan(25);
    }

    private static PublishedTable published(List<List<Long>> counts, SuppressionAnalysis analysis) {
        List<List<@Nullable Long>> cells = new ArrayList<>();
        counts.forEach(row -> cells.add(new ArrayList<>(row)));
        Stream.concat(analysis.primary().stream(), analysis.complementary().stream())
                .forEach(cell -> cells.get(cell.row() - 1).set(cell.column() - 1, null));
        List<@Nullable Long> columnTotals = new ArrayList<>();
        for (int column = 0; column < counts.get(0).size(); column++) {
            int fixed = column;
            columnTotals.add(counts.stream().mapToLong(row -> row.get(fixed)).sum());
        }
        return new PublishedTable(
                cells,
                new ArrayList<>(counts.stream()
                        .map(row -> row.stream().mapToLong(Long::longValue).sum())
                        .toList()),
                columnTotals);
    }

    /** Hiding b did not help, hiding c did: so b is shown again. */
    @Test
    void showsAgainWhatIsNotNeededTheDearestFirst() {
        Steps steps = new Steps(List.of("b", "c", "d"), Set.of("c"));
        SmallCounts.Protection<String> protection = SmallCounts.protect(List.of("a"), steps);

        assertThat(protection.complementary()).containsExactly("c");
        assertThat(protection.unprotected()).isEmpty();
        assertThat(steps.taken).containsExactly("hide b", "hide c", "show c", "hide c", "show b");
    }

    @Test
    void leavesHiddenWhatCouldNotHelp() {
        Steps steps = new Steps(List.of("b", "c"), Set.of("z"));
        SmallCounts.Protection<String> protection = SmallCounts.protect(List.of("a"), steps);

        assertThat(protection.complementary()).containsExactly("b", "c");
        assertThat(protection.unprotected()).containsExactly("a");
        assertThat(steps.taken).containsExactly("hide b", "hide c");
    }

    /** Protected as soon as all of some figures are hidden; others are hidden in the order given. */
    private static final class Steps implements SmallCounts.Disclosure<String> {

        private final List<String> order;
        private final Set<String> needed;
        private final Set<String> hidden = new LinkedHashSet<>();
        private final List<String> taken = new ArrayList<>();

        Steps(List<String> order, Set<String> needed) {
            this.order = order;
            this.needed = needed;
        }

        @Override
        public boolean protects(String small) {
            return hidden.containsAll(needed);
        }

        @Override
        public boolean protectsAll(Collection<String> small) {
            return small.stream().allMatch(this::protects);
        }

        @Override
        public Collection<String> further(String small) {
            return order.stream()
                    .filter(each -> !hidden.contains(each))
                    .limit(1)
                    .toList();
        }

        @Override
        public void hide(String figure) {
            taken.add("hide " + figure);
            hidden.add(figure);
        }

        @Override
        public void show(String figure) {
            taken.add("show " + figure);
            hidden.remove(figure);
        }

        @Override
        public Comparator<String> dearestFirst() {
            return Comparator.reverseOrder();
        }
    }
}
