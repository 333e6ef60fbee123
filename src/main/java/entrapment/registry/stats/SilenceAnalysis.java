package entrapment.registry.stats;

import java.util.List;
import org.apache.commons.math3.util.FastMath;

/**
 * Is chance a likely reason why a centre had no event in so many uses?
 *
 * @param expected events at the reference's rates
 * @param probabilityOfNone of no event at all at those rates
 */
public record SilenceAnalysis(double expected, double probabilityOfNone) {

    /** Below this probability a centre is asked whether it reports its events (common practice, no single source). */
    static final double UNLIKELY = 0.01;

    /**
     * Expected events, and the probability of none.
     *
     * <p>Valid for independent uses whose chance of an event is the rate of their stratum in the reference, taken as known.
     * With p = x/m in a stratum of the reference and n uses of the centre there: E = Σnp, P = ∏(1−p)ⁿ.
     *
     * <p>Edges: a stratum in which the reference has no use, or the centre none, adds nothing. p = 1 with a use: P = 0. No use
     * at all: E = 0, P = 1.
     *
     * <p><b>Same as</b> R {@code prod(dbinom(0, n, x / m))}. Accuracy: relative 1e-13 as long as E is below 100.
     *
     * @param reference x of m in each stratum
     * @param uses n of the centre in each stratum, in the same order
     * @throws IllegalArgumentException if the strata differ in number or a count is out of its range
     */
    public static SilenceAnalysis of(List<Proportion> reference, List<Long> uses) {
        Counts.require("number of strata", uses.size(), reference.size(), reference.size());
        double expected = 0;
        double logNone = 0;
        for (int i = 0; i < uses.size(); i++) {
            long n = uses.get(i);
            Counts.require("uses", n);
            Double rate = reference.get(i).estimate();
            if (rate != null && n > 0) {
                expected += rate * n;
                logNone += n * FastMath.log1p(-rate);
            }
        }
        return new SilenceAnalysis(expected, FastMath.exp(logNone));
    }

    /** Whether chance is an unlikely reason: to be asked, not said. */
    public boolean unlikely() {
        return probabilityOfNone < UNLIKELY;
    }
}
