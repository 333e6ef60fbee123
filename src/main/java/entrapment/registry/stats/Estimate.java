package entrapment.registry.stats;

import org.jspecify.annotations.Nullable;

/**
 * An estimate with its limits on one scale, such as per 1,000 uses.
 *
 * @param estimate {@code null} if it cannot be estimated
 * @param lower as in {@link Interval}
 * @param upper as in {@link Interval}
 */
public record Estimate(
        @Nullable Double estimate,
        @Nullable Double lower,
        @Nullable Double upper) {

    /** A proportion or a difference of proportions, per 1,000 uses. */
    public static Estimate per1000(@Nullable Double estimate, Interval interval) {
        Interval scaled = interval.times(1000);
        return new Estimate(estimate == null ? null : estimate * 1000, scaled.lower(), scaled.upper());
    }
}
