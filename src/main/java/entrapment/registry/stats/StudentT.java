package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;

/** Quantiles of Student's t, through P(|T| &gt; t) = I_x(ν/2, ½) at x = ν/(ν+t²), which keeps digits for any ν. */
final class StudentT {

    private StudentT() {}

    /** t with P(|T| ≤ t) = level: <b>same as</b> R {@code qt(1 - (1 - level) / 2, df)}, relative 1e-12. */
    static double quantile(Confidence confidence, double df) {
        double logit = BetaQuantile.logit(FastMath.log(confidence.alpha()), df / 2, 0.5);
        return FastMath.sqrt(df) * FastMath.exp(-logit / 2);
    }
}
