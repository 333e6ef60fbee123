package entrapment.registry.stats;

import java.util.List;
import java.util.function.LongToDoubleFunction;
import org.apache.commons.math3.util.FastMath;

/**
 * The distribution of the number of exposed events once the margins are given, as logarithms of weights that a ratio tilts:
 * P(A = s; ψ) ∝ w(s)·ψ^s.
 *
 * <p>The weights are log-concave in s, and stay so when strata are added up. So a tilted distribution has one peak, and every sum
 * is taken outward from the peak of its part until terms vanish: some √N terms, whatever the support.
 */
final class ConditionalDistribution {

    /** Points of the support kept, 16 MB: a bound on memory that no rare-event table comes near. */
    static final long LARGEST_SUPPORT = 2_000_000;

    /** Terms below e^−60 of the largest one cannot change a double's last digit, even if there are millions. */
    private static final double NEGLIGIBLE = -60;

    /** R's allowance for ties between probabilities that differ by rounding only. */
    private static final double TIE = FastMath.log1p(1e-7);

    private final long lowest;
    private final double[] logWeights;

    private ConditionalDistribution(long lowest, double[] logWeights) {
        this.lowest = lowest;
        this.logWeights = logWeights;
    }

    /**
     * Fisher's distribution of cell a: w(s) = C(m,s)·C(n,k−s), m = a+b, n = c+d, k = a+c, s = max(0,k−n) … min(k,m).
     *
     * @throws IllegalArgumentException if the support is too large, which takes more than 2,000,000 in each margin
     */
    static ConditionalDistribution of(TwoByTwo table) {
        long m = table.a() + table.b();
        long n = table.c() + table.d();
        long k = table.a() + table.c();
        long lowest = Math.max(0, k - n);
        long highest = Math.min(k, m);
        if (highest - lowest >= LARGEST_SUPPORT) {
            throw new IllegalArgumentException("the smallest margin of a table must be below " + LARGEST_SUPPORT
                    + " for an exact analysis, got " + (highest - lowest));
        }
        long mode = (long) Math.floor((k + 1.0) * (m + 1.0) / (m + n + 2.0));
        return outwardFrom(mode, lowest, highest, s -> logRatio(m, n, k, s));
    }

    /**
     * The distribution of the first of two Poisson counts once their sum N is given: w(s) = C(N,s)·e^(s·logOdds), where the odds
     * are those of the two exposures.
     *
     * @throws IllegalArgumentException if there are 2,000,000 events or more
     */
    static ConditionalDistribution ofShare(long events, double logOdds) {
        if (events >= LARGEST_SUPPORT) {
            throw new IllegalArgumentException("the events of both groups together must be below " + LARGEST_SUPPORT
                    + " for an exact analysis, got " + events);
        }
        long mode = (long) Math.floor((events + 1.0) / (1 + FastMath.exp(-logOdds)));
        return outwardFrom(mode, 0, events, s -> FastMath.log((double) (events - s) / (double) (s + 1)) + logOdds);
    }

    /**
     * The distribution of the sum of the cells a of several tables with one common odds ratio, each given its own margins.
     *
     * @param tables one or more
     * @throws IllegalArgumentException if the support of the sum is {@link LogConcaveSum#LARGEST_SUPPORT} or more
     */
    static ConditionalDistribution ofSum(List<TwoByTwo> tables) {
        List<ConditionalDistribution> laws =
                tables.stream().map(ConditionalDistribution::of).toList();
        return new ConditionalDistribution(
                laws.stream().mapToLong(ConditionalDistribution::lowest).sum(),
                LogConcaveSum.of(laws.stream()
                        .map(distribution -> distribution.logWeights)
                        .toList()));
    }

    /** Weights by their ratios, outward from the mode, so that rounding gathers where the weights are smallest. */
    private static ConditionalDistribution outwardFrom(
            long mode, long lowest, long highest, LongToDoubleFunction logRatio) {
        double[] logWeights = new double[(int) (highest - lowest) + 1];
        int start = (int) (Math.max(lowest, Math.min(highest, mode)) - lowest);
        for (int i = start + 1; i < logWeights.length; i++) {
            logWeights[i] = logWeights[i - 1] + logRatio.applyAsDouble(lowest + i - 1);
        }
        for (int i = start - 1; i >= 0; i--) {
            logWeights[i] = logWeights[i + 1] - logRatio.applyAsDouble(lowest + i);
        }
        return new ConditionalDistribution(lowest, logWeights);
    }

    /** log(w(s+1)/w(s)). */
    private static double logRatio(long m, long n, long k, long s) {
        return FastMath.log((double) (m - s) * (k - s) / ((double) (s + 1) * (n - k + s + 1)));
    }

    long lowest() {
        return lowest;
    }

    long highest() {
        return lowest + logWeights.length - 1;
    }

    /** log P(A ≥ a; ψ), the point a itself counted with a share: 1 for exact, ½ for mid-P. */
    double logUpperTail(long a, double share, double logPsi) {
        int at = (int) (a - lowest);
        double beyond = logSum(at + 1, logWeights.length - 1, logPsi, at);
        return logAdd(FastMath.log(share), beyond) - logSum(0, logWeights.length - 1, logPsi, at);
    }

    /** log P(A ≤ a; ψ), the point a itself counted with a share. */
    double logLowerTail(long a, double share, double logPsi) {
        int at = (int) (a - lowest);
        double beyond = logSum(0, at - 1, logPsi, at);
        return logAdd(FastMath.log(share), beyond) - logSum(0, logWeights.length - 1, logPsi, at);
    }

    /** log Σ P(s) at ψ = 1 over all s no more probable than a. */
    double logNoMoreProbable(long a) {
        int at = (int) (a - lowest);
        int last = logWeights.length - 1;
        double bound = logWeights[at] + TIE;
        int peak = peak(0);
        if (logWeights[peak] <= bound) {
            return 0;
        }
        int left = lastRising(peak, bound);
        int right = firstFalling(peak, bound);
        return logAdd(logSum(0, left, 0, at), logSum(right, last, 0, at)) - logSum(0, last, 0, at);
    }

    /** E(A; ψ) − a. */
    double meanBeyond(long a, double logPsi) {
        int peak = peak(logPsi);
        double at = a - lowest;
        double weights = 1;
        double sum = peak - at;
        for (int step = -1; step <= 1; step += 2) {
            for (int i = peak + step; i >= 0 && i < logWeights.length; i += step) {
                double log = logWeights[i] - logWeights[peak] + logPsi * (i - peak);
                if (log < NEGLIGIBLE) {
                    break;
                }
                double weight = FastMath.exp(log);
                weights += weight;
                sum += weight * (i - at);
            }
        }
        return sum / weights;
    }

    /** log Σ w(s)ψ^s over the indices from … to, relative to the term at {@code reference}. */
    private double logSum(int from, int to, double logPsi, int reference) {
        if (from > to) {
            return Double.NEGATIVE_INFINITY;
        }
        int peak = Math.max(from, Math.min(to, peak(logPsi)));
        double sum = 1;
        for (int step = -1; step <= 1; step += 2) {
            for (int i = peak + step; i >= from && i <= to; i += step) {
                double log = logWeights[i] - logWeights[peak] + logPsi * (i - peak);
                if (log < NEGLIGIBLE) {
                    break;
                }
                sum += FastMath.exp(log);
            }
        }
        return logWeights[peak] - logWeights[reference] + logPsi * (peak - reference) + FastMath.log(sum);
    }

    /** Index of the most probable point under a tilt: the first whose successor is less probable. */
    private int peak(double logPsi) {
        int low = 0;
        int high = logWeights.length - 1;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (logWeights[middle + 1] - logWeights[middle] + logPsi < 0) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        return low;
    }

    /** The last index left of the peak with a weight within the bound, or −1. */
    private int lastRising(int peak, double bound) {
        int low = -1;
        int high = peak;
        while (high - low > 1) {
            int middle = (low + high) >>> 1;
            if (logWeights[middle] <= bound) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** The first index right of the peak with a weight within the bound, or one past the last. */
    private int firstFalling(int peak, double bound) {
        int low = peak;
        int high = logWeights.length;
        while (high - low > 1) {
            int middle = (low + high) >>> 1;
            if (logWeights[middle] <= bound) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return high;
    }

    private static double logAdd(double a, double b) {
        double larger = Math.max(a, b);
        return larger == Double.NEGATIVE_INFINITY
                ? larger
                : larger + FastMath.log1p(FastMath.exp(Math.min(a, b) - larger));
    }
}
