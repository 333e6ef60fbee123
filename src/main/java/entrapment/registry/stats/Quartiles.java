package entrapment.registry.stats;

import java.util.Map;
import java.util.SortedMap;
import org.jspecify.annotations.Nullable;

/**
 * Between which values does the middle half of counted values lie?
 *
 * @param values how many there are
 * @param lower a quarter of the way; {@code null} without a value
 * @param median half of the way; {@code null} without a value
 * @param upper three quarters of the way; {@code null} without a value
 */
public record Quartiles(
        long values,
        @Nullable Double lower,
        @Nullable Double median,
        @Nullable Double upper) {

    /**
     * Quartiles by linear interpolation between neighbours.
     *
     * <p>Of n values in order, x₀ … xₙ₋₁, the quantile at share q stands at place (n−1)q: with i its whole part, it is
     * xᵢ + ((n−1)q−i)(xᵢ₊₁−xᵢ) [1, type 7].
     *
     * <p>Edges: no value: all {@code null}. One value: it is all three.
     *
     * <p><b>Same as</b> R {@code quantile(x, c(0.25, 0.5, 0.75))}. <b>Not the same as</b> the hinges of {@code fivenum(x)} or
     * SAS's default, type 3. Exact for whole numbers below 2⁵⁰.
     *
     * <p>[1] Hyndman RJ, Fan Y, Am Stat 1996;50:361-365, doi:10.1080/00031305.1996.10473566.
     *
     * @param counts how often each value occurs
     * @throws IllegalArgumentException if a count is negative or too large
     */
    public static Quartiles of(SortedMap<Long, Long> counts) {
        counts.values().forEach(count -> Counts.require("count", count));
        long values = counts.values().stream().mapToLong(Long::longValue).sum();
        return values == 0
                ? new Quartiles(0, null, null, null)
                : new Quartiles(values, at(counts, values, 0.25), at(counts, values, 0.5), at(counts, values, 0.75));
    }

    private static double at(SortedMap<Long, Long> counts, long values, double share) {
        double place = (values - 1) * share;
        long below = (long) place;
        long low = at(counts, below);
        long high = at(counts, Math.min(below + 1, values - 1));
        return low + (place - below) * (high - low);
    }

    /** The value at a place from 0 when all are laid out in order. */
    private static long at(SortedMap<Long, Long> counts, long place) {
        long passed = 0;
        for (Map.Entry<Long, Long> value : counts.entrySet()) {
            passed += value.getValue();
            if (place < passed) {
                return value.getKey();
            }
        }
        throw new IllegalStateException("there are " + passed + " values, and none at " + place);
    }
}
