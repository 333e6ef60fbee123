package entrapment.registry.stats;

/**
 * The binomial distribution, through P(X ≥ x) = I_θ(x, n−x+1) on the logit scale.
 *
 * <p><b>Same as</b> R {@code pbinom(x, n, theta, log.p = TRUE)}, {@code dbinom(x, n, theta, log = TRUE)}. Accuracy:
 * relative 1e-11 in tails down to 1e-300, n up to 10⁷.
 *
 * @param of n in [0, 2³¹−1]
 * @param theta in (0, 1)
 */
record BinomialDistribution(long of, double theta) implements CountDistribution {

    @Override
    public double mean() {
        return of * theta;
    }

    @Override
    public long highest() {
        return of;
    }

    @Override
    public double logLowerTail(long x) {
        return x >= of ? 0 : BetaQuantile.logLowerTail(-Logit.of(theta), (double) (of - x), x + 1.0);
    }

    @Override
    public double logUpperTail(long x) {
        return x <= 0 ? 0 : BetaQuantile.logLowerTail(Logit.of(theta), (double) x, of - x + 1.0);
    }

    @Override
    public double logProbability(long x) {
        return new org.apache.commons.math3.distribution.BinomialDistribution(null, (int) of, theta)
                .logProbability((int) x);
    }
}
