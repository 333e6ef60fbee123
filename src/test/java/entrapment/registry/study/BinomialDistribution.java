package entrapment.registry.study;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;

/**
 * The distribution of the number of events in n uses, each with probability p: the counts that matter, and their probabilities.
 *
 * <p>Counts less probable than 1e-17 of the most probable one are left out, and the others made to add up to 1.
 */
final class BinomialDistribution {

    private static final double NEGLIGIBLE = 1e-17;

    private final int first;
    private final double[] probabilities;

    private BinomialDistribution(int first, double[] probabilities) {
        this.first = first;
        this.probabilities = probabilities;
    }

    /** 0 &lt; p &lt; 1. Outward from the mode, each weight from its neighbour. */
    static BinomialDistribution of(int n, double p) {
        double odds = p / (1 - p);
        int mode = (int) ((n + 1) * p);
        Deque<Double> weights = new ArrayDeque<>(List.of(1.0));
        int first = mode;
        for (double next = 1; first > 0; first--) {
            next *= first / (n - first + 1.0) / odds;
            if (next < NEGLIGIBLE) {
                break;
            }
            weights.addFirst(next);
        }
        double next = 1;
        for (int x = mode; x < n; x++) {
            next *= (n - x) / (x + 1.0) * odds;
            if (next < NEGLIGIBLE) {
                break;
            }
            weights.addLast(next);
        }
        double sum = weights.stream().mapToDouble(weight -> weight).sum();
        return new BinomialDistribution(
                first, weights.stream().mapToDouble(weight -> weight / sum).toArray());
    }

    int first() {
        return first;
    }

    int last() {
        return first + probabilities.length - 1;
    }

    /** The probability of a count between the first and the last kept. */
    double probability(int x) {
        return probabilities[x - first];
    }
}
