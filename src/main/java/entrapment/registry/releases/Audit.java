package entrapment.registry.releases;

import com.fasterxml.jackson.annotation.JsonIgnore;
import entrapment.registry.releases.Attack.Reach;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What an attack on a release together with all earlier ones can work out. For the steward: how many counts are hidden only
 * to protect others is not for whoever gets the figures.
 *
 * @param releases the numbers of the releases that were attacked together, this one included
 * @param audited how many small sums were attacked: cells, totals, spans between two releases, and uses without an event
 * @param hiddenPrimary counts of this release that are hidden because they are small
 * @param hiddenComplementary counts of it that are hidden to protect small ones
 * @param shown counts of it that are printed
 * @param smallestRange the least distance between the smallest and the largest value that a small sum can have; null where
 *     nothing is small, or no range is bounded
 * @param smallestMaximum the least of the largest values; null likewise
 * @param safe whether every small sum can be k or more, and k−1 or more apart, in whole numbers
 */
record Audit(
        List<Integer> releases,
        int audited,
        int hiddenPrimary,
        int hiddenComplementary,
        int shown,
        @Nullable Long smallestRange,
        @Nullable Long smallestMaximum,
        boolean safe,
        @JsonIgnore List<Sum> unprotected) {

    /** Attacks each small sum, and asks the kernel for a second opinion on each table by itself. */
    static Audit of(
            Unknowns unknowns,
            Map<Sum, @Nullable Long> figures,
            Map<Sum, Long> printed,
            Map<Sum, Integer> small,
            CellSuppression.Choice choice,
            List<Integer> releases,
            int threshold) {
        Attack attack = new Attack(unknowns, printed, choice.fillings());
        List<Sum> unprotected = new ArrayList<>();
        double range = Double.POSITIVE_INFINITY;
        double maximum = Double.POSITIVE_INFINITY;
        for (Map.Entry<Sum, Integer> entry : small.entrySet()) {
            Reach reach = attack.reach(entry.getKey(), entry.getValue(), Attack.Effort.SEARCH);
            if (!reach.guards(entry.getValue())) {
                unprotected.add(entry.getKey());
            }
            range = Math.min(range, reach.maximum() - reach.minimum());
            maximum = Math.min(maximum, reach.maximum());
        }
        return new Audit(
                releases,
                small.size(),
                choice.primary().size(),
                choice.complementary().size(),
                choice.shown().size(),
                whole(range),
                whole(maximum),
                unprotected.isEmpty() && TwoWayAudit.safe(unknowns, figures, small, threshold),
                unprotected);
    }

    private static @Nullable Long whole(double value) {
        return Double.isInfinite(value) ? null : Long.valueOf((long) Math.floor(value + 1e-6));
    }
}
