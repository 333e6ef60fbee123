package entrapment.registry.stats;

import entrapment.registry.stats.MarginalLikelihood.Point;
import java.util.Optional;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.NonPositiveDefiniteMatrixException;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.util.FastMath;

/** The maximum of a {@link MarginalLikelihood} by Newton's method, with a ridge where the function is not concave. */
final class MarginalMaximum {

    /** Centres that differ by one in log odds: a wide spread, from which a smaller one is found without passing 0. */
    private static final double START_SIGMA = 1;

    /** Centres this far apart are all or nothing; the likelihood then rises with σ for ever. */
    private static final double LARGEST_SIGMA = 10;

    /** Below this the median odds ratio is 1.001, no spread that a registry could see, and the search ends. */
    static final double SMALLEST_SIGMA = 1e-3;

    private static final int MOST_STEPS = 200;
    private static final int MOST_HALVINGS = 40;

    /** In log odds and in log σ; beyond, the quadratic approximation says nothing. */
    private static final double LONGEST_STEP = 1;

    /** Of a score's standard deviation, as in {@link LogisticMaximum} but for the error of the integrals. */
    private static final double SMALL_SCORE = 1e-8;

    /** Of the largest curvature: the first ridge tried; each further one is ten times as high. */
    private static final double FIRST_RIDGE = 1e-6;

    private static final double RIDGE_GROWTH = 10;

    private static final double ROUNDING = 1e-13;

    private MarginalMaximum() {}

    /**
     * Climbs from θ.
     *
     * @param events the smaller of events and non-events, which sets the scale of a score
     */
    static Optional<Point> from(MarginalLikelihood likelihood, double[] theta, long events) {
        double[] start = new double[theta.length + 1];
        System.arraycopy(theta, 0, start, 0, theta.length);
        start[theta.length] = FastMath.log(START_SIGMA);
        Point point = likelihood.at(start);
        for (int steps = 0; steps < MOST_STEPS; steps++) {
            if (point.sigma() < SMALLEST_SIGMA
                    || ThinQr.largest(point.gradient) < SMALL_SCORE * FastMath.sqrt((double) events)) {
                return Optional.of(point);
            }
            double[] step = step(point);
            double factor = Math.min(1, LONGEST_STEP / ThinQr.largest(step));
            Point next = moved(likelihood, point, step, factor);
            double least = point.value - ROUNDING * (1 + Math.abs(point.value));
            for (int halvings = 0; !(next.value >= least); halvings++) {
                if (halvings == MOST_HALVINGS) {
                    return Optional.empty(); // no step raised the likelihood
                }
                factor /= 2;
                next = moved(likelihood, point, step, factor);
            }
            if (next.sigma() > LARGEST_SIGMA) {
                return Optional.empty(); // the spread between clusters grows without end
            }
            point = next;
        }
        return Optional.empty();
    }

    private static double[] step(Point point) {
        RealVector gradient = new ArrayRealVector(point.gradient);
        RealMatrix information = MatrixUtils.createRealMatrix(point.hessian).scalarMultiply(-1);
        RealMatrix unit = MatrixUtils.createRealIdentityMatrix(gradient.getDimension());
        double ridge = 0;
        Optional<DecompositionSolver> solver = solver(information);
        while (solver.isEmpty()) {
            ridge = Math.max(FIRST_RIDGE * information.getNorm(), RIDGE_GROWTH * ridge);
            solver = solver(information.add(unit.scalarMultiply(ridge)));
        }
        return solver.get().solve(gradient).toArray();
    }

    /** Solves with the observed information of a point; empty where that is not positive, so the point no maximum. */
    static Optional<DecompositionSolver> information(Point point) {
        return solver(MatrixUtils.createRealMatrix(point.hessian).scalarMultiply(-1));
    }

    private static Optional<DecompositionSolver> solver(RealMatrix information) {
        try {
            return Optional.of(new CholeskyDecomposition(information).getSolver());
        } catch (NonPositiveDefiniteMatrixException e) {
            return Optional.empty();
        }
    }

    private static Point moved(MarginalLikelihood likelihood, Point point, double[] step, double factor) {
        double[] at = point.at.clone();
        ThinQr.add(at, factor, step);
        return likelihood.at(at);
    }
}
