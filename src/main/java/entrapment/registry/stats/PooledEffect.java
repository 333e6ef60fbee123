package entrapment.registry.stats;

import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * The mean of the centres' true effects for one estimate of their variance.
 *
 * @param tau2 variance between centres
 * @param estimate μ = ΣWy/ΣW, W = 1/(v+τ²)
 * @param standardError 1/√ΣW
 * @param wald μ±z·se
 * @param hartungKnappStandardError se·√(ΣW(y−μ)²/(k−1))
 * @param hartungKnapp μ±t_{k−1} times that; with like centres it is narrower than {@code wald}
 * @param hartungKnappTruncated the same with a factor of at least 1: the one to use
 * @param predictionInterval μ±t_{k−1}√(se_HK²+τ²)
 */
public record PooledEffect(
        @Nullable Double tau2,
        @Nullable Double estimate,
        @Nullable Double standardError,
        Interval wald,
        @Nullable Double hartungKnappStandardError,
        Interval hartungKnapp,
        Interval hartungKnappTruncated,
        Interval predictionInterval) {

    static final PooledEffect NOT_ESTIMABLE = new PooledEffect(
            null,
            null,
            null,
            Interval.NOT_ESTIMABLE,
            null,
            Interval.NOT_ESTIMABLE,
            Interval.NOT_ESTIMABLE,
            Interval.NOT_ESTIMABLE);

    static PooledEffect of(List<Effect> effects, double tau2, Confidence confidence) {
        double df = effects.size() - 1.0;
        double mu = BetweenVariance.mean(effects, tau2);
        double se = 1 / FastMath.sqrt(BetweenVariance.weights(effects, tau2, 1));
        double factor = FastMath.sqrt(BetweenVariance.distances(effects, tau2, 1) / df);
        double t = confidence.t(df);
        double hartungKnapp = se * factor;
        return new PooledEffect(
                tau2,
                mu,
                se,
                about(mu, confidence.z() * se),
                hartungKnapp,
                about(mu, t * hartungKnapp),
                about(mu, t * se * Math.max(1, factor)),
                about(mu, t * FastMath.sqrt(hartungKnapp * hartungKnapp + tau2)));
    }

    private static Interval about(double mu, double distance) {
        return new Interval(mu - distance, mu + distance);
    }
}
