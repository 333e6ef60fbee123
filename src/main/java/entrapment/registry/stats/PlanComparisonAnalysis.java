package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * How many uses does it take to see a difference between two proportions? The events, not the uses, set the power.
 *
 * @param n1Exact uses of the first group before rounding; {@code null} if beyond 2³¹−1
 * @param n1 rounded up
 * @param n2 uses of the second group, ⌈k·n1⌉
 * @param n1Continuity with continuity correction, the default below 2 %, before rounding
 * @param n1ContinuityRounded rounded up
 * @param n2ContinuityRounded ⌈k·n1ContinuityRounded⌉
 * @param eventsExpected n1·p₁+n2·p₂
 * @param power at the given size; {@code null} if none was given
 * @param notes why a figure is missing
 */
public record PlanComparisonAnalysis(
        @Nullable Double n1Exact,
        @Nullable Long n1,
        @Nullable Long n2,
        @Nullable Double n1Continuity,
        @Nullable Long n1ContinuityRounded,
        @Nullable Long n2ContinuityRounded,
        @Nullable Double eventsExpected,
        @Nullable Double power,
        List<Note> notes) {

    /** Below this proportion the size with continuity correction is the one to use. */
    private static final double RARE = 0.02;

    /**
     * Sizes of two groups, and the power at a given size.
     *
     * <p>Valid for the two-sided comparison of independent proportions that will not be too small for a normal approximation.
     * With k = n₂/n₁, p̄ = (p₁+kp₂)/(1+k): n₁ = [z_{1−α/2}√((1+1/k)p̄q̄)+z_power√(p₁q₁+p₂q₂/k)]²/(p₁−p₂)² [1]; with continuity
     * correction n₁/4·(1+√(1+2(k+1)/(n₁k|p₁−p₂|)))² [2, 3]. Power: the first formula inverted; the far tail is left out.
     *
     * <p>Edges: sizes beyond 2³¹−1: {@code null}, note {@code OUT_OF_REACH}. A proportion below 2 %: a note says which size to
     * use.
     *
     * <p><b>Same as</b> R {@code power.prop.test(p1, p2, sig.level, power)} for k = 1. <b>Not the same as</b> its
     * {@code strict = TRUE}. Accuracy: relative 1e-12.
     *
     * <p>[1] Fleiss JL, Levin B, Paik MC, Statistical Methods for Rates and Proportions, 3rd ed., Wiley 2003. [2] Fleiss JL,
     * Tytun A, Ury HK, Biometrics 1980;36:343. [3] Casagrande JT, Pike MC, Smith PG, Biometrics 1978;34:483.
     *
     * @param n1 uses of the first group for which the power is asked, in [1, 2³¹−1], or {@code null}
     * @throws IllegalArgumentException if n1 is out of its range
     */
    public static PlanComparisonAnalysis of(PlanComparison plan, @Nullable Long n1) {
        if (n1 != null) {
            Counts.require("n1", n1, 1, Counts.LARGEST);
        }
        double exact = size(plan);
        double continuity = continuity(plan, exact);
        Long first = Plan.count(exact);
        Long second = first == null ? null : Plan.count(plan.ratio() * first);
        Long firstContinuity = Plan.count(continuity);
        Long secondContinuity = firstContinuity == null ? null : Plan.count(plan.ratio() * firstContinuity);
        boolean reached = first != null && second != null && firstContinuity != null && secondContinuity != null;
        return new PlanComparisonAnalysis(
                first == null ? null : exact,
                first,
                second,
                firstContinuity == null ? null : continuity,
                firstContinuity,
                secondContinuity,
                first == null || second == null ? null : first * plan.p1() + second * plan.p2(),
                n1 == null ? null : power(plan, n1.doubleValue()),
                notes(plan, reached));
    }

    private static double size(PlanComparison plan) {
        double root = Plan.deviate(plan.alpha() / 2) * nullDeviation(plan)
                + Plan.deviate(1 - plan.power()) * alternativeDeviation(plan);
        return FastMath.pow(root / (plan.p1() - plan.p2()), 2);
    }

    private static double continuity(PlanComparison plan, double n) {
        double k = plan.ratio();
        double root = 1 + FastMath.sqrt(1 + 2 * (k + 1) / (n * k * Math.abs(plan.p1() - plan.p2())));
        return n / 4 * root * root;
    }

    private static double power(PlanComparison plan, double n) {
        double distance = Math.abs(plan.p1() - plan.p2()) * FastMath.sqrt(n);
        return Plan.normal(
                (distance - Plan.deviate(plan.alpha() / 2) * nullDeviation(plan)) / alternativeDeviation(plan));
    }

    /** √((1+1/k)p̄q̄). */
    private static double nullDeviation(PlanComparison plan) {
        double k = plan.ratio();
        double p = (plan.p1() + k * plan.p2()) / (1 + k);
        double q = ((1 - plan.p1()) + k * (1 - plan.p2())) / (1 + k);
        return FastMath.sqrt((1 + 1 / k) * p * q);
    }

    /** √(p₁q₁+p₂q₂/k). */
    private static double alternativeDeviation(PlanComparison plan) {
        return FastMath.sqrt(plan.p1() * (1 - plan.p1()) + plan.p2() * (1 - plan.p2()) / plan.ratio());
    }

    private static List<Note> notes(PlanComparison plan, boolean reached) {
        List<Note> notes = new ArrayList<>();
        if (!reached) {
            notes.add(Plan.OUT_OF_REACH);
        }
        if (Math.min(plan.p1(), plan.p2()) < RARE) {
            notes.add(new Note(
                    NoteCode.APPROXIMATE,
                    "Below 2 % use the size with continuity correction: the other is too small."));
        }
        return List.copyOf(notes);
    }
}
