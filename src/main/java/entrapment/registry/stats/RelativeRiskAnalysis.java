package entrapment.registry.stats;

import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * How many times as high is one proportion as another? To be read beside the difference: a ratio of two tiny risks
 * frightens more than it informs.
 *
 * @param relativeRisk p₁/p₂; infinite if only the second group has no event, {@code null} if neither has one or a group
 *     is empty
 * @param katz the logarithmic normal interval; {@code null} limits where a count is 0 or its standard error is 0
 * @param koopman the default, score interval
 * @param notes why a figure is missing, infinite or to be read with care
 */
public record RelativeRiskAnalysis(@Nullable Double relativeRisk, Interval katz, Interval koopman, List<Note> notes) {

    /**
     * The ratio of two independent proportions.
     *
     * <p>Katz: log RR ± z√(1/x₁−1/n₁+1/x₂−1/n₂) [1]. Koopman: all φ with χ²(φ) ≤ z², where χ² is Pearson's statistic at
     * the maximum-likelihood fit under p₁ = φp₂ [2, 3].
     *
     * <p>Edges: x₁ = 0: ratio 0, lower limit exactly 0. x₂ = 0: ratio and upper limit infinite. Both 0, or a group empty:
     * ratio {@code null}, score interval (0, ∞). Both full: ratio 1 with finite score limits.
     *
     * <p><b>Same as</b> R {@code DescTools::RelRisk(x, method = "score")} to its own accuracy, {@code ratesci::scoreci}
     * without skewness and variance corrections. Accuracy: relative 1e-11.
     *
     * <p>[1] Katz D et al., Biometrics 1978;34:469. [2] Koopman PAR, Biometrics 1984;40:513. [3] Gart JJ, Nam J,
     * Biometrics 1988;44:323.
     */
    public static RelativeRiskAnalysis of(Proportion a, Proportion b, Confidence confidence) {
        boolean empty = a.of() == 0 || b.of() == 0;
        boolean noEvent = a.events() == 0 && b.events() == 0;
        if (empty || noEvent) {
            return new RelativeRiskAnalysis(null, Interval.NOT_ESTIMABLE, Interval.ANY_RATIO, notes(a, b));
        }
        double ratio = b.events() == 0
                ? Double.POSITIVE_INFINITY
                : (double) a.events() / a.of() / ((double) b.events() / b.of());
        return new RelativeRiskAnalysis(
                ratio, katz(a, b, ratio, confidence.z()), koopman(a, b, confidence.z()), notes(a, b));
    }

    private static Interval katz(Proportion a, Proportion b, double ratio, double z) {
        double variance = relativeVariance(a) + relativeVariance(b);
        if (a.events() == 0 || b.events() == 0 || variance == 0) {
            return Interval.NOT_ESTIMABLE;
        }
        double factor = FastMath.exp(z * FastMath.sqrt(variance));
        return new Interval(ratio / factor, ratio * factor);
    }

    /** 1/x−1/n without cancellation. */
    private static double relativeVariance(Proportion group) {
        return (double) (group.of() - group.events()) / group.events() / group.of();
    }

    private static List<Note> notes(Proportion a, Proportion b) {
        if (a.of() == 0 || b.of() == 0) {
            return List.of(
                    new Note(NoteCode.NO_EXPOSURE, "A group is empty: any ratio is compatible with these counts."));
        }
        if (a.events() == a.of() && b.events() == b.of()) {
            return List.of(
                    new Note(
                            NoteCode.BOUNDARY,
                            "Everybody in both groups had the event: the logarithmic interval is not defined, use the score one."));
        }
        return notesOnZeros(a.events(), b.events());
    }

    /** What is to be said of the ratio of two groups without an event in one of them, or in both. */
    static List<Note> notesOnZeros(long first, long second) {
        if (first > 0 && second > 0) {
            return List.of();
        }
        return List.of(
                second > 0
                        ? new Note(
                                NoteCode.ZERO_CELL,
                                "No event in the first group: the ratio is 0, and only its upper limit says anything.")
                        : first > 0
                                ? new Note(
                                        NoteCode.ZERO_CELL,
                                        "No event in the second group: the ratio is infinite, and only its lower limit says anything.")
                                : new Note(
                                        NoteCode.NO_EVENT,
                                        "No event in either group: any ratio is compatible with these counts."));
    }

    /**
     * The ratios φ = p₁/p₂ that Koopman's score statistic does not reject: all with χ²(φ) ≤ z². Both groups must hold somebody, and
     * one of them an event.
     */
    private static Interval koopman(Proportion a, Proportion b, double z) {
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
    private static double chiSquared(Proportion a, Proportion b, double u) {
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
