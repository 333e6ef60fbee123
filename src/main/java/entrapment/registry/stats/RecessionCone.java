package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.exception.ConvergenceException;

/**
 * The directions in which a likelihood never falls: all γ with bᵢᵀγ ≥ 0 for the rows that are all event (bᵢ the row) or
 * all non-event (bᵢ minus the row), and mᵢᵀγ = 0 for the mixed rows.
 *
 * <p>Every question about it is answered by a projection: the largest share of a vector v inside the cone is |P(v)|, and
 * by Moreau's theorem P(v) = v + Σλᵢbᵢ with the λ ≥ 0 that make it shortest, a non-negative least squares problem [1].
 * <b>Same as</b> the linear programmes of R {@code detectseparation} [2], but with few unknowns however many the rows.
 *
 * <p>[1] Lawson CL, Hanson RJ, Solving Least Squares Problems, SIAM 1995, ch. 23. [2] Konis K, DPhil thesis, Oxford 2007.
 */
final class RecessionCone {

    /** A vector is outside a half-space if it leaves it by more than this share of its length. */
    private static final double OUTSIDE = 1e-9;

    /** What a projection leaves of a vector is nothing below this share of its length. */
    private static final double NOTHING = 1e-8;

    /** What orthogonalising leaves of a unit vector is nothing below this. */
    private static final double DEPENDENT = 1e-9;

    /** Each step of the least squares adds or drops a row; a small multiple of the dimension is usual. */
    private static final int MOST_STEPS = 10_000;

    private final int dimension;
    private final List<double[]> equalities;
    private final List<double[]> normals;

    private RecessionCone(int dimension, List<double[]> equalities, List<double[]> normals) {
        this.dimension = dimension;
        this.equalities = equalities;
        this.normals = normals;
    }

    /** The cone of a design, in the coordinates θ. */
    static RecessionCone of(DesignMatrix design) {
        double[][] q = design.standardised();
        List<double[]> mixed = new ArrayList<>();
        List<double[]> sided = new ArrayList<>();
        for (int i = 0; i < design.patterns().size(); i++) {
            Proportion proportion = design.patterns().get(i).proportion();
            double[] row = new double[q.length];
            for (int j = 0; j < row.length; j++) {
                row[j] = proportion.events() == 0 ? -q[j][i] : q[j][i];
            }
            boolean oneSided = proportion.events() == 0 || proportion.events() == proportion.of();
            (oneSided ? sided : mixed).add(ThinQr.times(row, 1 / ThinQr.norm(row)));
        }
        RecessionCone equalities = new RecessionCone(q.length, basis(mixed, q.length), List.of());
        List<double[]> normals = new ArrayList<>();
        if (!equalities.isPoint()) {
            for (double[] row : sided) {
                double[] rest = equalities.within(row);
                double left = ThinQr.norm(rest);
                normals.add(left < DEPENDENT ? new double[q.length] : ThinQr.times(rest, 1 / left));
            }
        }
        return new RecessionCone(q.length, equalities.equalities, normals);
    }

    private static List<double[]> basis(List<double[]> vectors, int dimension) {
        List<double[]> basis = new ArrayList<>();
        for (double[] vector : vectors) {
            if (basis.size() == dimension) {
                break;
            }
            double[] rest = new RecessionCone(dimension, basis, List.of()).within(vector);
            double left = ThinQr.norm(rest);
            if (left > DEPENDENT) {
                basis.add(ThinQr.times(rest, 1 / left));
            }
        }
        return basis;
    }

    /** Whether the mixed rows alone leave no direction. */
    private boolean isPoint() {
        return equalities.size() == dimension;
    }

    /** What the equalities leave of a vector. */
    private double[] within(double[] vector) {
        double[] rest = vector.clone();
        for (int pass = 0; pass < 2; pass++) {
            for (double[] basis : equalities) {
                ThinQr.add(rest, -ThinQr.dot(basis, rest), basis);
            }
        }
        return rest;
    }

    /** Whether a model's contrast cᵀθ can grow without the likelihood ever falling. */
    boolean canGrow(double[] contrast) {
        if (isPoint()) {
            return false;
        }
        double[] rest = within(contrast);
        double left = ThinQr.norm(rest);
        return left > DEPENDENT * ThinQr.norm(contrast)
                && ThinQr.norm(projected(ThinQr.times(rest, 1 / left))) > NOTHING;
    }

    /**
     * How many rows, out of {@code normals}, some direction of the cone tells apart strictly. Directions that do so for
     * some rows each are found one after the other; their sum does it for all of these together.
     *
     * @return 0 if the cone is a point, that is, if there is no separation
     */
    int strictRows() {
        List<double[]> open = new ArrayList<>(normals);
        while (!open.isEmpty()) {
            double[] sum = new double[dimension];
            open.forEach(normal -> ThinQr.add(sum, 1, normal));
            double[] direction = projected(sum);
            double length = ThinQr.norm(direction);
            if (length <= NOTHING * Math.max(1, ThinQr.norm(sum))
                    || !open.removeIf(normal -> ThinQr.dot(normal, direction) > 100 * OUTSIDE * length)) {
                break;
            }
        }
        return normals.size() - open.size();
    }

    /**
     * P(v) by active sets: the half-space most violated joins, those whose λ would turn negative leave.
     *
     * @throws ConvergenceException after too many steps
     */
    private double[] projected(double[] v) {
        List<Integer> active = new ArrayList<>();
        double[] lambda = new double[0];
        double[] rest = v.clone();
        for (int steps = 0; steps < MOST_STEPS; steps++) {
            double length = ThinQr.norm(rest);
            int worst = mostViolated(rest, active);
            if (length < NOTHING / 100 * ThinQr.norm(v)
                    || worst < 0
                    || ThinQr.dot(normals.get(worst), rest) > -OUTSIDE * length) {
                return rest;
            }
            active.add(worst);
            lambda = nonNegative(v, active, append(lambda));
            double[] next = v.clone();
            for (int k = 0; k < active.size(); k++) {
                ThinQr.add(next, lambda[k], normals.get(active.get(k)));
            }
            if (ThinQr.norm(next) >= length) {
                return rest;
            }
            rest = next;
        }
        throw new ConvergenceException();
    }

    private int mostViolated(double[] rest, List<Integer> active) {
        int worst = -1;
        double least = 0;
        for (int i = 0; i < normals.size(); i++) {
            double product = ThinQr.dot(normals.get(i), rest);
            if (product < least && !active.contains(i)) {
                worst = i;
                least = product;
            }
        }
        return worst;
    }

    /** Least squares over the active rows; as long as a λ comes out negative, one walks to the first 0 and drops it. */
    private double[] nonNegative(double[] v, List<Integer> active, double[] feasible) {
        double[] lambda = feasible;
        double[] target = ThinQr.times(v, -1);
        while (true) {
            double[] wanted = ThinQr.twice(active.stream().map(normals::get).toArray(double[][]::new))
                    .nearest(target);
            double share = 1;
            for (int k = 0; k < wanted.length; k++) {
                share = wanted[k] >= 0 ? share : Math.min(share, lambda[k] / (lambda[k] - wanted[k]));
            }
            if (share >= 1) {
                return wanted;
            }
            List<Double> kept = new ArrayList<>();
            for (int k = wanted.length - 1; k >= 0; k--) {
                double moved = lambda[k] + share * (wanted[k] - lambda[k]);
                boolean first = wanted[k] < 0 && lambda[k] / (lambda[k] - wanted[k]) <= share;
                if (first || moved <= 0) {
                    active.remove(k);
                } else {
                    kept.add(0, moved);
                }
            }
            lambda = kept.stream().mapToDouble(Double::doubleValue).toArray();
            if (lambda.length == 0) {
                return lambda;
            }
        }
    }

    private static double[] append(double[] lambda) {
        double[] longer = new double[lambda.length + 1];
        System.arraycopy(lambda, 0, longer, 0, lambda.length);
        return longer;
    }
}
