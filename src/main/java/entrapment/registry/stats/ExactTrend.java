package entrapment.registry.stats;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.util.FastMath;

/**
 * The exact distribution of T = Σs·x given Σx, both counted over the rarer of events and non-events.
 *
 * @param upper P(T ≥ t), t the observed sum over events
 * @param lower P(T ≤ t)
 * @param midP twice the smaller tail with half the weight of P(T = t)
 */
record ExactTrend(double upper, double lower, double midP) {

    /** Multiplications that are done at most: a fraction of a second. */
    private static final double MOST_WORK = 1e8;

    double doubled() {
        return Math.min(1, 2 * Math.min(upper, lower));
    }

    private ExactTrend reversed() {
        return new ExactTrend(/* upper= */ lower, /* lower= */ upper, midP);
    }

    /** Empty if the distribution has too many points. Groups hold somebody each, and there are events and non-events. */
    static Optional<ExactTrend> of(List<ScoredGroup> groups) {
        long of = groups.stream().mapToLong(group -> group.proportion().of()).sum();
        long events =
                groups.stream().mapToLong(group -> group.proportion().events()).sum();
        boolean swapped = events > of - events;
        long rarer = swapped ? of - events : events;
        Optional<long[]> scores = integers(groups);
        if (scores.isEmpty() || work(rarer, scores.get()) > MOST_WORK) {
            return Optional.empty();
        }
        int target = 0;
        for (int j = 0; j < groups.size(); j++) {
            target += (int) (scores.get()[j] * rarer(groups.get(j).proportion(), swapped));
        }
        double[] distribution = distribution(groups, scores.get(), (int) rarer, (double) rarer / of);
        ExactTrend tails = tails(distribution, target);
        // A high sum over events is a low sum over non-events.
        return Optional.of(swapped ? tails.reversed() : tails);
    }

    private static long rarer(Proportion group, boolean swapped) {
        return swapped ? group.of() - group.events() : group.events();
    }

    /** (events so far) × (score so far) × (events of the next group), for each group. */
    private static double work(long rarer, long[] scores) {
        double largest = 0;
        for (long score : scores) {
            largest = Math.max(largest, (double) score);
        }
        return (rarer + 1.0) * (rarer + 1.0) * (rarer * largest + 1) * scores.length / 4;
    }

    /**
     * Weights of T among tables with all the rarer outcomes, by adding group after group. The weights are binomial
     * probabilities at the pooled proportion: they sum to 1, only add and multiply, and so keep their relative accuracy.
     */
    private static double[] distribution(List<ScoredGroup> groups, long[] scores, int rarer, double pooled) {
        double[][] sofar = {{1}};
        for (int j = 0; j < scores.length; j++) {
            int score = (int) scores[j];
            long of = groups.get(j).proportion().of();
            int most = (int) Math.min(rarer, of);
            double[] weights = weights(of, most, pooled);
            double[][] next = new double[(int) Math.min(rarer, sofar.length - 1L + most) + 1][];
            for (int e = 0; e < next.length; e++) {
                next[e] = row(sofar, weights, score, e);
            }
            sofar = next;
        }
        return sofar[rarer];
    }

    private static double[] weights(long of, int most, double pooled) {
        BinomialDistribution distribution = new BinomialDistribution(of, pooled);
        double[] weights = new double[most + 1];
        for (int x = 0; x <= most; x++) {
            weights[x] = FastMath.exp(distribution.logProbability(x));
        }
        return weights;
    }

    /** All ways to e events: x of them in the group being added. */
    private static double[] row(double[][] sofar, double[] weights, int score, int e) {
        int from = Math.max(0, e - sofar.length + 1);
        int to = Math.min(e, weights.length - 1);
        int length = 0;
        for (int x = from; x <= to; x++) {
            length = Math.max(length, sofar[e - x].length + x * score);
        }
        double[] row = new double[length];
        for (int x = from; x <= to; x++) {
            double[] before = sofar[e - x];
            for (int t = 0; t < before.length; t++) {
                row[t + x * score] += before[t] * weights[x];
            }
        }
        return row;
    }

    private static ExactTrend tails(double[] distribution, int target) {
        double below = 0;
        double above = 0;
        for (int t = 0; t < target; t++) {
            below += distribution[t];
        }
        for (int t = distribution.length - 1; t > target; t--) {
            above += distribution[t];
        }
        double at = distribution[target];
        double all = below + at + above;
        return new ExactTrend(
                pValue((above + at) / all),
                pValue((below + at) / all),
                pValue(2 * (Math.min(below, above) + at / 2) / all));
    }

    private static double pValue(double p) {
        return Math.max(Double.MIN_NORMAL, Math.min(1, p));
    }

    /** The scores as whole numbers from 0 without a common factor, or empty if those are too large. */
    private static Optional<long[]> integers(List<ScoredGroup> groups) {
        List<BigDecimal> scores =
                groups.stream().map(group -> BigDecimal.valueOf(group.score())).toList();
        int decimals = scores.stream().mapToInt(BigDecimal::scale).max().orElse(0);
        List<BigInteger> scaled = scores.stream()
                .map(score -> score.setScale(Math.max(0, decimals)).unscaledValue())
                .toList();
        BigInteger lowest = scaled.stream().reduce(BigInteger::min).orElseThrow();
        List<BigInteger> above =
                scaled.stream().map(score -> score.subtract(lowest)).toList();
        BigInteger factor = above.stream().reduce(BigInteger.ZERO, BigInteger::gcd);
        return above.stream().anyMatch(score -> score.divide(factor).bitLength() > 31)
                ? Optional.empty()
                : Optional.of(above.stream()
                        .mapToLong(score -> score.divide(factor).longValue())
                        .toArray());
    }
}
