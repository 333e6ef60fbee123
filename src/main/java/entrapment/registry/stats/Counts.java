package entrapment.registry.stats;

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
}
