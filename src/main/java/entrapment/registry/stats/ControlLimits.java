package entrapment.registry.stats;

import org.jspecify.annotations.Nullable;

/**
 * The counts between which a period's count is expected to lie, each side missed with a probability of at most the tail.
 *
 * @param lowerCount the smallest l with P(X ≤ l) ≥ tail; {@code null} if that is 0, since no count lies below it
 * @param upperCount the smallest u with P(X &gt; u) ≤ tail; {@code null} without limits
 */
record ControlLimits(@Nullable Long lowerCount, @Nullable Long upperCount) {

    /** For a period without exposure, or a centre line at the edge of its range. */
    static final ControlLimits NONE = new ControlLimits(null, null);

    private static final double HIGHEST_TAIL = 0.25;

    static ControlLimits of(CountDistribution distribution, double tail) {
        long lower = distribution.lowerCount(tail);
        return new ControlLimits(lower == 0 ? null : lower, distribution.upperCount(tail));
    }

    /** @throws IllegalArgumentException unless the tail on each side is in (0, 0.25] */
    static void requireTail(double tail) {
        if (!(tail > 0 && tail <= HIGHEST_TAIL)) {
            throw new IllegalArgumentException("tail probability must be in (0, " + HIGHEST_TAIL + "], got " + tail);
        }
    }

    ChartSignal signal(long events) {
        return upperCount != null && events > upperCount
                ? ChartSignal.HIGH
                : lowerCount != null && events < lowerCount ? ChartSignal.LOW : ChartSignal.NONE;
    }

    @Nullable
    Double lower(double exposure) {
        return lowerCount == null ? null : lowerCount / exposure;
    }

    @Nullable
    Double upper(double exposure) {
        return upperCount == null ? null : upperCount / exposure;
    }
}
