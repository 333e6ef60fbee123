package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/** From log odds ratios to odds ratios, where infinite must mean infinite and not merely long. */
final class OddsRatios {

    /** e^700 and e^−700 are near the largest and the smallest double. */
    private static final double LARGEST_LOG = 700;

    static final Note NOTE = new Note(
            NoteCode.OUT_OF_RANGE,
            "An odds ratio is too large or too small to be written: read its logarithm, or shift or rescale the term.");

    private OddsRatios() {}

    /** e^log, or {@code null} if that is too large or too small to be written. */
    static @Nullable Double of(double log) {
        return Math.abs(log) > LARGEST_LOG ? null : Double.valueOf(FastMath.exp(log));
    }

    /** Whether a logarithm could be computed but its exponential not be written. */
    static boolean outOfRange(@Nullable Double log) {
        return log != null && of(log) == null;
    }

    static Interval of(Interval logs) {
        return new Interval(
                logs.lower() == null ? null : of(logs.lower()), logs.upper() == null ? null : of(logs.upper()));
    }
}
