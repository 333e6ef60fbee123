package entrapment.registry.stats;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.solvers.BrentSolver;

/** Root of an increasing function: bracketed by doubling steps from a start value, then closed in on by Brent. */
final class MonotoneRoot {

    /** Relative and absolute; roots are logarithms, so this is close to the relative error of the limit itself. */
    private static final double ACCURACY = 1e-14;

    /** Steps double, so sixty of them leave any scale a count can reach. */
    private static final int MOST_STEPS = 60;

    private static final int MOST_EVALUATIONS = 1000;

    /** Logarithms of vanishing tails are infinite, which interpolation cannot use; a cut keeps order and sign. */
    private static final double LARGEST_VALUE = 1e4;

    private MonotoneRoot() {}

    /**
     * The point where an increasing function crosses 0.
     *
     * @param start any point; the nearer to the root the faster
     * @param step first step away from it, positive
     * @throws IllegalStateException if no step reaches the other side of 0, or the function is not a number
     */
    static double of(DoubleUnaryOperator increasing, double start, double step) {
        return of(increasing, start, step, ACCURACY);
    }

    /** The same for a function that is itself the outcome of an iteration and deserves no closer root than this. */
    static double of(DoubleUnaryOperator increasing, double start, double step, double accuracy) {
        double value = increasing.applyAsDouble(start);
        if (value == 0) {
            return start;
        }
        double direction = value < 0 ? 1 : -1;
        double near = start;
        for (int steps = 0; steps < MOST_STEPS; steps++) {
            double far = near + direction * step;
            double there = direction * increasing.applyAsDouble(far);
            if (there >= 0) {
                return close(increasing, Math.min(near, far), Math.max(near, far), accuracy);
            }
            if (!(there < 0)) {
                break;
            }
            near = far;
            step *= 2;
        }
        throw new IllegalStateException("no root within reach of the start value");
    }

    private static double close(DoubleUnaryOperator increasing, double lower, double upper, double accuracy) {
        return new BrentSolver(accuracy, accuracy)
                .solve(
                        MOST_EVALUATIONS,
                        x -> Math.max(-LARGEST_VALUE, Math.min(LARGEST_VALUE, increasing.applyAsDouble(x))),
                        lower,
                        upper);
    }
}
