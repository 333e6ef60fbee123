package entrapment.registry.stats;

import org.apache.commons.math3.special.Erf;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/** What plans share: the rules for their inputs, normal deviates, and counts that may be out of reach. */
final class Plan {

    static final Note OUT_OF_REACH = new Note(
            NoteCode.OUT_OF_REACH,
            "More uses would be needed than any registry holds (above " + Counts.LARGEST + "): no number is given.");

    private static final double HIGHEST_ALPHA = 0.5;
    private static final double LEAST_ALPHA = 1e-6;
    private static final double HIGHEST_POWER = 0.9999;

    private Plan() {}

    /** @throws IllegalArgumentException unless alpha is in [1e-6, 0.5] */
    static void requireAlpha(double alpha) {
        Counts.requireReal("alpha", alpha, LEAST_ALPHA, HIGHEST_ALPHA);
    }

    /** @throws IllegalArgumentException unless the power is in [0.5, 0.9999] */
    static void requirePower(double power) {
        Counts.requireReal("power", power, HIGHEST_ALPHA, HIGHEST_POWER);
    }

    /** Φ⁻¹(1−tail), 0 &lt; tail ≤ ½. */
    static double deviate(double tail) {
        return FastMath.sqrt(2) * Erf.erfInv(1 - 2 * tail);
    }

    /** Φ(z). */
    static double normal(double z) {
        return 0.5 * Erf.erfc(-z / FastMath.sqrt(2));
    }

    /** ⌈value⌉, or {@code null} if that is beyond any count that is accepted. */
    static @Nullable Long count(double value) {
        double up = IntegerSearch.ceiling(value);
        return up <= Counts.LARGEST ? (long) up : null;
    }
}
