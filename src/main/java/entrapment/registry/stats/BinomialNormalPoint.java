package entrapment.registry.stats;

import java.util.List;
import org.apache.commons.math3.util.FastMath;

/**
 * ℓ(μ, τ) of the binomial-normal model with its derivatives by μ and λ = log τ.
 *
 * @param mu μ
 * @param tau τ
 * @param logLikelihood ℓ, without binomial coefficients
 * @param byMu ∂ℓ/∂μ
 * @param byLambda ∂ℓ/∂λ
 * @param muMu ∂²ℓ/∂μ²
 * @param muLambda ∂²ℓ/∂μ∂λ
 * @param lambdaLambda ∂²ℓ/∂λ²
 */
record BinomialNormalPoint(
        double mu,
        double tau,
        double logLikelihood,
        double byMu,
        double byLambda,
        double muMu,
        double muLambda,
        double lambdaLambda) {

    static BinomialNormalPoint at(List<Proportion> centres, double mu, double tau) {
        double log = 0;
        double byMu = 0;
        double byTau = 0;
        double muMu = 0;
        double muTau = 0;
        double tauTau = 0;
        for (Proportion proportion : centres) {
            BinomialNormalCentre centre = BinomialNormalCentre.of(proportion, mu, tau);
            log += centre.log();
            byMu += centre.a();
            byTau += centre.ua();
            muMu += centre.aa() - centre.b() - centre.a() * centre.a();
            muTau += centre.uaa() - centre.ub() - centre.a() * centre.ua();
            tauTau += centre.uuaa() - centre.uub() - centre.ua() * centre.ua();
        }
        return new BinomialNormalPoint(
                mu, tau, log, byMu, tau * byTau, muMu, tau * muTau, tau * tau * tauTau + tau * byTau);
    }

    /** Newton's step where ℓ is concave, otherwise along the gradient; at most 1 in either direction. */
    double[] step(boolean tauFixed) {
        double determinant = muMu * lambdaLambda - muLambda * muLambda;
        double first;
        double second;
        if (tauFixed || !(muMu < 0 && determinant > 0)) {
            first = -byMu / muMu;
            second = tauFixed ? 0 : Math.signum(byLambda);
        } else {
            first = -(lambdaLambda * byMu - muLambda * byLambda) / determinant;
            second = -(muMu * byLambda - muLambda * byMu) / determinant;
        }
        double longest = Math.max(1, Math.max(Math.abs(first), Math.abs(second)));
        return new double[] {first / longest, second / longest};
    }

    /** Gradient times Newton's step; infinite where ℓ is not concave. */
    double decrement(boolean tauFixed) {
        double determinant = muMu * lambdaLambda - muLambda * muLambda;
        if (tauFixed) {
            return -byMu * byMu / muMu;
        }
        return muMu < 0 && determinant > 0
                ? -(lambdaLambda * byMu * byMu - 2 * muLambda * byMu * byLambda + muMu * byLambda * byLambda)
                        / determinant
                : Double.POSITIVE_INFINITY;
    }

    double standardError() {
        return FastMath.sqrt(-lambdaLambda / (muMu * lambdaLambda - muLambda * muLambda));
    }
}
