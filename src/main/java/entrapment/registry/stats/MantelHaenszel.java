package entrapment.registry.stats;

import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * The common odds ratio of several tables by Mantel and Haenszel, with its interval and test.
 *
 * @param oddsRatio infinite or 0 if one of its two sums is 0, {@code null} without a table
 * @param logStandardError of its logarithm; {@code null} unless the ratio is positive and finite
 * @param rbg its interval; {@code null} limits likewise
 * @param cmh the test of a common ratio of 1
 * @param cmhContinuity the same with R's continuity correction: too conservative
 */
record MantelHaenszel(
        @Nullable Double oddsRatio,
        @Nullable Double logStandardError,
        Interval rbg,
        ChiSquaredTest cmh,
        ChiSquaredTest cmhContinuity) {

    private static final double CORRECTION = 0.5;

    static final MantelHaenszel NOT_ESTIMABLE = new MantelHaenszel(
            null, null, Interval.NOT_ESTIMABLE, ChiSquaredTest.notEstimable(0), ChiSquaredTest.notEstimable(0));

    /**
     * OR = ΣR/ΣS with R = ad/N, S = bc/N [1]; CMH as {@link #cmh}; interval log OR ± z·se with Robins, Breslow and
     * Greenland's se² = ΣPR/(2(ΣR)²)+Σ(PS+QR)/(2ΣRΣS)+ΣQS/(2(ΣS)²), P = (a+d)/N, Q = (b+c)/N [2].
     *
     * <p><b>Same as</b> R {@code mantelhaen.test(x, correct = FALSE)}. Accuracy: relative 1e-12.
     *
     * <p>[1] Mantel N, Haenszel W, J Natl Cancer Inst 1959;22:719. [2] Robins J, Breslow N, Greenland S, Biometrics
     * 1986;42:311.
     *
     * @param tables one or more, each with positive margins
     */
    static MantelHaenszel of(List<TwoByTwo> tables, double z) {
        double sumR = 0;
        double sumS = 0;
        double sumPR = 0;
        double sumPSQR = 0;
        double sumQS = 0;
        for (TwoByTwo t : tables) {
            double n = (double) t.a() + t.b() + t.c() + t.d();
            double r = (double) t.a() * t.d() / n;
            double s = (double) t.b() * t.c() / n;
            double p = (t.a() + t.d()) / n;
            double q = (t.b() + t.c()) / n;
            sumR += r;
            sumS += s;
            sumPR += p * r;
            sumPSQR += p * s + q * r;
            sumQS += q * s;
        }
        ChiSquaredTest cmh = cmh(tables, 0);
        ChiSquaredTest corrected = cmh(tables, CORRECTION);
        if (sumR == 0 || sumS == 0) {
            double edge = sumS == 0 ? Double.POSITIVE_INFINITY : 0;
            return new MantelHaenszel(edge, null, Interval.NOT_ESTIMABLE, cmh, corrected);
        }
        double oddsRatio = sumR / sumS;
        double se = FastMath.sqrt(sumPR / (2 * sumR * sumR) + sumPSQR / (2 * sumR * sumS) + sumQS / (2 * sumS * sumS));
        double factor = FastMath.exp(z * se);
        return new MantelHaenszel(oddsRatio, se, new Interval(oddsRatio / factor, oddsRatio * factor), cmh, corrected);
    }

    /** D = Σ(a−n₁m₁/N), V = Σn₁n₀m₁m₀/(N²(N−1)); X² = (|D|−y)²/V, where y is 0 if |D| is below it, as in R. */
    private static ChiSquaredTest cmh(List<TwoByTwo> tables, double correction) {
        double distance = 0;
        double variance = 0;
        for (TwoByTwo t : tables) {
            double n1 = (double) t.a() + t.b();
            double n0 = (double) t.c() + t.d();
            double m1 = (double) t.a() + t.c();
            double m0 = (double) t.b() + t.d();
            double n = n1 + n0;
            // a−n₁m₁/N = (ad−bc)/N: the second form keeps its digits when both terms are large.
            distance += ((double) t.a() * t.d() - (double) t.b() * t.c()) / n;
            variance += n1 / n * (n0 / n) * m1 * (m0 / (n - 1));
        }
        double d = Math.abs(distance);
        double corrected = d - (d >= correction ? correction : 0);
        return ChiSquaredTest.of(corrected * corrected / variance, 1);
    }
}
