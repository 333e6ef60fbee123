package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;

/**
 * A matrix as orthonormal columns times an upper triangle, A = QR, by Gram and Schmidt in modified order.
 *
 * <p>Orthogonalising twice makes Q orthonormal to the last digits whatever A [1]. Once is enough where A is far from
 * singular, and keeps each row's rounding as small as the row, which rows of very different weight need.
 *
 * <p>[1] Giraud L, Langou J, Rozložník M, Comput Math Appl 2005;50:1069.
 */
final class ThinQr {

    private final double[][] q;
    private final double[][] r;

    private ThinQr(double[][] q, double[][] r) {
        this.q = q;
        this.r = r;
    }

    static ThinQr once(double[][] columns) {
        return of(columns, 1);
    }

    static ThinQr twice(double[][] columns) {
        return of(columns, 2);
    }

    private static ThinQr of(double[][] columns, int passes) {
        int p = columns.length;
        double[][] q = new double[p][];
        double[][] r = new double[p][p];
        for (int j = 0; j < p; j++) {
            double[] v = columns[j].clone();
            for (int pass = 0; pass < passes; pass++) {
                for (int i = 0; i < j; i++) {
                    double share = dot(q[i], v);
                    add(v, -share, q[i]);
                    r[i][j] += share;
                }
            }
            r[j][j] = norm(v);
            q[j] = r[j][j] == 0 ? v : times(v, 1 / r[j][j]);
        }
        return new ThinQr(q, r);
    }

    double[] q(int column) {
        return q[column];
    }

    double r(int row, int column) {
        return r[row][column];
    }

    /** log|det R|; negative infinity if A is singular. */
    double logDeterminant() {
        double sum = 0;
        for (int j = 0; j < r.length; j++) {
            sum += FastMath.log(r[j][j]);
        }
        return sum;
    }

    /** Squared length of each row of Q: the leverage of A's rows. */
    double[] leverages() {
        double[] sums = new double[q[0].length];
        for (double[] column : q) {
            for (int i = 0; i < sums.length; i++) {
                sums[i] += column[i] * column[i];
            }
        }
        return sums;
    }

    /** x with Rx = b. */
    double[] solve(double[] b) {
        double[] x = b.clone();
        for (int i = x.length - 1; i >= 0; i--) {
            for (int j = i + 1; j < x.length; j++) {
                x[i] -= r[i][j] * x[j];
            }
            x[i] /= r[i][i];
        }
        return x;
    }

    /** x with Rᵀx = b. */
    double[] solveTransposed(double[] b) {
        double[] x = b.clone();
        for (int i = 0; i < x.length; i++) {
            for (int j = 0; j < i; j++) {
                x[i] -= r[j][i] * x[j];
            }
            x[i] /= r[i][i];
        }
        return x;
    }

    /** x with AᵀAx = b. */
    double[] solveGram(double[] b) {
        return solve(solveTransposed(b));
    }

    /** x that brings Ax nearest to b. */
    double[] nearest(double[] b) {
        double[] shares = new double[q.length];
        double[] rest = b.clone();
        for (int j = 0; j < q.length; j++) {
            shares[j] = dot(q[j], rest);
            add(rest, -shares[j], q[j]);
        }
        return solve(shares);
    }

    static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }

    static double norm(double[] a) {
        return FastMath.sqrt(dot(a, a));
    }

    /** a += factor·b. */
    static void add(double[] a, double factor, double[] b) {
        for (int i = 0; i < a.length; i++) {
            a[i] += factor * b[i];
        }
    }

    static double[] times(double[] a, double factor) {
        double[] product = a.clone();
        for (int i = 0; i < product.length; i++) {
            product[i] *= factor;
        }
        return product;
    }

    static double largest(double[] a) {
        double largest = 0;
        for (double value : a) {
            largest = Math.max(largest, Math.abs(value));
        }
        return largest;
    }
}
