package entrapment.registry.stats;

import static entrapment.registry.stats.Logit.proportion;

import java.util.List;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.util.FastMath;

/**
 * Maximum likelihood of the beta-binomial model: each centre's proportion comes from a beta distribution with mean μ and correlation
 * ρ = g/(1+g).
 *
 * <p>ℓ(μ, g) = Σ_i[Σ_{j&lt;x}log(μ+gj) + Σ_{j&lt;n−x}log(1−μ+gj) − Σ_{j&lt;n}log(1+gj)] [1]. The derivative of ℓ, maximised over
 * logit μ, is followed along log g over everything that data can tell apart; each of its falls through 0 is a local maximum,
 * and the highest of them is taken.
 *
 * <p>[1] Griffiths DA, Biometrics 1973;29:637.
 */
final class BetaBinomialFit {

    /** ρ = 1e-11: smaller than the reciprocal of any count. */
    private static final int LEAST_LOG_G = -25;

    /** ρ = 0.9975: beyond it centres have everything or nothing. */
    private static final int MOST_LOG_G = 6;

    /** Less than this in ℓ is rounding, not evidence. */
    private static final double NEGLIGIBLE = 1e-9;

    /** Of ℓ itself, which is large for large centres. */
    private static final double ROUNDING = 1e-14;

    private static final double ACCURACY = 1e-13;
    private static final int MOST_EVALUATIONS = 1000;

    private final List<Proportion> centres;
    private final double pooledLogit;

    private BetaBinomialFit(List<Proportion> centres, double pooledLogit) {
        this.centres = centres;
        this.pooledLogit = pooledLogit;
    }

    /** Location μ, spread ρ. At least two centres, all with uses, and both events and non-events among them. */
    static CentreFit of(List<Proportion> centres) {
        double events = centres.stream().mapToDouble(Proportion::events).sum();
        double others = centres.stream().mapToDouble(p -> p.of() - p.events()).sum();
        return new BetaBinomialFit(centres, FastMath.log(events / others)).highest();
    }

    private CentreFit highest() {
        Point none = at(pooledLogit, Double.NEGATIVE_INFINITY);
        Point best = none;
        double rounding = NEGLIGIBLE + Math.abs(none.logLikelihood) * ROUNDING;
        Point left = profile(LEAST_LOG_G, pooledLogit);
        for (int logG = LEAST_LOG_G + 1; logG <= MOST_LOG_G; logG++) {
            Point right = profile(logG, left.logitMu);
            if (left.byLogG > 0 && right.byLogG <= 0) {
                Point top = top(logG - 1, logG, left.logitMu);
                best = top.logLikelihood > best.logLikelihood + rounding ? top : best;
            }
            left = right;
        }
        if (left.byLogG > 0 && left.logLikelihood > best.logLikelihood + rounding) {
            return new CentreFit.NotConverged(
                    "Centres have either no event or nothing but events, so how much they differ cannot be estimated.");
        }
        return new CentreFit.Converged(
                proportion(best.logitMu),
                proportion(best.logG),
                Double.POSITIVE_INFINITY,
                2 * (best.logLikelihood - none.logLikelihood));
    }

    private Point top(double from, double to, double start) {
        double logG =
                new BrentSolver(ACCURACY, ACCURACY).solve(MOST_EVALUATIONS, x -> profile(x, start).byLogG, from, to);
        return profile(logG, start);
    }

    /** The maximum over logit μ at one g. */
    private Point profile(double logG, double start) {
        return at(MonotoneRoot.of(logit -> -at(logit, logG).byLogitMu, start, 0.1), logG);
    }

    private record Point(double logitMu, double logG, double logLikelihood, double byLogitMu, double byLogG) {}

    private Point at(double logitMu, double logG) {
        double mu = proportion(logitMu);
        double rest = proportion(-logitMu);
        double g = FastMath.exp(logG);
        double log = 0;
        double byMu = 0;
        double byG = 0;
        for (Proportion centre : centres) {
            RisingSum events = RisingSum.of(centre.events(), mu, g);
            RisingSum others = RisingSum.of(centre.of() - centre.events(), rest, g);
            RisingSum all = RisingSum.of(centre.of(), 1, g);
            log += events.log() + others.log() - all.log();
            byMu += events.byStart() - others.byStart();
            byG += events.byStep() + others.byStep() - all.byStep();
        }
        return new Point(logitMu, logG, log, mu * rest * byMu, g * byG);
    }
}
