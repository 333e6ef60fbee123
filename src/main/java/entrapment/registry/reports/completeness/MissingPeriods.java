package entrapment.registry.reports.completeness;

import entrapment.registry.activity.StoredReturn;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;

/**
 * Periods between a centre's first and last contribution for which it sent no return.
 *
 * @param periods how many
 * @param named those that the viewer may see by name
 */
public record MissingPeriods(long periods, List<NamedPeriod> named) {

    /** A period without a return. */
    public record NamedPeriod(String centre, Period period) {}

    /** A period in which a centre was to be heard of, and whether it sent a return. */
    record Expected(String centre, Period period, boolean returned) {}

    /** The periods in which a centre sent a case or a return, and those of its returns. */
    private record Contributions(SortedSet<Period> contributed, Set<Period> returned) {

        Contributions() {
            this(new TreeSet<>(), new HashSet<>());
        }
    }

    static MissingPeriods of(List<Expected> expected, Predicate<String> named) {
        List<NamedPeriod> missing = expected.stream()
                .filter(period -> !period.returned())
                .map(period -> new NamedPeriod(period.centre(), period.period()))
                .toList();
        return new MissingPeriods(
                missing.size(),
                missing.stream().filter(period -> named.test(period.centre())).toList());
    }

    /** Every period from each centre's first contribution to its last that lies within a selection. */
    static List<Expected> expected(List<Tally> cases, List<StoredReturn> returns, Selection selection) {
        Map<String, Contributions> contributions = new TreeMap<>();
        for (Tally tally : cases) {
            contributions
                    .computeIfAbsent(tally.centre(), centre -> new Contributions())
                    .contributed
                    .add(tally.period());
        }
        for (StoredReturn stored : returns) {
            Contributions own = contributions.computeIfAbsent(stored.centre(), centre -> new Contributions());
            own.contributed.add(stored.period());
            own.returned.add(stored.period());
        }
        List<Expected> expected = new ArrayList<>();
        contributions.forEach((centre, sent) -> {
            for (Period period = sent.contributed.first();
                    period.compareTo(sent.contributed.last()) <= 0;
                    period = period.next()) {
                if (within(selection, period)) {
                    expected.add(new Expected(centre, period, sent.returned.contains(period)));
                }
            }
        });
        return expected;
    }

    private static boolean within(Selection selection, Period period) {
        Period from = selection.from();
        Period to = selection.to();
        return (from == null || period.compareTo(from) >= 0) && (to == null || period.compareTo(to) <= 0);
    }
}
