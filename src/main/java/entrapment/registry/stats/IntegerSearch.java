package entrapment.registry.stats;

import java.util.function.LongPredicate;
import org.apache.commons.math3.util.FastMath;

/** The first integer at which a condition holds that, once it holds, goes on holding. */
final class IntegerSearch {

    /** Rounding of a quotient that is a whole number on paper must not lift it to the next one. */
    private static final double ROUNDING = 1e-12;

    private IntegerSearch() {}

    /** The smallest integer in [lowest, highest] at which the condition holds, or {@code highest + 1} if none does. */
    static long first(LongPredicate condition, long lowest, long highest) {
        long low = lowest;
        long high = highest + 1;
        while (low < high) {
            long middle = low + (high - low) / 2;
            if (condition.test(middle)) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        return low;
    }

    /** ⌈value⌉ of a number that is not negative, allowing for its rounding. */
    static double ceiling(double value) {
        return FastMath.ceil(value * (1 - ROUNDING));
    }
}
