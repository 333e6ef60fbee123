package entrapment.registry.stats;

import org.jspecify.annotations.Nullable;

/**
 * The odds ratio with its logarithmic normal interval: approximate, and for checking by hand. All {@code null} where the
 * table is not estimable.
 *
 * @param oddsRatio from the cells as used here, with their added halves if any
 * @param lower limit
 * @param upper limit
 * @param logStandardError standard error of log(oddsRatio)
 * @param haldaneAnscombeApplied whether ½ was added to all four cells
 */
public record Woolf(
        @Nullable Double oddsRatio,
        @Nullable Double lower,
        @Nullable Double upper,
        @Nullable Double logStandardError,
        boolean haldaneAnscombeApplied) {

    static final Woolf NOT_ESTIMABLE = new Woolf(null, null, null, null, false);
}
