package entrapment.registry.stats;

import entrapment.registry.stats.LogisticLikelihood.Point;
import java.util.Optional;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * The maximum of a logistic likelihood over all models or a {@link Subspace} of them, by scoring steps that are halved
 * until they climb.
 */
final class LogisticMaximum {

    /** Newton's steps converge within ten; far more mean that there is no maximum. */
    static final int MOST_PLAIN_STEPS = 50;

    /** Steps on a penalised likelihood ignore how leverages move and may converge linearly. */
    static final int MOST_PENALISED_STEPS = 2000;

    /** Times the score's own standard deviation: what is missing then is as small a share of a standard error. */
    private static final double SMALL_SCORE = 1e-10;

    /** No row's log odds move further in one step; beyond, the quadratic approximation says nothing. */
    private static final double LONGEST_STEP = 4;

    private static final int MOST_HALVINGS = 40;

    /** A fall within the rounding of the sum is none. */
    private static final double ROUNDING = 1e-13;

    private final LogisticLikelihood likelihood;
    private final Subspace subspace;
    private final double[][] columns;

    LogisticMaximum(LogisticLikelihood likelihood, Subspace subspace) {
        this.likelihood = likelihood;
        this.subspace = subspace;
        this.columns = subspace.columns(likelihood.q());
    }

    /** Climbs from a point along the directions of the subspace. */
    Optional<Point> from(double[] start, int mostSteps) {
        Point point = likelihood.at(start);
        for (int steps = 0; steps <= mostSteps; steps++) {
            double[] score = subspace.project(point.score);
            if (ThinQr.largest(score) < SMALL_SCORE * standardDeviation(point)) {
                return Optional.of(point);
            }
            double[] step = LogisticLikelihood.weighted(columns, point.weights).solveGram(score);
            double factor = Math.min(1, LONGEST_STEP / longestMove(step));
            if (!(factor > 0)) {
                return Optional.empty(); // the information about some coefficient vanished
            }
            Point next = climb(point, step, factor);
            if (next == null) {
                return Optional.empty(); // no step raised the likelihood
            }
            point = next;
        }
        return Optional.empty();
    }

    /** √Σnμ(1−μ): of a standardised column's score. */
    private static double standardDeviation(Point point) {
        double sum = 0;
        for (double weight : point.weights) {
            sum += weight;
        }
        return FastMath.sqrt(sum);
    }

    /** The next point, or {@code null} if no step climbs. */
    private @Nullable Point climb(Point point, double[] step, double longest) {
        double factor = longest;
        double least = point.value - ROUNDING * (1 + Math.abs(point.value));
        for (int halvings = 0; halvings < MOST_HALVINGS; halvings++) {
            Point next = likelihood.at(subspace.moved(point.theta, step, factor));
            if (next.value >= least) {
                return next;
            }
            factor /= 2;
        }
        return null;
    }

    /** The largest change of a row's log odds that a step makes. */
    private double longestMove(double[] step) {
        double[] move = new double[columns.length == 0 ? 0 : columns[0].length];
        for (int k = 0; k < columns.length; k++) {
            ThinQr.add(move, step[k], columns[k]);
        }
        return ThinQr.largest(move);
    }
}
