package entrapment.registry.stats;

import org.jspecify.annotations.Nullable;

/**
 * A proportion as it is shown: its counts, and the estimate with its limits, all in [0, 1].
 *
 * @param events x in [0, n]
 * @param of n
 * @param estimate x/n; {@code null} for n = 0
 * @param lower the interval's lower limit; {@code null} for n = 0
 * @param upper the interval's upper limit; {@code null} for n = 0
 */
public record ProportionEstimate(
        long events,
        long of,
        @Nullable Double estimate,
        @Nullable Double lower,
        @Nullable Double upper) {

    /** Independent observations; see {@link Proportion#interval}. */
    public static ProportionEstimate of(Proportion proportion, IntervalMethod method, Confidence confidence) {
        return of(proportion, proportion.interval(method, confidence));
    }

    /**
     * Attempts that share cases. Where no case has a second attempt there is nothing to allow for, and the interval is Wilson's;
     * elsewhere it is the one at the effective size, see {@link ClusteredProportion#of}.
     */
    public static ProportionEstimate of(ClusteredProportion clustered) {
        boolean oneEach = clustered.attempts() == clustered.cases();
        return of(
                new Proportion(clustered.successes(), clustered.attempts()),
                oneEach ? clustered.naiveWilson() : clustered.effectiveWilson());
    }

    private static ProportionEstimate of(Proportion proportion, Interval interval) {
        return new ProportionEstimate(
                proportion.events(), proportion.of(), proportion.estimate(), interval.lower(), interval.upper());
    }
}
