package entrapment.registry.stats;

/**
 * A group at a place on a scale that was fixed before looking at the events: a calendar year, the middle of a dose group.
 *
 * @param score in [-1e9, 1e9]
 * @param proportion its events
 */
public record ScoredGroup(double score, Proportion proportion) {

    private static final double LARGEST_SCORE = 1e9;

    /** @throws IllegalArgumentException if the score is out of its range or not a number */
    public ScoredGroup {
        Counts.requireReal("score", score, -LARGEST_SCORE, LARGEST_SCORE);
    }
}
