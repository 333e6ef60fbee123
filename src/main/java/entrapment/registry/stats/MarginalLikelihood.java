package entrapment.registry.stats;

import static entrapment.registry.stats.Logit.proportion;
import static entrapment.registry.stats.Logit.softplus;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.util.FastMath;

/**
 * The log-likelihood of a logistic model whose intercept differs between clusters by a normal distribution, integrated over it, in
 * the coordinates θ of {@link DesignMatrix} and log σ, σ the distribution's standard deviation.
 *
 * <p>ℓ = Σ_c log∫Πμ^y(1−μ)^(n−y)φ(u)du with logit μ = Qθ+σu, by Gauss–Hermite nodes around each cluster's mode, scaled by
 * its curvature [1]. Gradient and Hessian are those of the integral: the mean of the score, and the mean of the Hessian
 * plus the variance of the score, under the distribution of u given the cluster's data [2].
 *
 * <p>[1] Pinheiro JC, Bates DM, J Comput Graph Stat 1995;4:12. [2] Louis TA, J R Stat Soc B 1982;44:226.
 */
final class MarginalLikelihood {

    private final int parameters;
    private final List<ClusterLikelihood> clusters;

    private MarginalLikelihood(int parameters, List<ClusterLikelihood> clusters) {
        this.parameters = parameters;
        this.clusters = clusters;
    }

    static MarginalLikelihood of(DesignMatrix design, String cluster) {
        Map<String, List<Integer>> rows = new LinkedHashMap<>();
        for (int i = 0; i < design.patterns().size(); i++) {
            rows.computeIfAbsent(design.patterns().get(i).level(cluster), name -> new ArrayList<>())
                    .add(i);
        }
        double[][] q = design.standardised();
        return new MarginalLikelihood(
                q.length,
                rows.values().stream()
                        .map(indices -> ClusterLikelihood.of(design, q, indices))
                        .toList());
    }

    int clusters() {
        return clusters.size();
    }

    /** The function at a point: θ, then log σ. */
    static final class Point {

        final double[] at;
        double value;
        final double[] gradient;
        final double[][] hessian;

        private Point(double[] at) {
            this.at = at;
            this.gradient = new double[at.length];
            this.hessian = new double[at.length][at.length];
        }

        double sigma() {
            return FastMath.exp(at[at.length - 1]);
        }
    }

    Point at(double[] thetaAndLogSigma) {
        Point point = new Point(thetaAndLogSigma);
        clusters.forEach(cluster -> cluster.addTo(point));
        fromSigmaToItsLogarithm(point);
        return point;
    }

    /** d/dlog σ = σ·d/dσ, and d²/dlog σ² = σ²·d²/dσ² + σ·d/dσ. */
    private void fromSigmaToItsLogarithm(Point point) {
        double sigma = point.sigma();
        point.gradient[parameters] *= sigma;
        for (int j = 0; j < parameters; j++) {
            point.hessian[j][parameters] *= sigma;
            point.hessian[parameters][j] *= sigma;
        }
        point.hessian[parameters][parameters] *= sigma * sigma;
        point.hessian[parameters][parameters] += point.gradient[parameters];
    }

    /** One cluster's rows. */
    private static final class ClusterLikelihood {

        /** Enough for a relative 1e-9 in a cluster's likelihood, also where it has nothing but events or none. */
        private static final GaussHermite RULE = GaussHermite.of(35);

        private static final int MOST_MODE_STEPS = 200;
        private static final double MODE_ACCURACY = 1e-9;

        /** In u, whose distribution has standard deviation 1; beyond, Newton's step says nothing. */
        private static final double LONGEST_MODE_STEP = 2;

        private final double[][] x;
        private final double[] events;
        private final double[] nonEvents;

        private ClusterLikelihood(double[][] x, double[] events, double[] nonEvents) {
            this.x = x;
            this.events = events;
            this.nonEvents = nonEvents;
        }

        private static ClusterLikelihood of(DesignMatrix design, double[][] q, List<Integer> rows) {
            double[][] x = new double[rows.size()][q.length];
            double[] events = new double[x.length];
            double[] nonEvents = new double[x.length];
            for (int i = 0; i < x.length; i++) {
                for (int j = 0; j < q.length; j++) {
                    x[i][j] = q[j][rows.get(i)];
                }
                Proportion proportion = design.patterns().get(rows.get(i)).proportion();
                events[i] = proportion.events();
                nonEvents[i] = proportion.of() - proportion.events();
            }
            return new ClusterLikelihood(x, events, nonEvents);
        }

        private void addTo(Point point) {
            double sigma = point.sigma();
            double[] fixed = new double[x.length];
            for (int i = 0; i < x.length; i++) {
                for (int j = 0; j < x[i].length; j++) {
                    fixed[i] += x[i][j] * point.at[j];
                }
            }
            double mode = mode(fixed, sigma);
            double scale = 1 / FastMath.sqrt(curvature(fixed, sigma, mode));
            double[] u = new double[RULE.size()];
            double[] logs = new double[u.length];
            double largest = Double.NEGATIVE_INFINITY;
            for (int k = 0; k < u.length; k++) {
                u[k] = RULE.node(k, mode, scale);
                logs[k] = RULE.logFactor(k) + logDensity(fixed, sigma, u[k]);
                largest = Math.max(largest, logs[k]);
            }
            double sum = 0;
            for (double log : logs) {
                sum += FastMath.exp(log - largest);
            }
            point.value += largest + FastMath.log(sum * scale) - FastMath.log(Math.PI) / 2;
            addDerivatives(point, fixed, u, logs, largest + FastMath.log(sum));
        }

        /** Where the integrand is largest: Newton's method, held inside the bracket that the slopes met so far leave. */
        private double mode(double[] fixed, double sigma) {
            double u = 0;
            double low = Double.NEGATIVE_INFINITY;
            double high = Double.POSITIVE_INFINITY;
            for (int steps = 0; steps < MOST_MODE_STEPS; steps++) {
                double slope = -u;
                for (int i = 0; i < fixed.length; i++) {
                    slope += sigma * residual(i, fixed[i] + sigma * u);
                }
                low = slope > 0 ? u : low;
                high = slope < 0 ? u : high;
                double step = slope / curvature(fixed, sigma, u);
                if (Math.abs(step) < MODE_ACCURACY) {
                    return u;
                }
                double next = u + Math.max(-LONGEST_MODE_STEP, Math.min(LONGEST_MODE_STEP, step));
                u = next <= low || next >= high ? (low + high) / 2 : next;
            }
            return u;
        }

        private double curvature(double[] fixed, double sigma, double u) {
            double curvature = 1;
            for (int i = 0; i < fixed.length; i++) {
                curvature += sigma * sigma * weight(i, fixed[i] + sigma * u);
            }
            return curvature;
        }

        private double logDensity(double[] fixed, double sigma, double u) {
            double log = -u * u / 2;
            for (int i = 0; i < fixed.length; i++) {
                double eta = fixed[i] + sigma * u;
                log -= events[i] * softplus(-eta) + nonEvents[i] * softplus(eta);
            }
            return log;
        }

        private double residual(int i, double eta) {
            return events[i] * proportion(-eta) - nonEvents[i] * proportion(eta);
        }

        private double weight(int i, double eta) {
            return (events[i] + nonEvents[i]) * proportion(eta) * proportion(-eta);
        }

        /** The mean score; the mean of score times score less its square; less the mean information. */
        private void addDerivatives(Point point, double[] fixed, double[] u, double[] logs, double logSum) {
            int p = point.at.length - 1;
            double[] mean = new double[p + 1];
            double[] row = new double[p + 1];
            for (int k = 0; k < u.length; k++) {
                double probability = FastMath.exp(logs[k] - logSum);
                double[] score = new double[p + 1];
                for (int i = 0; i < fixed.length; i++) {
                    double eta = fixed[i] + point.sigma() * u[k];
                    System.arraycopy(x[i], 0, row, 0, p);
                    row[p] = u[k];
                    ThinQr.add(score, residual(i, eta), row);
                    addSquare(point.hessian, -probability * weight(i, eta), row);
                }
                ThinQr.add(mean, probability, score);
                addSquare(point.hessian, probability, score);
            }
            ThinQr.add(point.gradient, 1, mean);
            addSquare(point.hessian, -1, mean);
        }

        /** matrix += factor·vvᵀ, symmetric to the last bit. */
        private static void addSquare(double[][] matrix, double factor, double[] v) {
            for (int i = 0; i < v.length; i++) {
                for (int j = 0; j < v.length; j++) {
                    matrix[i][j] += factor * (v[i] * v[j]);
                }
            }
        }
    }
}
