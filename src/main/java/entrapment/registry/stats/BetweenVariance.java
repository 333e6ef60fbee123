package entrapment.registry.stats;

import java.util.List;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.util.FastMath;

/** The variance τ² between the true effects of centres, with W = 1/(v+τ²) and μ = ΣWy/ΣW. */
final class BetweenVariance {

    /** The score is followed over this range of τ², in units of the total variance seen. */
    private static final double LEAST = 1e-8;

    private static final double MOST = 1e4;
    private static final double GROWTH = 1.5;
    private static final double ACCURACY = 1e-14;
    private static final int MOST_EVALUATIONS = 1000;

    private BetweenVariance() {}

    /** Q = Σw(y−ȳ_w)², w = 1/v. */
    static double q(List<Effect> effects) {
        double mean = mean(effects, 0);
        return effects.stream()
                .mapToDouble(effect -> square(effect.estimate() - mean) / effect.variance())
                .sum();
    }

    /** max(0, (Q−(k−1))/(Σw−Σw²/Σw)) [DerSimonian, Laird, Control Clin Trials 1986;7:177]. */
    static double derSimonianLaird(List<Effect> effects) {
        double sum = weights(effects, 0, 1);
        return Math.max(0, (q(effects) - (effects.size() - 1)) / (sum - weights(effects, 0, 2) / sum));
    }

    /**
     * Restricted maximum likelihood: the highest of the points at which ΣW²(y−μ)²−ΣW+ΣW²/ΣW falls through 0, and of 0 itself
     * [Viechtbauer, J Educ Behav Stat 2005;30:261].
     */
    static double restrictedMaximumLikelihood(List<Effect> effects) {
        double scale = scale(effects);
        double best = 0;
        double left = 0;
        double leftScore = score(effects, left);
        for (double right = LEAST * scale; right <= MOST * scale; right *= GROWTH) {
            double rightScore = score(effects, right);
            if (leftScore > 0 && rightScore <= 0) {
                double top = new BrentSolver(ACCURACY, ACCURACY * scale)
                        .solve(MOST_EVALUATIONS, t -> score(effects, t), left, right);
                best = logLikelihood(effects, top) > logLikelihood(effects, best) ? top : best;
            }
            left = right;
            leftScore = rightScore;
        }
        return best;
    }

    /** Mean of v and of the squared distances of y: τ² cannot lie far above it. */
    private static double scale(List<Effect> effects) {
        double mean = mean(effects, 0);
        return effects.stream()
                        .mapToDouble(effect -> effect.variance() + square(effect.estimate() - mean))
                        .sum()
                / effects.size();
    }

    /** ΣW^power. */
    static double weights(List<Effect> effects, double tau2, int power) {
        return effects.stream()
                .mapToDouble(effect -> FastMath.pow(1 / (effect.variance() + tau2), power))
                .sum();
    }

    static double mean(List<Effect> effects, double tau2) {
        return effects.stream()
                        .mapToDouble(effect -> effect.estimate() / (effect.variance() + tau2))
                        .sum()
                / weights(effects, tau2, 1);
    }

    /** ΣW^power(y−μ)². */
    static double distances(List<Effect> effects, double tau2, int power) {
        double mean = mean(effects, tau2);
        return effects.stream()
                .mapToDouble(effect ->
                        square(effect.estimate() - mean) * FastMath.pow(1 / (effect.variance() + tau2), power))
                .sum();
    }

    private static double score(List<Effect> effects, double tau2) {
        double sum = weights(effects, tau2, 1);
        return distances(effects, tau2, 2) - sum + weights(effects, tau2, 2) / sum;
    }

    /** −½[Σlog(v+τ²)+log ΣW+ΣW(y−μ)²]. */
    private static double logLikelihood(List<Effect> effects, double tau2) {
        double logs = effects.stream()
                .mapToDouble(effect -> FastMath.log(effect.variance() + tau2))
                .sum();
        return -(logs + FastMath.log(weights(effects, tau2, 1)) + distances(effects, tau2, 1)) / 2;
    }

    private static double square(double value) {
        return value * value;
    }
}
