package entrapment.registry.stats;

import entrapment.registry.stats.FunnelAnalysis.Limits;
import entrapment.registry.stats.FunnelAnalysis.Position;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * The lines of a funnel, interpolated between counts: with r the smallest integer that has F(r) ≥ p and a = (F(r)−p)/f(r),
 * (r−a)/n (Spiegelhalter DJ, Stat Med 2005;24:1185, appendix A.1).
 */
final class FunnelLine {

    private FunnelLine() {}

    /** Both lines at one tail and a centre's size, held inside [0, 1]. */
    static Interval of(BinomialDistribution distribution, double tail) {
        double n = distribution.of();
        long low = distribution.lowerCount(tail);
        long high = distribution.upperCount(tail);
        double lower = low - share(distribution.logLowerTail(low), tail, distribution.logProbability(low));
        // F(r) − (1−tail) is tail − P(X > r).
        double upper = high
                - (tail - FastMath.exp(distribution.beyond(high))) / FastMath.exp(distribution.logProbability(high));
        return new Interval(hold(lower / n), hold(upper / n));
    }

    private static double share(double logTail, double tail, double logProbability) {
        return (FastMath.exp(logTail) - tail) / FastMath.exp(logProbability);
    }

    private static double hold(double limit) {
        return Math.max(0, Math.min(1, limit));
    }

    /** Where a point is drawn among the lines. */
    static Position position(double estimate, Limits limits) {
        if (beyond(estimate, limits.at95().upper())) {
            return beyond(estimate, limits.at998().upper()) ? Position.ABOVE_998 : Position.ABOVE_95;
        }
        if (beyond(limits.at95().lower(), estimate)) {
            return beyond(limits.at998().lower(), estimate) ? Position.BELOW_998 : Position.BELOW_95;
        }
        return Position.WITHIN;
    }

    private static boolean beyond(@Nullable Double high, @Nullable Double low) {
        return high != null && low != null && high > low;
    }
}
