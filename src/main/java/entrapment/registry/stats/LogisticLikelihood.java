package entrapment.registry.stats;

import static entrapment.registry.stats.Logit.proportion;
import static entrapment.registry.stats.Logit.softplus;

import org.apache.commons.math3.util.FastMath;

/**
 * The log-likelihood of a logistic model over a design, plain or with Firth's penalty, in the coordinates θ of
 * {@link DesignMatrix}; without binomial coefficients.
 *
 * <p>ℓ = Σ[y·log μ + (n−y)·log(1−μ)], logit μ = η = Qθ; ℓ* = ℓ + ½log|QᵀWQ|, W = diag(nμ(1−μ)). Score Qᵀ(y−nμ+h(½−μ))
 * with h the leverage of each row in √W·Q, 0 without the penalty [1].
 *
 * <p>[1] Firth D, Biometrika 1993;80:27.
 */
final class LogisticLikelihood {

    private final double[][] q;
    private final double[] events;
    private final double[] of;
    private final boolean penalised;

    private LogisticLikelihood(DesignMatrix design, boolean penalised) {
        this.q = design.standardised();
        this.events = design.patterns().stream()
                .mapToDouble(pattern -> pattern.proportion().events())
                .toArray();
        this.of = design.patterns().stream()
                .mapToDouble(pattern -> pattern.proportion().of())
                .toArray();
        this.penalised = penalised;
    }

    static LogisticLikelihood plain(DesignMatrix design) {
        return new LogisticLikelihood(design, false);
    }

    static LogisticLikelihood penalised(DesignMatrix design) {
        return new LogisticLikelihood(design, true);
    }

    /** The function at a point. */
    static final class Point {

        /** The model. */
        final double[] theta;

        /** Its linear predictor, row by row. */
        final double[] eta;

        /** ℓ or ℓ*. */
        final double value;

        /** The gradient. */
        final double[] score;

        /**
         * (n+h)μ(1−μ), the weights of a step: a penalised fit is a plain one on n+h trials and y+h/2 events as long as h
         * stands still.
         */
        final double[] weights;

        private Point(double[] theta, double[] eta, double value, double[] score, double[] weights) {
            this.theta = theta;
            this.eta = eta;
            this.value = value;
            this.score = score;
            this.weights = weights;
        }
    }

    Point at(double[] theta) {
        double[] eta = new double[of.length];
        for (int j = 0; j < q.length; j++) {
            ThinQr.add(eta, theta[j], q[j]);
        }
        double[] weights = new double[of.length];
        double[] residuals = new double[of.length];
        double[] halves = new double[of.length];
        double value = 0;
        for (int i = 0; i < eta.length; i++) {
            double e = FastMath.exp(-Math.abs(eta[i]));
            double mu = (eta[i] < 0 ? e : 1) / (1 + e);
            double nu = (eta[i] < 0 ? 1 : e) / (1 + e);
            double nonEvents = of[i] - events[i];
            weights[i] = of[i] * mu * nu;
            halves[i] = (nu - mu) / 2;
            // y−nμ in a form that keeps its digits when nearly all trials are events.
            residuals[i] = events[i] * nu - nonEvents * mu;
            value -= events[i] * Math.max(-eta[i], 0) + nonEvents * Math.max(eta[i], 0) + of[i] * FastMath.log1p(e);
        }
        if (penalised) {
            ThinQr information = weighted(q, weights);
            value += information.logDeterminant();
            double[] leverages = information.leverages();
            for (int i = 0; i < eta.length; i++) {
                residuals[i] += leverages[i] * halves[i];
                weights[i] *= 1 + leverages[i] / of[i];
            }
        }
        double[] score = new double[q.length];
        for (int j = 0; j < q.length; j++) {
            score[j] = ThinQr.dot(q[j], residuals);
        }
        return new Point(theta, eta, value, score, weights);
    }

    /** √W·Q at a linear predictor, whose Gram matrix is Fisher's information; no penalty in it. */
    ThinQr information(double[] eta) {
        double[] weights = new double[of.length];
        for (int i = 0; i < eta.length; i++) {
            weights[i] = of[i] * proportion(eta[i]) * proportion(-eta[i]);
        }
        return weighted(q, weights);
    }

    /** Twice what ℓ lacks to that of the observed proportions: the residual deviance. */
    double deviance(double[] eta) {
        double half = 0;
        for (int i = 0; i < eta.length; i++) {
            double y = events[i];
            double m = of[i] - y;
            half += y == 0 ? 0 : y * (FastMath.log(y / of[i]) + softplus(-eta[i]));
            half += m == 0 ? 0 : m * (FastMath.log(m / of[i]) + softplus(eta[i]));
        }
        return Math.max(0, 2 * half);
    }

    double[][] q() {
        return q;
    }

    /** √W·A. */
    static ThinQr weighted(double[][] columns, double[] weights) {
        double[] roots = new double[weights.length];
        for (int i = 0; i < roots.length; i++) {
            roots[i] = FastMath.sqrt(weights[i]);
        }
        double[][] weighted = new double[columns.length][roots.length];
        for (int j = 0; j < columns.length; j++) {
            for (int i = 0; i < roots.length; i++) {
                weighted[j][i] = roots[i] * columns[j][i];
            }
        }
        return ThinQr.once(weighted);
    }
}
