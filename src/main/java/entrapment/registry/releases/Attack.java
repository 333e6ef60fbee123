package entrapment.registry.releases;

import entrapment.registry.stats.SmallCounts;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Iterator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;

/**
 * What a reader of everything that is printed can work out about a sum that is not: its smallest and its largest value over
 * all fillings of the unknowns that agree with every printed sum.
 *
 * <p>Plain subtraction goes first: an equation with one unknown left fixes it, and one whose rest is 0 fixes all of its
 * unknowns at 0. What is left goes to {@link Simplex}. A linear programme allows fractions, so its range may be wider than
 * that of whole numbers; therefore a sum counts as protected only if two fillings in whole numbers, each checked against
 * every equation, reach far enough apart. Where the corners of the programme are not whole, the answer errs towards not
 * protected.
 */
final class Attack {

    private static final double TINY = 1e-6;
    private static final int CORNERS = 12;
    private static final long SEED = 803;

    /** How hard whole numbers are looked for. */
    enum Effort {
        /** At the corners of the two bounds alone. */
        CORNERS,
        /** At further corners, and by branching, where those are fractions. */
        SEARCH
    }

    private final Unknowns unknowns;
    private final List<Equation> equations;
    private final @Nullable Long[] fixed;
    private final int[] reason;
    private final int[] column;
    private final List<Integer> left = new ArrayList<>();
    private final List<double[]> rows = new ArrayList<>();
    private final List<Double> totals = new ArrayList<>();
    private final int columns;
    private @Nullable Simplex simplex;
    private final Set<List<Long>> witnesses = new LinkedHashSet<>();

    /**
     * @param fillings whole numbers that may agree with what is printed; those that do are witnesses
     * @throws IllegalArgumentException if no filling agrees with what is printed
     */
    Attack(Unknowns unknowns, Map<Sum, Long> printed, Collection<List<Long>> fillings) {
        this.unknowns = unknowns;
        equations = new ArrayList<>(unknowns.ties());
        printed.forEach((sum, value) -> equations.add(new Equation(unknowns.of(sum), new int[0], value, sum)));
        fixed = new Long[unknowns.size()];
        reason = new int[unknowns.size()];
        column = new int[unknowns.size()];
        subtract();
        int open = 0;
        for (int each = 0; each < column.length; each++) {
            column[each] = fixed[each] == null ? open++ : -1;
        }
        columns = open;
        programme();
        for (List<Long> filling : fillings) {
            witness(filling.stream().mapToLong(Long::longValue).toArray());
        }
    }

    private void subtract() {
        boolean again = true;
        while (again) {
            again = false;
            for (int index = 0; index < equations.size(); index++) {
                again |= fix(index);
            }
        }
    }

    /** Fixes what one equation tells by itself. */
    private boolean fix(int index) {
        Equation equation = equations.get(index);
        int[] plus = open(equation.plus());
        int[] minus = open(equation.minus());
        long rest = rest(equation);
        boolean oneSided = plus.length == 0 || minus.length == 0;
        long signed = plus.length > 0 ? rest : -rest;
        if (oneSided && (signed < 0 || (signed != 0 && plus.length + minus.length == 0))) {
            throw new IllegalArgumentException("no filling agrees with what is printed");
        }
        int[] open = plus.length > 0 ? plus : minus;
        if (!oneSided || open.length == 0 || (open.length > 1 && rest != 0)) {
            return false;
        }
        for (int each : open) {
            fixed[each] = open.length == 1 ? signed : 0;
            reason[each] = index;
        }
        return true;
    }

    private int[] open(int[] members) {
        return Arrays.stream(members).filter(each -> fixed[each] == null).toArray();
    }

    private long rest(Equation equation) {
        return equation.total() - known(equation.plus()) + known(equation.minus());
    }

    private long known(int[] members) {
        long sum = 0;
        for (int each : members) {
            Long value = fixed[each];
            sum += value == null ? 0 : value;
        }
        return sum;
    }

    /** Equations that say the same of what is left are taken once. */
    private void programme() {
        Set<List<Integer>> seen = new LinkedHashSet<>();
        for (int index = 0; index < equations.size(); index++) {
            Equation equation = equations.get(index);
            double[] row = new double[columns];
            List<Integer> shape = new ArrayList<>();
            for (int each : open(equation.plus())) {
                row[column[each]] = 1;
                shape.add(each + 1);
            }
            for (int each : open(equation.minus())) {
                row[column[each]] = -1;
                shape.add(-each - 1);
            }
            if (!shape.isEmpty() && seen.add(shape)) {
                rows.add(row);
                totals.add((double) rest(equation));
                left.add(index);
            }
        }
    }

    /**
     * How far a sum can be moved.
     *
     * @param minimum over fillings that may be fractions
     * @param maximum likewise; infinite if nothing printed bounds it
     * @param low what the sum is in the filling with whole numbers in which it is lowest, of those found; null if none was
     * @param high likewise highest
     * @param proof the printed sums from which the two bounds follow
     */
    record Reach(
            double minimum,
            double maximum,
            @Nullable Witness low,
            @Nullable Witness high,
            Set<Sum> proof) {

        /** Whether it can be k or more, and k−1 or more apart, in whole numbers. */
        boolean guards(int threshold) {
            return Attack.guards(low, high, threshold);
        }
    }

    /** A filling with whole numbers that agrees with all that is printed, and a sum's value in it. */
    record Witness(long value, List<Long> filling) {}

    /** Every filling with whole numbers that was found; each is a witness for all sums. */
    Collection<List<Long>> fillings() {
        return List.copyOf(witnesses);
    }

    /** Whether fillings that were found already keep a sum from being worked out; a cheap look before the programmes. */
    boolean guarded(Sum sum, int threshold) {
        int[] members = unknowns.of(sum);
        return guards(extreme(members, -1), extreme(members, 1), threshold);
    }

    private static boolean guards(@Nullable Witness low, @Nullable Witness high, int threshold) {
        return low != null
                && high != null
                && SmallCounts.protects((double) low.value(), (double) high.value(), threshold);
    }

    /**
     * How far a sum can be moved. The two bounds are those of fractions; fillings with whole numbers are looked for until
     * they guard the sum, or the bounds say that none can.
     *
     * @throws IllegalArgumentException if no filling agrees with what is printed
     */
    Reach reach(Sum sum, int threshold, Effort effort) {
        Simplex programme = simplex == null ? new Simplex(rows, totals, columns) : simplex;
        simplex = programme;
        int[] members = unknowns.of(sum);
        double[] form = new double[columns];
        for (int each : open(members)) {
            form[column[each]] += 1;
        }
        double[] opposite = Arrays.stream(form).map(each -> -each).toArray();
        Simplex.Optimum top = programme.maximise(form, threshold);
        witness(filling(top.at()));
        Simplex.Optimum bottom = programme.maximise(opposite, threshold);
        witness(filling(bottom.at()));
        Reach reach = new Reach(
                known(members) - bottom.value(),
                known(members) + top.value(),
                extreme(members, -1),
                extreme(members, 1),
                proof(members, top.proof(), bottom.proof()));
        boolean wide = SmallCounts.protects(reach.minimum(), reach.maximum() + TINY, threshold);
        if (!wide || reach.guards(threshold) || effort == Effort.CORNERS) {
            return reach;
        }
        List<Runnable> searches = List.of(
                () -> hunt(programme, form, threshold),
                () -> hunt(programme, opposite, threshold),
                () -> new Branching(form, threshold).search(),
                () -> new Branching(opposite, threshold).search());
        Iterator<Runnable> next = searches.iterator();
        while (next.hasNext() && !guarded(sum, threshold)) {
            next.next().run();
        }
        return new Reach(reach.minimum(), reach.maximum(), extreme(members, -1), extreme(members, 1), reach.proof());
    }

    /** Other corners that are nearly as good: the same form with a little of every unknown beside it, from a fixed seed. */
    private void hunt(Simplex programme, double[] form, int threshold) {
        SplittableRandom noise = new SplittableRandom(SEED);
        for (int corner = 0; corner < CORNERS; corner++) {
            double[] near = new double[form.length];
            for (int each = 0; each < near.length; each++) {
                near[each] = form[each] * (1 + corner) + (noise.nextDouble() - 0.5);
            }
            witness(filling(programme.maximise(near, threshold).at()));
        }
    }

    private long[] filling(double[] at) {
        long[] filling = new long[column.length];
        for (int each = 0; each < filling.length; each++) {
            Long value = fixed[each];
            filling[each] = value == null ? Math.round(at[column[each]]) : value;
        }
        return filling;
    }

    private void witness(long[] filling) {
        if (Arrays.stream(filling).allMatch(each -> each >= 0)
                && equations.stream().allMatch(equation -> equation.holds(filling))) {
            witnesses.add(Arrays.stream(filling).boxed().toList());
        }
    }

    private @Nullable Witness extreme(int[] members, int sign) {
        Witness best = null;
        for (List<Long> filling : witnesses) {
            long value = Arrays.stream(members).mapToLong(filling::get).sum();
            if (best == null || sign * value > sign * best.value()) {
                best = new Witness(value, filling);
            }
        }
        return best;
    }

    /** Looks for whole numbers where the corners are fractions: one of them is bounded from above or from below, and so on. */
    private final class Branching {

        private static final int MOST_PROGRAMMES = 20;

        private final double[] form;
        private final int threshold;
        private int programmes;

        Branching(double[] form, int threshold) {
            this.form = form;
            this.threshold = threshold;
        }

        void search() {
            search(List.of());
        }

        /** @param bounds each as a column, a sign and a bound: sign times the unknown is at most the bound */
        private boolean search(List<double[]> bounds) {
            if (++programmes > MOST_PROGRAMMES) {
                return false;
            }
            double[] at;
            try {
                at = bounded(bounds)
                        .maximise(Arrays.copyOf(form, form.length + bounds.size()), threshold)
                        .at();
            } catch (IllegalArgumentException nothing) {
                return false;
            }
            for (int each = 0; each < form.length; each++) {
                double floor = Math.floor(at[each] + TINY);
                if (at[each] - floor > TINY) {
                    return search(and(bounds, each, -1, -floor - 1)) || search(and(bounds, each, 1, floor));
                }
            }
            witness(filling(at));
            return true;
        }

        private static List<double[]> and(List<double[]> bounds, int column, int sign, double bound) {
            List<double[]> more = new ArrayList<>(bounds);
            more.add(new double[] {column, sign, bound});
            return more;
        }

        /** Each bound is an equation with a slack of its own. */
        private Simplex bounded(List<double[]> bounds) {
            int width = form.length + bounds.size();
            List<double[]> all = new ArrayList<>();
            List<Double> right = new ArrayList<>(totals);
            rows.forEach(row -> all.add(Arrays.copyOf(row, width)));
            for (int index = 0; index < bounds.size(); index++) {
                double[] bound = bounds.get(index);
                double[] row = new double[width];
                row[(int) bound[0]] = bound[1];
                row[form.length + index] = 1;
                all.add(row);
                right.add(bound[2]);
            }
            return new Simplex(all, right, width);
        }
    }

    /** The equations of a bound, and those by which the other unknowns in them were fixed, and so on. */
    private Set<Sum> proof(int[] members, boolean[] top, boolean[] bottom) {
        Set<Integer> used = new LinkedHashSet<>();
        for (int row = 0; row < top.length; row++) {
            if (top[row] || bottom[row]) {
                trace(left.get(row), used);
            }
        }
        for (int each : members) {
            if (fixed[each] != null) {
                trace(reason[each], used);
            }
        }
        Set<Sum> proof = new LinkedHashSet<>();
        for (int index : used) {
            Sum printed = equations.get(index).printed();
            if (printed != null) {
                proof.add(printed);
            }
        }
        return proof;
    }

    private void trace(int index, Set<Integer> used) {
        if (!used.add(index)) {
            return;
        }
        Equation equation = equations.get(index);
        for (int[] side : List.of(equation.plus(), equation.minus())) {
            for (int each : side) {
                if (fixed[each] != null) {
                    trace(reason[each], used);
                }
            }
        }
    }
}
