package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;

/**
 * The logarithm of the rising product a(a+g)(a+2g)…(a+(n−1)g) and its derivatives, to full accuracy as g → 0, where
 * differences of log-gamma functions lose all digits, and in a few operations for any n.
 *
 * <p>With b = a/g and y = n/b: Σ_{j&lt;n} log(a+gj) = b(log(1+y)−y) + n·log(a+gn) − ½log(1+y) + D(b+n) − D(b), D being the
 * correction series of Stirling's formula (Abramowitz and Stegun 6.1.40; 6.3.18 for the derivatives).
 *
 * @param log Σ log(a+gj)
 * @param byStart ∂/∂a = Σ 1/(a+gj)
 * @param byStep ∂/∂g = Σ j/(a+gj)
 */
record RisingSum(double log, double byStart, double byStep) {

    /** From here on the series, cut after five terms, is exact to a double. */
    private static final double LEAST_RATIO = 20;

    private static final long FEW = 32;

    /** Where log(1+y)−y is summed as a series. */
    private static final double SMALL = 0.1;

    /** n ≥ 0, a &gt; 0, g ≥ 0. */
    static RisingSum of(long n, double a, double g) {
        if (g == 0) {
            return new RisingSum(n * FastMath.log(a), n / a, n * (n - 1.0) / (2 * a));
        }
        long few = n <= FEW ? n : Math.min(n, (long) Math.max(0, FastMath.ceil(LEAST_RATIO - a / g)));
        double log = 0;
        double byStart = 0;
        double byStep = 0;
        for (long j = 0; j < few; j++) {
            log += FastMath.log(a + g * j);
            byStart += 1 / (a + g * j);
            byStep += j / (a + g * j);
        }
        if (few == n) {
            return new RisingSum(log, byStart, byStep);
        }
        RisingSum rest = series((double) (n - few), a + g * few, g);
        return new RisingSum(log + rest.log, byStart + rest.byStart, byStep + rest.byStep + few * rest.byStart);
    }

    private static RisingSum series(double n, double a, double g) {
        double b = a / g;
        double y = n / b;
        double end = a + g * n;
        double defect = defect(y);
        double log1p = FastMath.log1p(y);
        double digamma = digammaCorrection(b) - digammaCorrection(b + n);
        return new RisingSum(
                -b * defect + n * FastMath.log(end) - log1p / 2 + stirling(b + n) - stirling(b),
                log1p / g + n * g / (2 * a * end) + digamma / g,
                b * defect / g - n / (2 * end) - b * digamma / g);
    }

    /** y − log(1+y), y ≥ 0. */
    private static double defect(double y) {
        if (y >= SMALL) {
            return y - FastMath.log1p(y);
        }
        double sum = 0;
        double power = y * y;
        for (int k = 2; k < 20; k++) {
            sum += k % 2 == 0 ? power / k : -power / k;
            power *= y;
        }
        return sum;
    }

    private static double stirling(double x) {
        double r = 1 / (x * x);
        return (1.0 / 12 - r * (1.0 / 360 - r * (1.0 / 1260 - r * (1.0 / 1680 - r / 1188)))) / x;
    }

    /** log x − 1/(2x) − ψ(x). */
    private static double digammaCorrection(double x) {
        double r = 1 / (x * x);
        return r * (1.0 / 12 - r * (1.0 / 120 - r * (1.0 / 252 - r * (1.0 / 240 - r / 132))));
    }
}
