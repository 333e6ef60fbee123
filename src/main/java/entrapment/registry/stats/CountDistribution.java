package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;

/**
 * The distribution of a count under a stated rate: its tails as logarithms, its single probabilities, and the counts that cut off
 * a given tail.
 *
 * <p>A tail is held against a nominal one with an allowance of 1e-12 for rounding, so that one event in one use at a rate
 * of 0.001 counts as reaching a tail of 0.001.
 */
sealed interface CountDistribution permits BinomialDistribution, PoissonDistribution {

    /** Rounding of a tail, as a difference of logarithms. */
    double ROUNDING = 1e-12;

    /** The expected count. */
    double mean();

    /** The largest count that is possible, or that anybody could have entered. */
    long highest();

    /** log P(X ≤ x), 0 ≤ x ≤ highest. */
    double logLowerTail(long x);

    /** log P(X ≥ x), 0 ≤ x ≤ highest. */
    double logUpperTail(long x);

    /** log P(X = x), 0 ≤ x ≤ highest. */
    double logProbability(long x);

    /** The smallest u with P(X &gt; u) ≤ tail. */
    default long upperCount(double tail) {
        return IntegerSearch.first(u -> beyond(u) <= FastMath.log(tail) + ROUNDING, 0, highest());
    }

    /** The smallest l with P(X ≤ l) ≥ tail, hence P(X &lt; l) &lt; tail. */
    default long lowerCount(double tail) {
        return IntegerSearch.first(l -> logLowerTail(l) >= FastMath.log(tail) - ROUNDING, 0, highest());
    }

    /** Whether P(X ≥ x) ≤ tail. */
    default boolean reachesAbove(long x, double tail) {
        return logUpperTail(x) <= FastMath.log(tail) + ROUNDING;
    }

    /** Whether P(X ≤ x) ≤ tail. */
    default boolean reachesBelow(long x, double tail) {
        return logLowerTail(x) <= FastMath.log(tail) + ROUNDING;
    }

    /** Twice the smaller tail less P(X = x), at most 1; below the smallest normal double that double. */
    default double midPValue(long x) {
        double smaller = Math.min(logLowerTail(x), logUpperTail(x));
        double share = 2 - FastMath.exp(logProbability(x) - smaller);
        return Math.max(Double.MIN_NORMAL, Math.min(1, FastMath.exp(smaller) * share));
    }

    /** log P(X &gt; x). */
    default double beyond(long x) {
        return x == highest() ? Double.NEGATIVE_INFINITY : logUpperTail(x + 1);
    }
}
