package entrapment.registry.stats;

/** An affine part of the space of models: an origin and the orthonormal directions one may move in from it. */
final class Subspace {

    /** The point nearest to 0. */
    private final double[] origin;

    /** None or more, each orthogonal to the origin. */
    private final double[][] directions;

    private Subspace(double[] origin, double[][] directions) {
        this.origin = origin;
        this.directions = directions;
    }

    /** All of the space. */
    static Subspace all(int dimension) {
        double[][] directions = new double[dimension][dimension];
        for (int j = 0; j < dimension; j++) {
            directions[j][j] = 1;
        }
        return new Subspace(new double[dimension], directions);
    }

    /** All θ with cᵀθ = value; the directions are the columns of a Householder reflection but the first. */
    static Subspace orthogonalTo(double[] c, double value) {
        double length = ThinQr.norm(c);
        double[] u = ThinQr.times(c, 1 / length);
        u[0] += u[0] < 0 ? -1 : 1;
        double square = ThinQr.dot(u, u);
        double[][] directions = new double[c.length - 1][c.length];
        for (int k = 0; k < directions.length; k++) {
            directions[k][k + 1] = 1;
            ThinQr.add(directions[k], -2 * u[k + 1] / square, u);
        }
        return new Subspace(ThinQr.times(c, value / (length * length)), directions);
    }

    /** All combinations of these independent vectors. */
    static Subspace spannedBy(double[][] vectors, int dimension) {
        ThinQr qr = ThinQr.twice(vectors);
        double[][] directions = new double[vectors.length][];
        for (int k = 0; k < directions.length; k++) {
            directions[k] = qr.q(k);
        }
        return new Subspace(new double[dimension], directions);
    }

    /** The point of this part nearest to θ. */
    double[] nearest(double[] theta) {
        double[] nearest = origin.clone();
        for (double[] direction : directions) {
            ThinQr.add(nearest, ThinQr.dot(direction, theta), direction);
        }
        return nearest;
    }

    /** Each direction's share of a gradient. */
    double[] project(double[] gradient) {
        double[] shares = new double[directions.length];
        for (int k = 0; k < shares.length; k++) {
            shares[k] = ThinQr.dot(directions[k], gradient);
        }
        return shares;
    }

    /** The columns a model moves along when it moves along the directions: Q times each direction. */
    double[][] columns(double[][] q) {
        double[][] columns = new double[directions.length][q[0].length];
        for (int k = 0; k < columns.length; k++) {
            for (int j = 0; j < q.length; j++) {
                ThinQr.add(columns[k], directions[k][j], q[j]);
            }
        }
        return columns;
    }

    /** θ moved along the directions. */
    double[] moved(double[] theta, double[] step, double factor) {
        double[] moved = theta.clone();
        for (int k = 0; k < step.length; k++) {
            ThinQr.add(moved, factor * step[k], directions[k]);
        }
        return moved;
    }
}
