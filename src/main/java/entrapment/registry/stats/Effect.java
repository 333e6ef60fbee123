package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;

/**
 * A centre's estimate on a scale on which it is nearly normal, such as a logit or a log ratio.
 *
 * @param estimate y in [-1e6, 1e6]
 * @param variance v in [1e-12, 1e12]
 */
public record Effect(double estimate, double variance) {

    private static final double LARGEST_ESTIMATE = 1e6;
    private static final double LEAST_VARIANCE = 1e-12;
    private static final double LARGEST_VARIANCE = 1e12;

    /** @throws IllegalArgumentException if a value is out of its range or not a number */
    public Effect {
        Counts.requireReal("estimate", estimate, -LARGEST_ESTIMATE, LARGEST_ESTIMATE);
        Counts.requireReal("variance", variance, LEAST_VARIANCE, LARGEST_VARIANCE);
    }

    /** Logit of a proportion, v = 1/x+1/(n−x), with ½ added to x and n−x if one of them is 0; the centre holds somebody. */
    static Effect logit(Proportion centre) {
        double half = corrected(centre) ? 0.5 : 0;
        double x = centre.events() + half;
        double rest = centre.of() - centre.events() + half;
        return new Effect(FastMath.log(x / rest), 1 / x + 1 / rest);
    }

    /** Whether the logit needs added halves. */
    static boolean corrected(Proportion centre) {
        return centre.events() == 0 || centre.events() == centre.of();
    }
}
