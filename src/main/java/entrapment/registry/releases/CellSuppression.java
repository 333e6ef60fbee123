package entrapment.registry.releases;

import entrapment.registry.releases.Attack.Reach;
import entrapment.registry.releases.Sum.Measure;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Chooses which of the sums that a release offers are hidden, so that nothing small can be worked out from it and all
 * earlier releases together.
 *
 * <p>Primary: offered sums that are small themselves. Complementary: as long as {@link Attack} narrows a small sum too far,
 * the cheapest printed sum of the proof is hidden: without it that proof fails. Hiding never narrows what another sum can
 * be, so one pass over the small sums is enough. Then each sum that was hidden so is shown again if every small sum stays
 * protected without it, the most wanted ones first. The choice is good, not proved smallest; whether it is safe is for
 * {@link Audit} to say.
 */
final class CellSuppression {

    private final Unknowns unknowns;
    private final long[] truth;
    private final Map<Sum, Long> printedBefore;
    private final Map<Sum, Integer> small;
    private final Set<Sum> shown = new LinkedHashSet<>();
    private final Set<Sum> primary = new LinkedHashSet<>();
    private final Set<Sum> complementary = new LinkedHashSet<>();
    private final List<Sum> unprotected = new ArrayList<>();
    private Collection<List<Long>> fillings;

    private CellSuppression(Unknowns unknowns, long[] truth, Map<Sum, Long> printedBefore, Map<Sum, Integer> small) {
        this.unknowns = unknowns;
        this.truth = truth;
        this.printedBefore = printedBefore;
        this.small = small;
        fillings = List.of(Arrays.stream(truth).boxed().toList());
    }

    /**
     * Which sums are hidden.
     *
     * @param shown of those offered
     * @param primary hidden because they are small
     * @param complementary hidden to protect small ones
     * @param unprotected small sums that earlier releases give away whatever is hidden in this one
     * @param fillings whole numbers that were found to agree with what is printed, or with less
     */
    record Choice(
            Set<Sum> shown,
            Set<Sum> primary,
            Set<Sum> complementary,
            List<Sum> unprotected,
            Collection<List<Long>> fillings) {}

    /**
     * @param truth the unknowns as they are
     * @param printedBefore by any earlier release; hiding these again would hide nothing
     * @param hiddenBefore hidden by an earlier release and printed by none: they stay hidden
     * @param offered what the release would print if nothing were small
     * @param small each sum that is small, with its threshold: counts below it are small
     */
    static Choice of(
            Unknowns unknowns,
            long[] truth,
            Map<Sum, Long> printedBefore,
            Set<Sum> hiddenBefore,
            Set<Sum> offered,
            Map<Sum, Integer> small) {
        CellSuppression concealment = new CellSuppression(unknowns, truth, printedBefore, small);
        for (Sum sum : offered) {
            if (printedBefore.containsKey(sum)) {
                concealment.shown.add(sum);
            } else if (small.containsKey(sum)) {
                concealment.primary.add(sum);
            } else if (hiddenBefore.contains(sum)) {
                concealment.complementary.add(sum);
            } else {
                concealment.shown.add(sum);
            }
        }
        concealment.protect();
        concealment.showAgain(hiddenBefore);
        return new Choice(
                concealment.shown,
                concealment.primary,
                concealment.complementary,
                concealment.unprotected,
                concealment.fillings);
    }

    private Map<Sum, Long> printed() {
        Map<Sum, Long> printed = new LinkedHashMap<>(printedBefore);
        shown.forEach(sum -> printed.putIfAbsent(sum, unknowns.value(sum, truth)));
        return printed;
    }

    private void protect() {
        Attack attack = new Attack(unknowns, printed(), fillings);
        for (Map.Entry<Sum, Integer> entry : small.entrySet()) {
            Sum sum = entry.getKey();
            while (!attack.guarded(sum, entry.getValue())) {
                Reach reach = attack.reach(sum, entry.getValue(), Attack.Effort.SEARCH);
                if (reach.guards(entry.getValue())) {
                    break;
                }
                Optional<Sum> cheapest = cheapest(reach.proof());
                if (cheapest.isEmpty()) {
                    unprotected.add(sum);
                    break;
                }
                shown.remove(cheapest.get());
                complementary.add(cheapest.get());
                attack = new Attack(unknowns, printed(), attack.fillings());
            }
        }
        fillings = attack.fillings();
    }

    /** Of the sums of a proof that this release may still hide; where the proof has none, of all that it shows. */
    private Optional<Sum> cheapest(Set<Sum> proof) {
        Optional<Sum> ofProof = proof.stream().filter(this::hideable).min(cheapestFirst());
        return ofProof.isPresent()
                ? ofProof
                : shown.stream().filter(this::hideable).min(cheapestFirst());
    }

    private boolean hideable(Sum sum) {
        return shown.contains(sum) && !printedBefore.containsKey(sum);
    }

    private Comparator<Sum> cheapestFirst() {
        return Comparator.comparingDouble(this::price);
    }

    /**
     * What a reader loses with a sum: a cell of the table costs least, zeros more than other cells because they are worth
     * knowing and protect badly, totals more, the grand total most; uses more than events. Among equals the smaller count.
     */
    private double price(Sum sum) {
        long value = unknowns.value(sum, truth);
        boolean allYears = sum.harm() == null && sum.firstYear() == unknowns.firstYear() && spansAll(sum);
        int totals = (sum.deviceClass() == null ? 1 : 0) + (allYears ? 1 : 0);
        double price = totals == 2 ? 100 : totals == 1 ? 8 : value == 0 ? 20 : 1;
        return price * (sum.measure() == Measure.USES ? 3 : 1) + value / (1.0 + value);
    }

    private boolean spansAll(Sum sum) {
        List<Integer> throughYears = unknowns.throughYears();
        return sum.lastYear() == throughYears.get(throughYears.size() - 1);
    }

    private void showAgain(Set<Sum> hiddenBefore) {
        List<Sum> candidates = complementary.stream()
                .filter(sum -> !hiddenBefore.contains(sum))
                .sorted(cheapestFirst().reversed())
                .toList();
        for (Sum sum : candidates) {
            shown.add(sum);
            if (staysProtected()) {
                complementary.remove(sum);
            } else {
                shown.remove(sum);
            }
        }
    }

    private boolean staysProtected() {
        Attack attack = new Attack(unknowns, printed(), fillings);
        for (Map.Entry<Sum, Integer> entry : small.entrySet()) {
            if (!unprotected.contains(entry.getKey())
                    && !attack.guarded(entry.getKey(), entry.getValue())
                    && !attack.reach(entry.getKey(), entry.getValue(), Attack.Effort.CORNERS)
                            .guards(entry.getValue())) {
                return false;
            }
        }
        Set<List<Long>> all = new LinkedHashSet<>(fillings);
        all.addAll(attack.fillings());
        fillings = all;
        return true;
    }
}
