package entrapment.registry.stats;

import java.util.List;
import org.apache.commons.math3.util.FastMath;

/**
 * Maximum likelihood of the binomial-normal model: logits of the centres' proportions come from N(μ, τ²).
 *
 * <p>ℓ = Σ_i log∫exp(xη−n·log(1+e^η))φ(u)du, η = μ+τu, see {@link BinomialNormalPoint}. The profile over a grid of τ
 * gives the start; Newton's method on (μ, log τ) finishes, its step held to 1 and halved while ℓ falls.
 */
final class BinomialNormalFit {

    /** From differences of a few per cent to odds that differ a thousandfold; doubled from step to step. */
    private static final double[] STARTS = {0.05, 0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 6.4};

    private static final int MOST_STEPS = 200;
    private static final int MOST_HALVINGS = 40;

    /** The Newton decrement estimates how far ℓ still is from its maximum. */
    private static final double CLOSE = 1e-12;

    /** Enough to choose a start. */
    private static final double NEAR = 1e-3;

    /** Below this τ, ℓ does not differ from that at 0. */
    private static final double LEAST_TAU = 1e-3;

    /** A median odds ratio above 2,000: centres have everything or nothing, and the nodes no longer suffice. */
    private static final double MOST_TAU = 8;

    private static final double NEGLIGIBLE = 1e-8;

    /** Of ℓ itself, which is large for large centres. */
    private static final double ROUNDING = 1e-14;

    private final List<Proportion> centres;

    private BinomialNormalFit(List<Proportion> centres) {
        this.centres = centres;
    }

    /** Location μ, spread τ. At least two centres, all with uses, and both events and non-events among them. */
    static CentreFit of(List<Proportion> centres) {
        double events = centres.stream().mapToDouble(Proportion::events).sum();
        double others = centres.stream().mapToDouble(p -> p.of() - p.events()).sum();
        return new BinomialNormalFit(centres).fit(events, others);
    }

    private CentreFit fit(double events, double others) {
        double mu = FastMath.log(events / others);
        if (centres.stream().allMatch(centre -> centre.of() == 1)) {
            return like(mu, events, others); // ℓ is the same for every τ
        }
        double none = events * mu - (events + others) * Logit.softplus(mu);
        BinomialNormalPoint start = BinomialNormalPoint.at(centres, mu, STARTS[0]);
        for (double tau : STARTS) {
            BinomialNormalPoint point = profile(mu, tau);
            start = point.logLikelihood() > start.logLikelihood() ? point : start;
        }
        BinomialNormalPoint end = newton(start, false, CLOSE);
        double rounding = NEGLIGIBLE + Math.abs(none) * ROUNDING;
        if (end.logLikelihood() <= none + rounding || end.tau() < LEAST_TAU) {
            return like(mu, events, others);
        }
        if (end.tau() > MOST_TAU || !(end.decrement(false) < FastMath.sqrt(CLOSE))) {
            return new CentreFit.NotConverged(
                    "Centres differ without bound, so how much they differ cannot be estimated.");
        }
        return new CentreFit.Converged(end.mu(), end.tau(), end.standardError(), 2 * (end.logLikelihood() - none));
    }

    private static CentreFit like(double mu, double events, double others) {
        return new CentreFit.Converged(mu, 0, FastMath.sqrt((events + others) / events / others), 0);
    }

    private BinomialNormalPoint profile(double mu, double tau) {
        return newton(BinomialNormalPoint.at(centres, mu, tau), true, NEAR);
    }

    private BinomialNormalPoint newton(BinomialNormalPoint start, boolean tauFixed, double enough) {
        BinomialNormalPoint point = start;
        for (int step = 0; step < MOST_STEPS && point.decrement(tauFixed) > enough; step++) {
            BinomialNormalPoint next = rising(point, tauFixed);
            if (!(next.logLikelihood() > point.logLikelihood()) || next.tau() < LEAST_TAU || next.tau() > MOST_TAU) {
                return next;
            }
            point = next;
        }
        return point;
    }

    /** The next point, or the same one if no part of the step raises ℓ. */
    private BinomialNormalPoint rising(BinomialNormalPoint point, boolean tauFixed) {
        double[] step = point.step(tauFixed);
        for (int halving = 0; halving < MOST_HALVINGS; halving++) {
            BinomialNormalPoint next =
                    BinomialNormalPoint.at(centres, point.mu() + step[0], point.tau() * FastMath.exp(step[1]));
            if (next.logLikelihood() > point.logLikelihood()) {
                return next;
            }
            step[0] /= 2;
            step[1] /= 2;
        }
        return point;
    }
}
