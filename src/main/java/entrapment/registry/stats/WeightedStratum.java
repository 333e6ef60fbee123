package entrapment.registry.stats;

/**
 * A stratum and its share of the standard population.
 *
 * @param proportion its events
 * @param weight in [0, 1e12], in any unit: only the shares count
 */
public record WeightedStratum(Proportion proportion, double weight) {

    private static final double LARGEST_WEIGHT = 1e12;

    /** @throws IllegalArgumentException if the weight is out of its range or not a number */
    public WeightedStratum {
        if (!(weight >= 0 && weight <= LARGEST_WEIGHT)) {
            throw new IllegalArgumentException("weight must be in [0, " + LARGEST_WEIGHT + "], got " + weight);
        }
    }
}
