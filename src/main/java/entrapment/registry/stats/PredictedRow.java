package entrapment.registry.stats;

/**
 * Uses for which a model foretold one probability, with their events.
 *
 * @param predicted in [0, 1]
 * @param proportion the events of these uses
 */
public record PredictedRow(double predicted, Proportion proportion) {

    /** @throws IllegalArgumentException if the probability is outside [0, 1] or not a number */
    public PredictedRow {
        if (!(predicted >= 0 && predicted <= 1)) {
            throw new IllegalArgumentException("predicted must be in [0, 1], got " + predicted);
        }
    }
}
