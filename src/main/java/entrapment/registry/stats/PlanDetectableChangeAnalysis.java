package entrapment.registry.stats;

import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * What change against a known rate would so many uses show? Smaller ones stay unseen.
 *
 * @param expectedEvents np₀
 * @param criticalCount smallest count that speaks for a rise; {@code null} if not even n events would
 * @param attainedAlpha its probability at p₀
 * @param detectableProportion proportion at which that count is reached with the wanted power
 * @param detectableRatio that proportion over p₀
 * @param decreaseCriticalCount largest count that speaks for a fall; {@code null} if not even 0 does
 * @param decreaseDetectableProportion proportion at which it is not exceeded with the wanted power
 * @param notes why a figure is missing
 */
public record PlanDetectableChangeAnalysis(
        double expectedEvents,
        @Nullable Long criticalCount,
        @Nullable Double attainedAlpha,
        @Nullable Double detectableProportion,
        @Nullable Double detectableRatio,
        @Nullable Long decreaseCriticalCount,
        @Nullable Double decreaseDetectableProportion,
        List<Note> notes) {

    /**
     * Exact detectable change.
     *
     * <p>Valid for independent uses and a rate p₀ that is known rather than estimated. c is the smallest count with
     * P(X≥c|p₀) ≤ α, p₁ has P(X≥c|p₁) = power; d is the largest count with P(X≤d|p₀) ≤ α and its proportion has
     * P(X≤d|p) = power. Never to be asked about a result already seen.
     *
     * <p>Edges: no count speaks for a rise (tiny n) or for a fall (few expected events): {@code null}s, with a note.
     *
     * <p><b>Same as</b> R {@code qbinom(alpha, n, p0, lower.tail = FALSE) + 1} and {@code qbeta(power, c, n - c + 1)}.
     * Counts are exact; proportions relative 1e-11.
     *
     * <p>Exact binomial test: Clopper CJ, Pearson ES, Biometrika 1934;26:404.
     *
     * @param volume n in [1, 2³¹−1]
     * @param p0 in (0, 1)
     * @param alphaOneSided in [1e-6, 0.5], 0.025 by custom
     * @param power in [0.5, 0.9999]
     * @throws IllegalArgumentException if a value is out of its range or not a number
     */
    public static PlanDetectableChangeAnalysis of(long volume, double p0, double alphaOneSided, double power) {
        Counts.require("volume", volume, 1, Counts.LARGEST);
        Counts.requireInside("p0", p0);
        Plan.requireAlpha(alphaOneSided);
        Plan.requirePower(power);
        CountDistribution distribution = new BinomialDistribution(volume, p0);
        // P(X ≥ c) ≤ α is P(X > c−1) ≤ α, and the largest d with P(X ≤ d) ≤ α comes before the first that exceeds it.
        long rise = distribution.upperCount(alphaOneSided) + 1;
        long fall = IntegerSearch.first(d -> !distribution.reachesBelow(d, alphaOneSided), 0, volume) - 1;
        Double detectable =
                rise > volume ? null : BetaQuantile.lower(FastMath.log(power), (double) rise, volume - rise + 1.0);
        return new PlanDetectableChangeAnalysis(
                distribution.mean(),
                rise > volume ? null : rise,
                rise > volume ? null : FastMath.exp(distribution.logUpperTail(rise)),
                detectable,
                detectable == null ? null : detectable / p0,
                fall < 0 ? null : fall,
                fall < 0 ? null : BetaQuantile.upper(FastMath.log(power), fall + 1.0, (double) (volume - fall)),
                notes(rise > volume, fall < 0));
    }

    private static List<Note> notes(boolean noRise, boolean noFall) {
        if (noRise) {
            return List.of(
                    new Note(NoteCode.TOO_FEW_EVENTS, "So few uses that not even an event in each would show a rise."));
        }
        return noFall
                ? List.of(new Note(
                        NoteCode.TOO_FEW_EVENTS,
                        "So few events are expected that not even none at all would show an improvement."))
                : List.of();
    }
}
