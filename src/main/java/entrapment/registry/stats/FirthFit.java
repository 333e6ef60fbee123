package entrapment.registry.stats;

import entrapment.registry.stats.LogisticLikelihood.Point;
import java.util.Optional;
import org.apache.commons.math3.exception.ConvergenceException;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/** The maximum of a penalised likelihood, and what it loses away from there. */
final class FirthFit {

    /** Of a limit, in standard errors: the profile is itself the outcome of an iteration. */
    private static final double LIMIT_ACCURACY = 1e-9;

    private final DesignMatrix design;
    private final LogisticLikelihood likelihood;
    private final Point maximum;
    private final ThinQr information;
    private final double[] estimates;

    private FirthFit(DesignMatrix design, LogisticLikelihood likelihood, Point maximum) {
        this.design = design;
        this.likelihood = likelihood;
        this.maximum = maximum;
        this.information = likelihood.information(maximum.eta);
        this.estimates = design.coefficients(maximum.theta);
    }

    static Optional<FirthFit> of(DesignMatrix design) {
        LogisticLikelihood likelihood = LogisticLikelihood.penalised(design);
        return new LogisticMaximum(likelihood, Subspace.all(design.parameters()))
                .from(design.start(), LogisticMaximum.MOST_PENALISED_STEPS)
                .map(maximum -> new FirthFit(design, likelihood, maximum));
    }

    double penalisedLogLikelihood() {
        return maximum.value + design.logDeterminant();
    }

    double estimate(int column) {
        return estimates[column];
    }

    double standardError(int column) {
        return ThinQr.norm(information.solveTransposed(design.contrast(column)));
    }

    /** 2(ℓ*(β̂)−max ℓ*) over a part of the models; {@code null} if that maximum was not found. */
    @Nullable
    Double lost(Subspace part) {
        return new LogisticMaximum(likelihood, part)
                .from(part.nearest(maximum.theta), LogisticMaximum.MOST_PENALISED_STEPS)
                .map(this::lost)
                .orElse(null);
    }

    private double lost(Point point) {
        return Math.max(0, 2 * (maximum.value - point.value));
    }

    /** Both limits of a coefficient; a limit is {@code null} if it was not found. */
    Interval profile(int column, double z) {
        LogisticMaximum others = new LogisticMaximum(likelihood, design.fixing(column, estimates[column]));
        return new Interval(limit(column, -1, z, others), limit(column, 1, z, others));
    }

    /** Where the signed root of the loss reaches z: nearly linear in the coefficient, so found in a few steps. */
    private @Nullable Double limit(int column, int side, double z, LogisticMaximum others) {
        Profile profile = new Profile(column, side, others);
        try {
            double distance = MonotoneRoot.of(t -> profile.signedRoot(t) - z, z, z / 2, LIMIT_ACCURACY);
            return estimates[column] + side * standardError(column) * distance;
        } catch (IllegalStateException e) {
            return null;
        }
    }

    /** The loss along one coefficient, each maximum started from the one before. */
    private final class Profile {

        private final LogisticMaximum others;

        /** The move that adds one standard error to the coefficient and, to first order, keeps the others at their best. */
        private final double[] along;

        private double[] theta = maximum.theta;
        private double distance;

        private Profile(int column, int side, LogisticMaximum others) {
            this.others = others;
            this.along = ThinQr.times(information.solveGram(design.contrast(column)), side / standardError(column));
        }

        /** ±√loss with the coefficient so many standard errors from its estimate. */
        private double signedRoot(double t) {
            double[] start = theta.clone();
            ThinQr.add(start, t - distance, along);
            Point highest =
                    others.from(start, LogisticMaximum.MOST_PENALISED_STEPS).orElseThrow(ConvergenceException::new);
            theta = highest.theta;
            distance = t;
            return Math.signum(t) * FastMath.sqrt(lost(highest));
        }
    }
}
