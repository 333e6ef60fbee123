package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;

/** The logistic scale, in forms that keep their digits at both ends. */
final class Logit {

    private Logit() {}

    /** log(p/(1−p)). */
    static double of(double p) {
        return FastMath.log(p) - FastMath.log1p(-p);
    }

    /** Back again: 1/(1+e^−t). */
    static double proportion(double logit) {
        return 1 / (1 + FastMath.exp(-logit));
    }

    /** log(1+e^t). */
    static double softplus(double t) {
        return Math.max(t, 0) + FastMath.log1p(FastMath.exp(-Math.abs(t)));
    }
}
