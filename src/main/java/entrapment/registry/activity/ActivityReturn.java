package entrapment.registry.activity;

import entrapment.registry.vocabulary.Period;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A centre's whole return of one period: all uses, those that ended in a case included.
 *
 * @param counts one for each pattern, in a fixed order
 */
public record ActivityReturn(Period period, List<UseCount> counts) {

    /** By text, so that the same return sent in another order is the same return. */
    private static final Comparator<UseCount> ORDER =
            Comparator.comparing(count -> count.withUses(0).toString());

    /** Adds up rows of the same pattern. */
    static ActivityReturn of(Period period, List<UseCount> rows) {
        Map<UseCount, Long> uses = new LinkedHashMap<>();
        rows.forEach(row -> uses.merge(row.withUses(0), row.uses(), Long::sum));
        List<UseCount> counts = new ArrayList<>();
        uses.forEach((pattern, sum) -> counts.add(pattern.withUses(sum)));
        counts.sort(ORDER);
        return new ActivityReturn(period, List.copyOf(counts));
    }

    /** Uses of every pattern together. */
    public long uses() {
        return counts.stream().mapToLong(UseCount::uses).sum();
    }
}
