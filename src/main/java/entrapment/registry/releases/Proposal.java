package entrapment.registry.releases;

import entrapment.registry.releases.CellSuppression.Choice;
import entrapment.registry.releases.Sum.Measure;
import entrapment.registry.reports.YearlyCount;
import entrapment.registry.stats.SmallCounts;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A release before it is kept: its figures and what the audit of it together with every earlier one says. Pure: it knows no
 * clock and no database.
 *
 * <p>A year is frozen as it was first released: its counts are those of the data cut of that release, and its cells are
 * shown or hidden as they were there. So the same sum never has two values, and all releases together are one linear system.
 *
 * @param figures every number in the order of its table; null where it is hidden
 * @param contradicted printed earlier, and no longer what is counted as of the cut of then; if there are any, nothing was
 *     audited
 */
record Proposal(int firstYear, Map<Sum, @Nullable Long> figures, Audit audit, List<Sum> contradicted) {

    /** The codes of the tables, in their order. */
    record Codes(List<String> deviceClasses, List<String> harms) {}

    /** Whether it may be kept and leave the network. */
    boolean safe() {
        return contradicted.isEmpty() && audit.safe();
    }

    /**
     * A release of all years through one.
     *
     * @param kept the earlier releases, oldest first
     * @param counts of each year as of the cut of the release that first had it
     * @param firstYear the first year there is; that of the earlier releases if there are any
     * @param throughYear not before that of any earlier release
     * @param threshold k
     */
    static Proposal of(
            List<OutsideRelease> kept,
            List<YearlyCount> counts,
            Codes codes,
            int firstYear,
            int throughYear,
            int threshold) {
        Set<Integer> throughYears = new TreeSet<>();
        kept.forEach(release -> throughYears.add(release.throughYear()));
        throughYears.add(throughYear);
        Unknowns unknowns = new Unknowns(codes.deviceClasses(), codes.harms(), firstYear, List.copyOf(throughYears));
        long[] truth = unknowns.truth(counts);
        Map<Sum, Long> printedBefore = printed(kept);
        List<Sum> contradicted = printedBefore.entrySet().stream()
                .filter(entry -> unknowns.value(entry.getKey(), truth) != entry.getValue())
                .map(Map.Entry::getKey)
                .toList();
        List<Integer> numbers =
                IntStream.rangeClosed(1, kept.size() + 1).boxed().toList();
        if (!contradicted.isEmpty()) {
            return new Proposal(
                    firstYear, Map.of(), new Audit(numbers, 0, 0, 0, 0, null, null, false, List.of()), contradicted);
        }
        Set<Sum> hiddenBefore = new LinkedHashSet<>();
        kept.forEach(release -> hiddenBefore.addAll(release.figures().keySet()));
        hiddenBefore.removeAll(printedBefore.keySet());
        Map<Sum, Integer> small = small(unknowns, truth, kept, threshold);
        Choice choice = CellSuppression.of(
                unknowns, truth, printedBefore, hiddenBefore, offered(codes, firstYear, throughYear), small);
        Map<Sum, @Nullable Long> figures = new LinkedHashMap<>();
        for (Sum sum : offered(codes, firstYear, throughYear)) {
            figures.put(sum, choice.shown().contains(sum) ? Long.valueOf(unknowns.value(sum, truth)) : null);
        }
        Map<Sum, Long> union = new LinkedHashMap<>(printedBefore);
        figures.forEach((sum, value) -> {
            if (value != null) {
                union.put(sum, value);
            }
        });
        return new Proposal(
                firstYear, figures, Audit.of(unknowns, figures, union, small, choice, numbers, threshold), List.of());
    }

    /** What the releases print together; a number that two of them print is the same in both. */
    static Map<Sum, Long> printed(List<OutsideRelease> releases) {
        Map<Sum, Long> printed = new LinkedHashMap<>();
        releases.forEach(release -> release.figures().forEach((sum, value) -> {
            if (value != null) {
                printed.put(sum, value);
            }
        }));
        return printed;
    }

    /** What a release would print if nothing were small: incidence by device class and year, harm by device class. */
    static Set<Sum> offered(Codes codes, int firstYear, int throughYear) {
        Set<Sum> offered = new LinkedHashSet<>();
        for (String deviceClass : withAll(codes.deviceClasses())) {
            for (int year = firstYear; year <= throughYear; year++) {
                offered.add(Sum.events(deviceClass, year, year));
                offered.add(Sum.uses(deviceClass, year, year));
            }
            offered.add(Sum.events(deviceClass, firstYear, throughYear));
            offered.add(Sum.uses(deviceClass, firstYear, throughYear));
        }
        for (String deviceClass : withAll(codes.deviceClasses())) {
            for (String harm : codes.harms()) {
                offered.add(Sum.harm(deviceClass, harm, firstYear, throughYear));
            }
        }
        return offered;
    }

    private static List<@Nullable String> withAll(List<String> codes) {
        List<@Nullable String> all = new ArrayList<>(codes);
        all.add(null);
        return all;
    }

    /**
     * The sums that must not be worked out, each with its threshold: all cells and totals of one year and of every run of
     * spans, so that what one release has more than another is among them. Of uses those with and without an event as well.
     * The threshold of a sum is that of the release which first had its last year, or printed figures of then would fail the
     * threshold of today.
     */
    private static Map<Sum, Integer> small(Unknowns unknowns, long[] truth, List<OutsideRelease> kept, int threshold) {
        Map<Sum, Integer> small = new LinkedHashMap<>();
        candidates(unknowns).forEach(sum -> {
            int limit = kept.stream()
                    .filter(release -> release.throughYear() >= sum.lastYear())
                    .mapToInt(OutsideRelease::smallestCount)
                    .findFirst()
                    .orElse(threshold);
            long value = unknowns.value(sum, truth);
            if (SmallCounts.isSmall(value, limit)) {
                small.put(sum, limit);
            }
        });
        return small;
    }

    private static Stream<Sum> candidates(Unknowns unknowns) {
        Set<Sum> candidates = new LinkedHashSet<>();
        List<Integer> throughYears = unknowns.throughYears();
        for (String deviceClass : withAll(unknowns.deviceClasses())) {
            for (Measure measure : Measure.values()) {
                int last = throughYears.get(throughYears.size() - 1);
                for (int year = unknowns.firstYear(); year <= last; year++) {
                    candidates.add(new Sum(measure, deviceClass, null, year, year));
                }
            }
            for (int from = 0; from < throughYears.size(); from++) {
                for (int to = from; to < throughYears.size(); to++) {
                    int firstYear = unknowns.firstYearOf(from);
                    int lastYear = Objects.requireNonNull(throughYears.get(to));
                    for (Measure measure : Measure.values()) {
                        candidates.add(new Sum(measure, deviceClass, null, firstYear, lastYear));
                    }
                    unknowns.harms().forEach(harm -> candidates.add(Sum.harm(deviceClass, harm, firstYear, lastYear)));
                }
            }
        }
        return candidates.stream();
    }
}
