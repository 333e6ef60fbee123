package entrapment.registry.stats;

/**
 * A comparison of two groups that is being planned.
 *
 * @param p1 proportion in the first group, in (0, 1)
 * @param p2 proportion in the second group, in (0, 1), not the same
 * @param alpha two-sided, in [1e-6, 0.5]
 * @param power wanted, in [0.5, 0.9999]
 * @param ratio k, uses of the second group for each of the first, in [0.01, 100]
 */
public record PlanComparison(double p1, double p2, double alpha, double power, double ratio) {

    private static final double LARGEST_RATIO = 100;

    /** @throws IllegalArgumentException if a value is out of its range or not a number, or the proportions are equal */
    public PlanComparison {
        Counts.requireInside("p1", p1);
        Counts.requireInside("p2", p2);
        if (p1 == p2) {
            throw new IllegalArgumentException("p2 must differ from p1, got " + p2);
        }
        Plan.requireAlpha(alpha);
        Plan.requirePower(power);
        Counts.requireReal("ratio", ratio, 1 / LARGEST_RATIO, LARGEST_RATIO);
    }
}
