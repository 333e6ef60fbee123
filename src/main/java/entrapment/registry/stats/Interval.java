package entrapment.registry.stats;

import org.jspecify.annotations.Nullable;

/**
 * Two limits of an estimate.
 *
 * @param lower the lower limit; {@code null} if it cannot be estimated, negative infinity if nothing bounds it
 * @param upper the upper limit; {@code null} if it cannot be estimated, positive infinity if nothing bounds it
 */
public record Interval(@Nullable Double lower, @Nullable Double upper) {

    /** Nothing can be said: both limits {@code null}. */
    public static final Interval NOT_ESTIMABLE = new Interval(null, null);

    /** Any ratio is compatible with the data: from 0 to infinity. */
    public static final Interval ANY_RATIO = new Interval(0.0, Double.POSITIVE_INFINITY);

    /** @throws IllegalArgumentException if a limit is not a number, or the lower lies above the upper */
    public Interval {
        if ((lower != null && lower.isNaN()) || (upper != null && upper.isNaN())) {
            throw new IllegalArgumentException("a limit must be a number or missing");
        }
        if (lower != null && upper != null && lower > upper) {
            throw new IllegalArgumentException("the lower limit must not lie above the upper one");
        }
    }

    /** Both limits times a positive factor; a missing limit stays missing. */
    public Interval times(double factor) {
        return new Interval(lower == null ? null : lower * factor, upper == null ? null : upper * factor);
    }
}
