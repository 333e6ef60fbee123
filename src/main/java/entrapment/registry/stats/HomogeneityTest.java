package entrapment.registry.stats;

import java.util.List;
import org.apache.commons.math3.util.FastMath;

/**
 * Do several tables share one odds ratio?
 *
 * @param breslowDay Breslow and Day's statistic
 * @param tarone the same less Tarone's correction for having estimated the common ratio
 */
record HomogeneityTest(ChiSquaredTest breslowDay, ChiSquaredTest tarone) {

    /**
     * The cells that a table's margins and an odds ratio imply, written from both ends of the support so that nothing
     * cancels.
     *
     * @param a fitted count of exposed events, Â
     * @param b n₁−Â
     * @param c m₁−Â
     * @param d n₀−m₁+Â
     */
    private record Fitted(double a, double b, double c, double d) {

        private static Fitted of(TwoByTwo table, double logOddsRatio) {
            return at(table, MonotoneRoot.of(t -> at(table, t).logOddsRatio() - logOddsRatio, 0, 1));
        }

        /** Â at the point of its range that the logit t names. */
        private static Fitted at(TwoByTwo table, double t) {
            double n1 = (double) table.a() + table.b();
            double n0 = (double) table.c() + table.d();
            double m1 = (double) table.a() + table.c();
            double lowest = Math.max(0, m1 - n0);
            double highest = Math.min(n1, m1);
            double above = (highest - lowest) / (1 + FastMath.exp(-t));
            double below = (highest - lowest) / (1 + FastMath.exp(t));
            return new Fitted(lowest + above, n1 - highest + below, m1 - highest + below, n0 - m1 + lowest + above);
        }

        private double logOddsRatio() {
            return FastMath.log(a) + FastMath.log(d) - FastMath.log(b) - FastMath.log(c);
        }

        private double variance() {
            return 1 / (1 / a + 1 / b + 1 / c + 1 / d);
        }
    }

    /**
     * Both tests against the Mantel–Haenszel ratio.
     *
     * <p>X²_BD = Σ(a−Â)²/V̂ [1]; Tarone X²_BD−(Σ(a−Â))²/ΣV̂ [2]; one degree of freedom less than tables. With few events
     * neither has much power.
     *
     * <p>Edges: the caller sees to it that there are two tables and that the ratio is positive and finite.
     *
     * <p><b>Same as</b> R {@code DescTools::BreslowDayTest(x)} and {@code (x, correct = TRUE)}. Accuracy: relative 1e-10.
     *
     * <p>[1] Breslow NE, Day NE, Statistical Methods in Cancer Research I, IARC 1980, eq. 4.30. [2] Tarone RE, Biometrika
     * 1985;72:91.
     *
     * @param tables two or more with positive margins
     * @param oddsRatio positive and finite
     */
    static HomogeneityTest of(List<TwoByTwo> tables, double oddsRatio) {
        double chi2 = 0;
        double distance = 0;
        double variance = 0;
        for (TwoByTwo table : tables) {
            Fitted fitted = Fitted.of(table, FastMath.log(oddsRatio));
            double d = table.a() - fitted.a();
            chi2 += d * d / fitted.variance();
            distance += d;
            variance += fitted.variance();
        }
        int df = tables.size() - 1;
        return new HomogeneityTest(
                ChiSquaredTest.of(chi2, df), ChiSquaredTest.of(Math.max(0, chi2 - distance * distance / variance), df));
    }

    static HomogeneityTest notEstimable(int df) {
        return new HomogeneityTest(ChiSquaredTest.notEstimable(df), ChiSquaredTest.notEstimable(df));
    }
}
