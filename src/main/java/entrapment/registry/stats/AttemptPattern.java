package entrapment.registry.stats;

import java.util.List;

/**
 * Cases whose attempts went alike.
 *
 * @param results the attempts of one such case in order, {@code true} for success; at least one
 * @param cases how many cases went so, in [0, 2³¹−1]
 */
public record AttemptPattern(List<Boolean> results, long cases) {

    /** @throws IllegalArgumentException if there is no attempt, or the number of cases is out of its range */
    public AttemptPattern {
        if (results.isEmpty()) {
            throw new IllegalArgumentException("a case must have at least one attempt");
        }
        Counts.require("cases", cases);
        results = List.copyOf(results);
    }

    /** A single case. */
    public AttemptPattern(List<Boolean> results) {
        this(results, 1);
    }

    /** Successes in one case. */
    long successes() {
        return results.stream().filter(success -> success).count();
    }

    /** Attempts of one case that came after a failure: in order, so all behind the first one. */
    List<Boolean> afterFailure() {
        int first = results.indexOf(false);
        return first < 0 ? List.of() : results.subList(first + 1, results.size());
    }
}
