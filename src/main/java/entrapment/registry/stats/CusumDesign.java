package entrapment.registry.stats;

/**
 * A CUSUM on whole points: an event adds m−1, an uneventful use takes 1, the floor is 0 and the alarm is at H.
 *
 * @param p0 the baseline risk, in [1e-6, 0.5)
 * @param m points that an event adds, plus one: at least 2 and below 1/p₀, so that it watches for deterioration
 * @param threshold H in [1, 1,000,000]
 */
public record CusumDesign(double p0, int m, int threshold) {

    static final int LARGEST_THRESHOLD = 1_000_000;
    private static final double LEAST_RISK = 1e-6;
    private static final double MOST_RISK = 0.5;

    /** @throws IllegalArgumentException if a value is out of its range or not a number */
    public CusumDesign {
        if (!(p0 >= LEAST_RISK && p0 < MOST_RISK)) {
            throw new IllegalArgumentException("p0 must be in [" + LEAST_RISK + ", " + MOST_RISK + "), got " + p0);
        }
        if (!(m >= 2 && m * p0 < 1)) {
            throw new IllegalArgumentException("m must be at least 2 and below 1/p0 = " + 1 / p0 + ", got " + m);
        }
        Counts.require("threshold", threshold, 1, LARGEST_THRESHOLD);
    }

    /** Whether there is such a design. */
    static boolean allows(double p0, int m, int threshold) {
        boolean risk = p0 >= LEAST_RISK && p0 < MOST_RISK;
        return risk && m >= 2 && m * p0 < 1 && threshold >= 1 && threshold <= LARGEST_THRESHOLD;
    }
}
