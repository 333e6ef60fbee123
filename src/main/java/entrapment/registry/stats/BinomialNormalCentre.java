package entrapment.registry.stats;

import static entrapment.registry.stats.Logit.proportion;
import static entrapment.registry.stats.Logit.softplus;

import org.apache.commons.math3.util.FastMath;

/**
 * One centre of the binomial-normal model: log∫exp(xη−n·log(1+e^η))φ(u)du, η = μ+τu, by adaptive Gauss–Hermite quadrature,
 * and means over u given its data, by the same nodes. With a = x−np and b = npq they make up gradient and Hessian of the
 * logarithm: E(a), E(ua), and E(−b·(1, u, u²)) plus the covariances of a and ua (Louis TA, J R Stat Soc B 1982;44:226).
 *
 * @param log the logarithm of the integral
 * @param a mean of a
 * @param ua mean of ua
 * @param b mean of b
 * @param ub mean of ub
 * @param uub mean of u²b
 * @param aa mean of a²
 * @param uaa mean of ua²
 * @param uuaa mean of u²a²
 */
record BinomialNormalCentre(
        double log, double a, double ua, double b, double ub, double uub, double aa, double uaa, double uuaa) {

    private static final GaussHermite RULE = GaussHermite.of(100);

    static BinomialNormalCentre of(Proportion centre, double mu, double tau) {
        double x = centre.events();
        double n = centre.of();
        double mode = MonotoneRoot.of(u -> u - tau * residual(x, n, mu + tau * u), 0, 1);
        double peak = mu + tau * mode;
        double top = x * peak - n * softplus(peak) - mode * mode / 2;
        double scale = 1 / FastMath.sqrt(1 + tau * tau * n * proportion(peak) * proportion(-peak));
        double total = 0;
        double[] means = new double[8];
        for (int i = 0; i < RULE.size(); i++) {
            double u = RULE.node(i, mode, scale);
            double eta = mu + tau * u;
            double weight = FastMath.exp(x * eta - n * softplus(eta) - u * u / 2 - top + RULE.logFactor(i));
            total += weight;
            add(means, weight, u, residual(x, n, eta), n * proportion(eta) * proportion(-eta));
        }
        for (int m = 0; m < means.length; m++) {
            means[m] /= total;
        }
        return new BinomialNormalCentre(
                top + FastMath.log(scale * total / FastMath.sqrt(FastMath.PI)),
                means[0],
                means[1],
                means[2],
                means[3],
                means[4],
                means[5],
                means[6],
                means[7]);
    }

    private static void add(double[] sums, double weight, double u, double a, double b) {
        sums[0] += weight * a;
        sums[1] += weight * u * a;
        sums[2] += weight * b;
        sums[3] += weight * u * b;
        sums[4] += weight * u * u * b;
        sums[5] += weight * a * a;
        sums[6] += weight * u * a * a;
        sums[7] += weight * u * u * a * a;
    }

    /** x − np without cancellation on either side. */
    private static double residual(double x, double n, double eta) {
        return eta < 0 ? x - n * proportion(eta) : n * proportion(-eta) - (n - x);
    }
}
