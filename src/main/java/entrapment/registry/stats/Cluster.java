package entrapment.registry.stats;

/**
 * Cases with the same numbers of attempts and successes.
 *
 * @param attempts m in each of these cases, in [1, 1,000,000]
 * @param successes y in each of these cases, in [0, m]
 * @param cases how many such cases, in [0, 2³¹−1]
 */
public record Cluster(long attempts, long successes, long cases) {

    private static final long MOST_ATTEMPTS = 1_000_000;

    /** @throws IllegalArgumentException if a count is out of its range */
    public Cluster {
        Counts.require("attempts", attempts, 1, MOST_ATTEMPTS);
        Counts.require("successes", successes, 0, attempts);
        Counts.require("cases", cases);
    }
}
