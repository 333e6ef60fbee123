package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;

/**
 * The Poisson distribution, its tails summed outward from x on the side away from the mean: logarithms that do not underflow.
 *
 * <p><b>Same as</b> R {@code ppois(x, lambda)}, {@code dpois(x, lambda)}. Accuracy: relative 1e-11 in tails however
 * small, λ up to 10⁷.
 *
 * @param mean λ in (0, 2³¹−1]
 */
record PoissonDistribution(double mean) implements CountDistribution {

    /** Of a first term of 1: there may be 10⁵ terms of this size. */
    private static final double NEGLIGIBLE = 1e-22;

    /** @throws IllegalArgumentException if λ is beyond any count that is accepted */
    PoissonDistribution {
        if (!(mean > 0 && mean <= Counts.LARGEST)) {
            throw new IllegalArgumentException(
                    "the expected count must be in (0, " + Counts.LARGEST + "], got " + mean);
        }
    }

    @Override
    public long highest() {
        return Counts.LARGEST;
    }

    @Override
    public double logLowerTail(long x) {
        if (x >= mean) {
            return x == highest() ? 0 : FastMath.log1p(-FastMath.exp(logUpperTail(x + 1)));
        }
        double sum = 1;
        double term = 1;
        for (long i = x; i > 0 && term > NEGLIGIBLE; i--) {
            term *= i / mean;
            sum += term;
        }
        return logProbability(x) + FastMath.log(sum);
    }

    @Override
    public double logUpperTail(long x) {
        if (x <= mean) {
            return x <= 0 ? 0 : FastMath.log1p(-FastMath.exp(logLowerTail(x - 1)));
        }
        double sum = 1;
        double term = 1;
        for (long i = x + 1; term > NEGLIGIBLE; i++) {
            term *= mean / i;
            sum += term;
        }
        return logProbability(x) + FastMath.log(sum);
    }

    /** For the largest count Commons Math always answers 0, so that one comes from the count before it. */
    @Override
    public double logProbability(long x) {
        if (x == Counts.LARGEST) {
            return logProbability(x - 1) + FastMath.log(mean / x);
        }
        return new org.apache.commons.math3.distribution.PoissonDistribution(
                        null, mean, org.apache.commons.math3.distribution.PoissonDistribution.DEFAULT_EPSILON, 1)
                .logProbability((int) x);
    }
}
