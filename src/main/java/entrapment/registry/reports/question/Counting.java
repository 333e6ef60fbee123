package entrapment.registry.reports.question;

import entrapment.registry.stats.DiscordanceAnalysis;
import entrapment.registry.stats.DiscordanceAnalysis.Status;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Tally;
import entrapment.registry.vocabulary.Tally.Cell;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;

/**
 * Events brought together with the uses they belong to (contract, section 5): a cell of centre, period and device class
 * in which cases have no return, or outnumber its uses, is left out, events and uses both.
 *
 * @param groups by their levels, in order
 * @param excluded what was left out
 * @param contradictions places inside good cells where a level has more events than uses
 */
public record Counting(List<Group> groups, Excluded excluded, long contradictions) {

    /** Events and uses at one combination of levels. */
    public record Group(List<Level> levels, long events, long uses) {

        /** Whether cases outnumber the uses reported at the same levels, so that nothing can be computed from them. */
        public boolean contradicts() {
            return events > uses;
        }
    }

    /** What was left out because numerators and denominators do not belong together. */
    public record Excluded(long cells, long events, long uses) {}

    /** Groups by their first levels, those that share them by the next, and so on. */
    public static final Comparator<List<Level>> ORDER = (one, other) -> IntStream.range(0, one.size())
            .map(index -> one.get(index).compareTo(other.get(index)))
            .filter(difference -> difference != 0)
            .findFirst()
            .orElse(0);

    private static final Set<Status> GOOD = EnumSet.of(Status.OK, Status.NO_EXPOSURE);

    /** @param centreName by which each centre is called */
    static Counting of(List<Tally> events, List<Tally> uses, List<GroupBy> by, UnaryOperator<String> centreName) {
        Set<Cell> discordant = discordant(events, uses).keySet();
        List<Factor> asked = GroupBy.factors(by);
        Map<List<Level>, long[]> groups = new HashMap<>();
        Map<Place, long[]> places = new HashMap<>();
        long[] left = new long[2];
        Set<Cell> leftCells = new HashSet<>();
        for (int side = 0; side < 2; side++) {
            for (Tally tally : side == 0 ? events : uses) {
                if (!tally.selected()) {
                    continue;
                }
                if (discordant.contains(tally.cell())) {
                    left[side] += tally.count();
                    leftCells.add(tally.cell());
                    continue;
                }
                List<Level> levels = by.stream()
                        .map(each -> each.level(tally, asked, centreName))
                        .toList();
                groups.computeIfAbsent(levels, key -> new long[2])[side] += tally.count();
                places.computeIfAbsent(new Place(tally.cell(), tally.levels()), key -> new long[2])[side] +=
                        tally.count();
            }
        }
        List<Group> counted = new ArrayList<>();
        groups.forEach((levels, counts) -> counted.add(new Group(levels, counts[0], counts[1])));
        counted.sort(Comparator.comparing(Group::levels, ORDER));
        return new Counting(
                List.copyOf(counted),
                new Excluded(leftCells.size(), left[0], left[1]),
                places.values().stream().filter(counts -> counts[0] > counts[1]).count());
    }

    /** The cells whose cases do not belong to their uses, in order, with what is wrong. */
    public static Map<Cell, Status> discordant(List<Tally> events, List<Tally> uses) {
        Map<Cell, Long> numerators = total(events);
        Map<Cell, Long> denominators = total(uses);
        List<Cell> cells = new ArrayList<>(numerators.keySet());
        List<DiscordanceAnalysis.Row> rows = cells.stream()
                .map(cell -> new DiscordanceAnalysis.Row("", numerators.get(cell), denominators.get(cell)))
                .toList();
        List<DiscordanceAnalysis.CheckedRow> checked =
                DiscordanceAnalysis.of(rows).rows();
        Map<Cell, Status> discordant = new LinkedHashMap<>();
        for (int index = 0; index < cells.size(); index++) {
            Status status = checked.get(index).status();
            if (!GOOD.contains(status)) {
                discordant.put(cells.get(index), status);
            }
        }
        return discordant;
    }

    /** What was counted in each cell, whether selected or not, in order. */
    public static Map<Cell, Long> total(List<Tally> tallies) {
        Map<Cell, Long> totals = new HashMap<>();
        tallies.forEach(tally -> totals.merge(tally.cell(), tally.count(), Long::sum));
        Map<Cell, Long> inOrder = new TreeMap<>(
                Comparator.comparing(Cell::centre).thenComparing(Cell::period).thenComparing(Cell::deviceClass));
        inOrder.putAll(totals);
        return inOrder;
    }

    /** Some levels within a cell. */
    private record Place(Cell cell, List<String> levels) {}
}
