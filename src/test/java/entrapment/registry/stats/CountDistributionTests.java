package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.MathContext;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Tails and quantiles of counts against sums in fifty digits. */
class CountDistributionTests {

    private static final MathContext DIGITS = new MathContext(50);

    @ParameterizedTest
    @ValueSource(doubles = {0.001, 0.03, 0.5, 0.97})
    void binomialTailsAreSumsOfTheirTerms(double theta) {
        for (int n = 1; n <= 40; n++) {
            BigDecimal[] terms = binomial(n, theta);
            CountDistribution distribution = new BinomialDistribution(n, theta);
            for (int x = 0; x <= n; x++) {
                agrees(Math.exp(distribution.logLowerTail(x)), sum(terms, 0, x));
                agrees(Math.exp(distribution.logUpperTail(x)), sum(terms, x, n));
                agrees(Math.exp(distribution.logProbability(x)), terms[x]);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.01, 0.7, 3, 20})
    void poissonTailsAreSumsOfTheirTerms(double mean) {
        BigDecimal[] terms = poisson(mean, 200);
        CountDistribution distribution = new PoissonDistribution(mean);
        for (int x = 0; x <= 60; x++) {
            agrees(Math.exp(distribution.logLowerTail(x)), sum(terms, 0, x));
            agrees(Math.exp(distribution.logUpperTail(x)), sum(terms, x, 199));
            agrees(Math.exp(distribution.logProbability(x)), terms[x]);
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.00135, 0.001, 0.025, 0.25})
    void cutOffCountsAreTheFirstThatLeaveTheTail(double tail) {
        for (int n = 1; n <= 60; n++) {
            for (double theta : new double[] {0.004, 0.1, 0.5, 0.6}) {
                BigDecimal[] terms = binomial(n, theta);
                CountDistribution distribution = new BinomialDistribution(n, theta);
                int upper = 0;
                while (sum(terms, upper + 1, n).doubleValue() > tail * (1 + 1e-12)) {
                    upper++;
                }
                int lower = 0;
                while (sum(terms, 0, lower).doubleValue() < tail * (1 - 1e-12)) {
                    lower++;
                }
                assertThat(distribution.upperCount(tail)).isEqualTo(upper);
                assertThat(distribution.lowerCount(tail)).isEqualTo(lower);
            }
        }
    }

    /** One event in one use at 0.001 has a tail of exactly 0.001. */
    @Test
    void aTailThatEqualsTheNominalOneIsReached() {
        assertThat(new BinomialDistribution(1, 0.001).reachesAbove(1, 0.001)).isTrue();
        assertThat(new BinomialDistribution(1, 0.025).reachesAbove(1, 0.025)).isTrue();
        assertThat(new BinomialDistribution(1, 0.0250001).reachesAbove(1, 0.025))
                .isFalse();
        assertThat(new BinomialDistribution(2, 0.5).reachesBelow(0, 0.25)).isTrue();
        assertThat(new BinomialDistribution(2, 0.4999).reachesBelow(0, 0.25)).isFalse();
    }

    @Test
    void midPIsTwiceTheSmallerTailLessTheObservedCount() {
        BigDecimal[] terms = binomial(12, 0.2);
        CountDistribution distribution = new BinomialDistribution(12, 0.2);
        for (int x = 0; x <= 12; x++) {
            double smaller =
                    Math.min(sum(terms, 0, x).doubleValue(), sum(terms, x, 12).doubleValue());
            assertThat(distribution.midPValue(x))
                    .isCloseTo(Math.min(1, 2 * smaller - terms[x].doubleValue()), within(1e-12));
        }
    }

    /** R 4.2.2: dpois(2147483647, lambda, log = TRUE). */
    @ParameterizedTest
    @CsvSource({
        "2147483647, -11.6627198316898",
        "2147400000, -13.2918363825067",
        "2.386092941111111E8, -2809629507.38985"
    })
    void knowsThePoissonProbabilityOfTheLargestCount(double mean, double logProbability) {
        CountDistribution distribution = new PoissonDistribution(mean);

        assertThat(distribution.logProbability(2_147_483_647L))
                .isCloseTo(logProbability, within(1e-6 * Math.abs(logProbability)));
        assertThat(distribution.midPValue(2_147_483_647L)).isBetween(Double.MIN_NORMAL, 1.0);
    }

    /** Below 1e-308 a double is 0, its logarithm is not. Values: mpmath 1.3.0 with 40 digits, the sum itself. */
    @ParameterizedTest
    @CsvSource({"85556.8888444575, 71058, -1309.2084851382167", "10000000, 9000000, -51761.981809580186"})
    void poissonTailsDoNotUnderflow(double mean, long x, double logTail) {
        assertThat(new PoissonDistribution(mean).logLowerTail(x)).isCloseTo(logTail, within(1e-8));
        assertThat(new PoissonDistribution(mean).midPValue(x)).isEqualTo(Double.MIN_NORMAL);
    }

    @Test
    void theLargestCountsHaveTails() {
        long largest = Integer.MAX_VALUE;

        assertThat(new PoissonDistribution(largest).logLowerTail(largest)).isEqualTo(0);
        assertThat(new PoissonDistribution(1e7).logLowerTail(10_000_000)).isCloseTo(Math.log(0.5), within(1e-3));
        assertThat(new BinomialDistribution(10_000_000, 1e-7).upperCount(0.001)).isEqualTo(5);
        assertThat(new BinomialDistribution(10_000_000, 0.5).logLowerTail(5_000_000))
                .isCloseTo(Math.log(0.5), within(1e-3));
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, Double.NaN, Double.POSITIVE_INFINITY, 3e9})
    void refusesAnExpectedCountThatIsNone(double mean) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new PoissonDistribution(mean))
                .withMessage("the expected count must be in (0, 2147483647], got " + mean);
    }

    private static void agrees(double value, BigDecimal exact) {
        assertThat(value).isCloseTo(exact.doubleValue(), within(1e-11 * exact.doubleValue()));
    }

    private static BigDecimal sum(BigDecimal[] terms, int from, int to) {
        BigDecimal sum = BigDecimal.ZERO;
        for (int i = from; i <= to; i++) {
            sum = sum.add(terms[i], DIGITS);
        }
        return sum;
    }

    private static BigDecimal[] binomial(int n, double theta) {
        BigDecimal p = new BigDecimal(theta);
        BigDecimal q = BigDecimal.ONE.subtract(p);
        BigDecimal[] terms = new BigDecimal[n + 1];
        BigDecimal choose = BigDecimal.ONE;
        for (int x = 0; x <= n; x++) {
            terms[x] = choose.multiply(p.pow(x, DIGITS), DIGITS).multiply(q.pow(n - x, DIGITS), DIGITS);
            choose = choose.multiply(BigDecimal.valueOf(n - x), DIGITS).divide(BigDecimal.valueOf(x + 1), DIGITS);
        }
        return terms;
    }

    /** e^−λ in fifty digits as the reciprocal of Σλ^j/j!. */
    private static BigDecimal[] poisson(double mean, int length) {
        BigDecimal lambda = new BigDecimal(mean);
        BigDecimal[] terms = new BigDecimal[length];
        terms[0] = BigDecimal.ONE;
        for (int x = 1; x < length; x++) {
            terms[x] = terms[x - 1].multiply(lambda, DIGITS).divide(BigDecimal.valueOf(x), DIGITS);
        }
        BigDecimal all = sum(terms, 0, length - 1);
        for (int x = 0; x < length; x++) {
            terms[x] = terms[x].divide(all, DIGITS);
        }
        return terms;
    }
}
