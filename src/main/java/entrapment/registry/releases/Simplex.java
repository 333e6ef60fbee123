package entrapment.registry.releases;

import java.util.Arrays;
import java.util.List;

/**
 * The largest value of a linear form over x ≥ 0 with A·x = b, by the primal simplex method on a full tableau.
 *
 * <p>Made for many forms over one system: phase one runs once, and each form starts from the last corner. Entering: the
 * largest reduced gain, and after {@link #PATIENCE} steps without gain the first one (Bland), which cannot cycle. The
 * tableaux of this module have entries −1, 0 and 1 nearly everywhere; what lies within 1e-9 of a whole number is set to
 * it. Whoever acts on a corner checks it in whole numbers ({@link Attack}).
 */
final class Simplex {

    private static final double TINY = 1e-9;
    private static final double LEAST_PIVOT = 1e-7;
    private static final int PATIENCE = 40;

    private final List<double[]> equations;
    private final List<Double> totals;
    private final int unknowns;
    private final double[][] rows;
    private final int[] basis;
    private final double[] gains;

    /**
     * Columns: the unknowns, one artificial for each equation, the right side.
     *
     * @param equations coefficients, an equation a row
     * @param totals right sides
     * @throws IllegalArgumentException if no x ≥ 0 satisfies the equations
     */
    Simplex(List<double[]> equations, List<Double> totals, int unknowns) {
        this.equations = equations;
        this.totals = totals;
        this.unknowns = unknowns;
        rows = new double[equations.size()][unknowns + equations.size() + 1];
        basis = new int[equations.size()];
        gains = new double[unknowns + equations.size() + 1];
        findCorner();
    }

    /** Phase one: the artificials are brought down to 0. */
    private void findCorner() {
        int last = gains.length - 1;
        Arrays.fill(gains, 0);
        for (int i = 0; i < rows.length; i++) {
            Arrays.fill(rows[i], 0);
            double sign = totals.get(i) < 0 ? -1 : 1;
            for (int j = 0; j < unknowns; j++) {
                rows[i][j] = sign * equations.get(i)[j];
                gains[j] += rows[i][j];
            }
            rows[i][unknowns + i] = 1;
            rows[i][last] = sign * totals.get(i);
            gains[last] += rows[i][last];
            basis[i] = unknowns + i;
        }
        climb();
        if (gains[last] > 1e-6) {
            throw new IllegalArgumentException("no filling agrees with what is printed");
        }
        for (int i = 0; i < rows.length; i++) {
            leaveArtificial(i);
        }
    }

    /** A redundant equation keeps its artificial at 0, in a row of zeros that no later step touches. */
    private void leaveArtificial(int row) {
        for (int j = 0; basis[row] >= unknowns && j < unknowns; j++) {
            if (Math.abs(rows[row][j]) > LEAST_PIVOT) {
                pivot(row, j);
            }
        }
    }

    /** Where a form is largest. */
    static final class Optimum {

        private final double value;
        private final double[] at;
        private final boolean[] proof;

        private Optimum(double value, double[] at, boolean[] proof) {
            this.value = value;
            this.at = at;
            this.proof = proof;
        }

        /** Infinite if nothing bounds it. */
        double value() {
            return value;
        }

        /** A corner where it is reached; if it is infinite, a point where the form is {@code enough} above a corner. */
        double[] at() {
            return at;
        }

        /** The equations from which the bound follows. */
        boolean[] proof() {
            return proof;
        }
    }

    Optimum maximise(double[] form, double enough) {
        Optimum optimum = climb(form, enough);
        if (!holds(optimum.at())) {
            findCorner();
            optimum = climb(form, enough);
        }
        return optimum;
    }

    /** Many steps add up their roundings; a point that breaks an equation is a sign to start afresh. */
    private boolean holds(double[] at) {
        for (int i = 0; i < rows.length; i++) {
            double rest = totals.get(i);
            for (int j = 0; j < unknowns; j++) {
                rest -= equations.get(i)[j] * at[j];
            }
            if (Math.abs(rest) > 1e-6) {
                return false;
            }
        }
        return Arrays.stream(at).allMatch(each -> each > -1e-6);
    }

    private Optimum climb(double[] form, double enough) {
        int last = gains.length - 1;
        Arrays.fill(gains, 0);
        System.arraycopy(form, 0, gains, 0, unknowns);
        for (int i = 0; i < rows.length; i++) {
            double weight = basis[i] < unknowns ? form[basis[i]] : 0;
            if (weight != 0) {
                for (int j = 0; j <= last; j++) {
                    gains[j] -= weight * rows[i][j];
                }
            }
        }
        int unbounded = climb();
        double[] at = new double[unknowns];
        double step = unbounded < 0 ? 0 : Math.ceil(enough / gains[unbounded]);
        for (int i = 0; i < rows.length; i++) {
            if (basis[i] < unknowns) {
                at[basis[i]] = rows[i][last] - (unbounded < 0 ? 0 : step * rows[i][unbounded]);
            }
        }
        boolean[] proof = new boolean[rows.length];
        if (unbounded >= 0) {
            at[unbounded] = step;
            return new Optimum(Double.POSITIVE_INFINITY, at, proof);
        }
        for (int i = 0; i < rows.length; i++) {
            proof[i] = Math.abs(gains[unknowns + i]) > TINY;
        }
        return new Optimum(-gains[last], at, proof);
    }

    /** Steps until nothing more is gained; the column along which there is no bound, or −1. */
    private int climb() {
        int idle = 0;
        while (true) {
            int entering = entering(idle > PATIENCE);
            if (entering < 0) {
                return -1;
            }
            int leaving = leaving(entering);
            if (leaving < 0) {
                return entering;
            }
            idle = rows[leaving][gains.length - 1] > TINY ? 0 : idle + 1;
            pivot(leaving, entering);
        }
    }

    private int entering(boolean first) {
        int best = -1;
        for (int j = 0; j < unknowns; j++) {
            if (gains[j] > (best < 0 ? TINY : gains[best])) {
                best = j;
                if (first) {
                    return best;
                }
            }
        }
        return best;
    }

    private int leaving(int entering) {
        int last = gains.length - 1;
        int best = -1;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < rows.length; i++) {
            if (rows[i][entering] > LEAST_PIVOT) {
                double ratio = rows[i][last] / rows[i][entering];
                if (ratio < least - TINY || (ratio < least + TINY && (best < 0 || basis[i] < basis[best]))) {
                    least = Math.min(ratio, least);
                    best = i;
                }
            }
        }
        return best;
    }

    private void pivot(int row, int column) {
        double[] by = rows[row];
        double divisor = by[column];
        if (divisor != 1) {
            for (int j = 0; j < by.length; j++) {
                by[j] = tidy(by[j] / divisor);
            }
        }
        for (int i = 0; i < rows.length; i++) {
            if (i != row) {
                subtract(rows[i], by, column);
            }
        }
        subtract(gains, by, column);
        basis[row] = column;
    }

    private static void subtract(double[] from, double[] by, int column) {
        double factor = from[column];
        if (factor != 0) {
            for (int j = 0; j < from.length; j++) {
                if (by[j] != 0) {
                    from[j] = tidy(from[j] - factor * by[j]);
                }
            }
        }
    }

    private static double tidy(double value) {
        double whole = Math.rint(value);
        return Math.abs(value - whole) < TINY ? whole : value;
    }
}
