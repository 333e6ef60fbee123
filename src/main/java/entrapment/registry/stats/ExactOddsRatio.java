package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * Everything the conditional distribution says about an odds ratio, or about any other ratio that tilts one.
 *
 * @param conditionalMle the conditional maximum-likelihood estimate; 0 or infinite at the ends of the support,
 *     {@code null} if no table carries information
 * @param exact Cornfield's central interval, never short of its level
 * @param midP the same with half the weight of the observed table: the default
 * @param minlikePValue the probability of all tables no more probable than this one at a ratio of 1
 * @param centralPValue twice the smaller tail, which belongs to {@code exact}
 * @param midPValue twice the smaller tail with half the observed table, which belongs to {@code midP}
 */
public record ExactOddsRatio(
        @Nullable Double conditionalMle,
        Interval exact,
        Interval midP,
        double minlikePValue,
        double centralPValue,
        double midPValue) {

    static final ExactOddsRatio NOT_ESTIMABLE =
            new ExactOddsRatio(null, Interval.ANY_RATIO, Interval.ANY_RATIO, 1, 1, 1);

    /** The share of the observed table in a mid-P tail. */
    private static final double HALF = 0.5;

    /**
     * @param a the observed number of (exposed) events, inside the distribution's support, which has more than one point
     * @param start log ratio to start from, any finite value
     */
    static ExactOddsRatio of(ConditionalDistribution distribution, long a, double start, Confidence confidence) {
        return new ExactOddsRatio(
                mle(distribution, a, start),
                limits(distribution, a, 1, start, confidence.logTail()),
                limits(distribution, a, HALF, start, confidence.logTail()),
                minlikePValue(distribution, a),
                pValue(FastMath.log(2) + smallerTail(distribution, a, 1)),
                midPValue(distribution, a));
    }

    /** The p-value by probability ordering alone. */
    static double minlikePValue(ConditionalDistribution distribution, long a) {
        return pValue(distribution.logNoMoreProbable(a));
    }

    /** The mid-P value alone. */
    static double midPValue(ConditionalDistribution distribution, long a) {
        return pValue(FastMath.log(2) + smallerTail(distribution, a, HALF));
    }

    /** ψ with E(A; ψ) = a. */
    private static double mle(ConditionalDistribution distribution, long a, double start) {
        if (a == distribution.lowest()) {
            return 0;
        }
        if (a == distribution.highest()) {
            return Double.POSITIVE_INFINITY;
        }
        return FastMath.exp(MonotoneRoot.of(t -> distribution.meanBeyond(a, t), start, 1));
    }

    /** ψ_L with P(A ≥ a; ψ_L) = α/2 and ψ_U with P(A ≤ a; ψ_U) = α/2. */
    private static Interval limits(
            ConditionalDistribution distribution, long a, double share, double start, double logTail) {
        return new Interval(
                a == distribution.lowest()
                        ? 0
                        : FastMath.exp(
                                MonotoneRoot.of(t -> distribution.logUpperTail(a, share, t) - logTail, start, 1)),
                a == distribution.highest()
                        ? Double.POSITIVE_INFINITY
                        : FastMath.exp(
                                MonotoneRoot.of(t -> logTail - distribution.logLowerTail(a, share, t), start, 1)));
    }

    private static double smallerTail(ConditionalDistribution distribution, long a, double share) {
        return Math.min(distribution.logLowerTail(a, share, 0), distribution.logUpperTail(a, share, 0));
    }

    /** At most 1, and never 0: below the smallest normal double the p-value is given as that double. */
    private static double pValue(double log) {
        return Math.max(Double.MIN_NORMAL, Math.min(1, FastMath.exp(log)));
    }
}
