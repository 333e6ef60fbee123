package entrapment.registry.stats;

import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.util.FastMath;

/**
 * Gauss–Hermite quadrature, moved to the mode of the integrand and scaled by its curvature, on the logarithmic scale.
 *
 * <p>Nodes are the roots of the orthonormal Hermite function ψ_n, which carries the factor e^{−x²/2} and so neither grows nor
 * loses digits in the tails; the weight of a node is e^{−x²}/(n·ψ_{n−1}(x)²) [1].
 *
 * <p><b>Same as</b> R {@code statmod::gauss.quad(n, "hermite")}, {@code lme4::glmer(nAGQ = n)} when moved to the mode.
 * Accuracy: nodes absolute 1e-14, weights relative 1e-12, n up to 100.
 *
 * <p>[1] Davis PJ, Rabinowitz P, Methods of Numerical Integration, Academic Press 1984. [2] Liu Q, Pierce DA, Biometrika
 * 1994;81:624 (moving and scaling).
 */
final class GaussHermite {

    private static final int MOST_NODES = 100;
    private static final double ACCURACY = 1e-15;

    /** Neighbouring roots are at least π/√(2n+1) apart, so no quarter of that holds two. */
    private static final double SCAN = 0.25;

    private final double[] nodes;
    private final double[] logFactors;

    private GaussHermite(double[] nodes, double[] logFactors) {
        this.nodes = nodes;
        this.logFactors = logFactors;
    }

    /** The rule with n nodes, 1 ≤ n ≤ 100; exact for polynomials of degree 2n−1 times e^{−x²}. */
    static GaussHermite of(int n) {
        Counts.require("number of nodes", n, 1, MOST_NODES);
        double[] nodes = new double[n];
        double[] logFactors = new double[n];
        double step = SCAN * FastMath.PI / FastMath.sqrt(2.0 * n + 1);
        double left = n % 2 == 0 ? 0 : step / 2;
        for (int i = n / 2; i > 0; i--) {
            double right = left + step;
            while (function(n, left) * function(n, right) > 0) {
                left = right;
                right += step;
            }
            double node = new BrentSolver(ACCURACY, ACCURACY).solve(1000, x -> function(n, x), left, right);
            nodes[i - 1] = -node;
            nodes[n - i] = node;
            left = right;
        }
        for (int i = 0; i < n; i++) {
            logFactors[i] = -FastMath.log(n) - 2 * FastMath.log(Math.abs(function(n - 1, nodes[i])));
        }
        return new GaussHermite(nodes, logFactors);
    }

    /** ψ_n(x), by ψ_{k+1} = √(2/(k+1))·x·ψ_k − √(k/(k+1))·ψ_{k−1}. */
    private static double function(int n, double x) {
        double before = 0;
        double psi = FastMath.exp(-x * x / 2) / FastMath.sqrt(FastMath.sqrt(FastMath.PI));
        for (int k = 0; k < n; k++) {
            double next = FastMath.sqrt(2.0 / (k + 1)) * x * psi - FastMath.sqrt(k / (k + 1.0)) * before;
            before = psi;
            psi = next;
        }
        return psi;
    }

    /** Number of nodes. */
    int size() {
        return nodes.length;
    }

    /** The i-th node, ascending, on the scale of ∫e^{−x²}f(x)dx. */
    double node(int i) {
        return nodes[i];
    }

    /** The logarithm of the i-th weight times e^{x²}: what the whole integrand at the node is to be multiplied with. */
    double logFactor(int i) {
        return logFactors[i];
    }

    /** The i-th node for an integrand with its mode at {@code mode} and curvature −1/scale² there. */
    double node(int i, double mode, double scale) {
        return mode + FastMath.sqrt(2) * scale * nodes[i];
    }
}
