package entrapment.registry.stats;

import java.util.HashSet;
import java.util.Set;
import java.util.stream.Stream;

/** The one rule for numbers that come in: inside their range, or refused with a sentence that names the range. */
final class Counts {

    /** The largest count accepted, 2³¹−1: beyond any registry, and inside what Commons Math's integer laws can hold. */
    static final long LARGEST = Integer.MAX_VALUE;

    private Counts() {}

    /** @throws IllegalArgumentException unless {@code lowest ≤ value ≤ highest} */
    static void require(String name, long value, long lowest, long highest) {
        if (value < lowest || value > highest) {
            throw new IllegalArgumentException(name + " must be in [" + lowest + ", " + highest + "], got " + value);
        }
    }

    /** @throws IllegalArgumentException unless {@code 0 ≤ value ≤ 2³¹−1} */
    static void require(String name, long value) {
        require(name, value, 0, LARGEST);
    }

    /** @throws IllegalArgumentException unless {@code lowest ≤ value ≤ highest}; what is not a number is refused too */
    static void requireReal(String name, double value, double lowest, double highest) {
        if (!(value >= lowest && value <= highest)) {
            throw new IllegalArgumentException(name + " must be in [" + lowest + ", " + highest + "], got " + value);
        }
    }

    /** @throws IllegalArgumentException unless {@code 0 < value < 1} */
    static void requireInside(String name, double value) {
        if (!(value > 0 && value < 1)) {
            throw new IllegalArgumentException(name + " must be in (0, 1), got " + value);
        }
    }

    /** @throws IllegalArgumentException if two of the names are the same */
    static void requireDifferent(String what, Stream<String> names) {
        Set<String> seen = new HashSet<>();
        if (!names.allMatch(seen::add)) {
            throw new IllegalArgumentException(what + " must have different names");
        }
    }
}
