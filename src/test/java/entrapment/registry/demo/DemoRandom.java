package entrapment.registry.demo;

import java.util.SplittableRandom;

/**
 * Draws from one seed. Only {@code nextLong} is taken from the generator: how Java makes doubles and bounded integers of
 * it has changed between versions, and the demo files must not.
 */
final class DemoRandom {

    private final SplittableRandom bits;

    DemoRandom(long seed) {
        bits = new SplittableRandom(seed);
    }

    /** A number in [0, 1), of 53 random bits. */
    double uniform() {
        return (bits.nextLong() >>> 11) * 0x1.0p-53;
    }

    boolean chance(double probability) {
        return uniform() < probability;
    }

    /** A whole number between two bounds, both possible. */
    int between(int least, int most) {
        return least + (int) (uniform() * (most - least + 1));
    }

    /** One code of a mix such as {@code "none 3 mild 1"}: each code is followed by its weight. */
    String pick(String mix) {
        String[] parts = mix.split(" ", -1);
        int total = 0;
        for (int i = 1; i < parts.length; i += 2) {
            total += Integer.parseInt(parts[i]);
        }
        int left = between(0, total - 1);
        for (int i = 1; i < parts.length; i += 2) {
            left -= Integer.parseInt(parts[i]);
            if (left < 0) {
                return parts[i - 1];
            }
        }
        throw new IllegalArgumentException("no weight in the mix " + mix);
    }
}
