package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;

/** Koopman's score statistic for the ratio φ = p₁/p₂ of two proportions, and the ratios it does not reject. */
final class KoopmanScore {

    private KoopmanScore() {}

    /** All φ with χ²(φ) ≤ z²; both groups must hold somebody, and one of them an event. */
    static Interval interval(Proportion a, Proportion b, double z) {
        double start = start(a, b);
        return new Interval(
                a.events() == 0 ? 0 : FastMath.exp(-limit(b, a, -start, z)),
                b.events() == 0 ? Double.POSITIVE_INFINITY : FastMath.exp(limit(a, b, start, z)));
    }

    /** log φ of the upper limit of a over b; the lower one is the upper one of b over a, upside down. */
    private static double limit(Proportion a, Proportion b, double start, double z) {
        return MonotoneRoot.of(u -> chiSquared(a, b, u) - z * z, start, 1);
    }

    /** Where the walk begins: at the estimate, or beside it if that is 0 or infinite. */
    private static double start(Proportion a, Proportion b) {
        double half = a.events() == 0 || b.events() == 0 ? 0.5 : 0;
        return FastMath.log((a.events() + half) / (a.of() + 2 * half) / ((b.events() + half) / (b.of() + 2 * half)));
    }

    /** χ² at log φ = u [Koopman 1984]. */
    static double chiSquared(Proportion a, Proportion b, double u) {
        return term(a, b, FastMath.exp(u)) + term(b, a, FastMath.exp(-u));
    }

    /**
     * (x₁−n₁p̃₁)²/(n₁p̃₁q̃₁), with p̃₁ the smaller root of Np²−Bp+φ(x₁+x₂) = 0, B = φ(n₁+x₂)+x₁+n₂. Both p̃₁ and
     * q̃₁ = 1−p̃₁ are written without subtracting near-equal numbers, and so is the root of the discriminant,
     * B²−4φN(x₁+x₂) = (φ(n₁+x₂)−(x₁+n₂))²+4φ(n₁−x₁)(n₂−x₂).
     */
    private static double term(Proportion a, Proportion b, double phi) {
        double x1 = a.events();
        double n1 = a.of();
        double x2 = b.events();
        double n2 = b.of();
        double total = n1 + n2;
        double b0 = phi * (n1 + x2) + x1 + n2;
        double root = FastMath.sqrt(square(phi * (n1 + x2) - (x1 + n2)) + 4 * phi * (n1 - x1) * (n2 - x2));
        double p = 2 * phi * (x1 + x2) / (b0 + root);
        double rest = 2 * total - b0;
        double q = rest < 0 ? 2 * (1 - phi) * (n1 - x1) / (rest - root) : (rest + root) / (2 * total);
        if (p <= 0 || q <= 0) {
            return 0; // fitted at an end only where observed there
        }
        double distance = p < 0.5 ? x1 - n1 * p : n1 * q - (n1 - x1);
        return square(distance) / (n1 * p * q);
    }

    private static double square(double value) {
        return value * value;
    }
}
