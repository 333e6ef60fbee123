package entrapment.registry.releases;

import entrapment.registry.releases.Attack.Reach;
import entrapment.registry.releases.Sum.Measure;
import entrapment.registry.stats.SmallCounts;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Chooses by the rule of {@link SmallCounts} which of the sums that a release offers are hidden, so that nothing small can be
 * worked out from it and all earlier releases together.
 *
 * <p>As long as {@link Attack} narrows a small sum too far, the cheapest printed sum of the proof is hidden: without it that
 * proof fails. Hiding never narrows what another sum can be, so one pass over the small sums is enough. The choice is good,
 * not proved smallest; whether it is safe is for {@link Audit} to say.
 */
final class CellSuppression implements SmallCounts.Disclosure<Sum> {

    private final Unknowns unknowns;
    private final long[] truth;
    private final Map<Sum, Long> printedBefore;
    private final Map<Sum, Integer> small;
    private final Set<Sum> shown = new LinkedHashSet<>();
    private Collection<List<Long>> fillings;
    private @Nullable Attack attack;
    private Set<Sum> proof = Set.of();

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
     * @param fillings whole numbers that were found to agree with what is printed, or with less
     */
    record Choice(Set<Sum> shown, Set<Sum> primary, Set<Sum> complementary, Collection<List<Long>> fillings) {}

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
        CellSuppression suppression = new CellSuppression(unknowns, truth, printedBefore, small);
        Set<Sum> primary = new LinkedHashSet<>();
        Set<Sum> complementary = new LinkedHashSet<>();
        for (Sum sum : offered) {
            if (printedBefore.containsKey(sum)) {
                suppression.shown.add(sum);
            } else if (small.containsKey(sum)) {
                primary.add(sum);
            } else if (hiddenBefore.contains(sum)) {
                complementary.add(sum);
            } else {
                suppression.shown.add(sum);
            }
        }
        complementary.addAll(SmallCounts.protect(small.keySet(), suppression).complementary());
        suppression.settle();
        return new Choice(suppression.shown, primary, complementary, suppression.fillings);
    }

    private Map<Sum, Long> printed() {
        Map<Sum, Long> printed = new LinkedHashMap<>(printedBefore);
        shown.forEach(sum -> printed.putIfAbsent(sum, unknowns.value(sum, truth)));
        return printed;
    }

    /** The attack on what is shown now. */
    private Attack attack() {
        Attack now = attack == null ? new Attack(unknowns, printed(), fillings) : attack;
        attack = now;
        return now;
    }

    /** Ends the attack before something else is shown or hidden, and keeps what it found. */
    private void settle() {
        if (attack != null) {
            fillings = attack.fillings();
            attack = null;
        }
    }

    @Override
    public boolean protects(Sum sum) {
        int threshold = threshold(sum);
        if (attack().guarded(sum, threshold)) {
            return true;
        }
        Reach reach = attack().reach(sum, threshold, Attack.Effort.SEARCH);
        proof = reach.proof();
        return reach.guards(threshold);
    }

    /** Looks at the corners alone, and keeps what it found only if all of it is protected. */
    @Override
    public boolean protectsAll(Collection<Sum> sums) {
        Attack quick = new Attack(unknowns, printed(), fillings);
        for (Sum sum : sums) {
            int threshold = threshold(sum);
            if (!quick.guarded(sum, threshold)
                    && !quick.reach(sum, threshold, Attack.Effort.CORNERS).guards(threshold)) {
                return false;
            }
        }
        Set<List<Long>> all = new LinkedHashSet<>(fillings);
        all.addAll(quick.fillings());
        fillings = all;
        return true;
    }

    private int threshold(Sum sum) {
        return Objects.requireNonNull(small.get(sum));
    }

    /** Of the sums of a proof the cheapest that this release may still hide; where the proof has none, of all that it shows. */
    @Override
    public Collection<Sum> further(Sum sum) {
        Optional<Sum> ofProof = proof.stream().filter(this::hideable).min(cheapestFirst());
        return ofProof.or(() -> shown.stream().filter(this::hideable).min(cheapestFirst())).stream()
                .toList();
    }

    private boolean hideable(Sum sum) {
        return shown.contains(sum) && !printedBefore.containsKey(sum);
    }

    @Override
    public void hide(Sum sum) {
        settle();
        shown.remove(sum);
    }

    @Override
    public void show(Sum sum) {
        settle();
        shown.add(sum);
    }

    @Override
    public Comparator<Sum> dearestFirst() {
        return cheapestFirst().reversed();
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
}
