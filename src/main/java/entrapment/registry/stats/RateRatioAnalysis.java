package entrapment.registry.stats;

import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * How many times as high is one rate as another?
 *
 * @param ratio (x₁/t₁)/(x₂/t₂); infinite if only the second count is 0, {@code null} if both are or an exposure is 0
 * @param exact exact central interval, never short of its level; its p-value is {@code centralPValue}
 * @param midP the default interval; its p-value is {@code midPValue}
 * @param minlikePValue the probability of all splits of the events no more probable than this one at equal rates; it may
 *     disagree with either interval
 * @param centralPValue twice the smaller tail
 * @param midPValue the default p-value
 * @param waldLog approximate interval for checking by hand; {@code null} limits if a count is 0
 * @param notes why a figure is missing, infinite or to be read with care
 */
public record RateRatioAnalysis(
        @Nullable Double ratio,
        Interval exact,
        Interval midP,
        double minlikePValue,
        double centralPValue,
        double midPValue,
        Interval waldLog,
        List<Note> notes) {

    /**
     * The ratio of two independent Poisson rates, given the events of both together.
     *
     * <p>Given N = x₁+x₂, x₁ is binomial with odds θt₁/t₂ [1]. Exact limits: P(X≥x₁;θ_L) = P(X≤x₁;θ_U) = α/2. Mid-P: the
     * same with half the weight of P(X=x₁) [2]. At θ = 1, the first p-value sums P(s) ≤ P(x₁)(1+1e-7), the other two are
     * twice the smaller tail, at most 1. Wald: log θ ± z√(1/x₁+1/x₂).
     *
     * <p>Edges: x₁ = 0: ratio and lower limits exactly 0. x₂ = 0: ratio and upper limits infinite. Both 0, or an exposure
     * of 0: ratio {@code null}, intervals (0, ∞), every p = 1. A p-value below 2.2e-308 is given as 2.2e-308.
     *
     * <p><b>Same as</b> R {@code poisson.test(c(x1, x2), c(t1, t2))} for {@code exact} and {@code minlikePValue},
     * {@code rateratio.test} for {@code centralPValue}, {@code exactci::poisson.exact(midp = TRUE)} for mid-P. <b>Not the
     * same as</b> {@code epitools::rateratio(method = "midp")} in its estimate, a median. Accuracy: relative 1e-11 in the
     * limits, 1e-12 in p-values, up to 2,000,000 events.
     *
     * <p>[1] Przyborowski J, Wilenski H, Biometrika 1940;31:313. [2] Lancaster HO, J Am Stat Assoc 1961;56:223.
     *
     * @throws IllegalArgumentException if there are 2,000,000 events or more in all, where an exact analysis has no
     *     purpose
     */
    public static RateRatioAnalysis of(Rate a, Rate b, Confidence confidence) {
        long events = a.events() + b.events();
        if (events == 0 || a.exposure() == 0 || b.exposure() == 0) {
            return new RateRatioAnalysis(
                    null, Interval.ANY_RATIO, Interval.ANY_RATIO, 1, 1, 1, Interval.NOT_ESTIMABLE, notes(a, b));
        }
        double logOdds = FastMath.log(a.exposure()) - FastMath.log(b.exposure());
        double start = FastMath.log((a.events() + 0.5) / (b.events() + 0.5)) - logOdds;
        ExactOddsRatio exact =
                ExactOddsRatio.of(ConditionalDistribution.ofShare(events, logOdds), a.events(), start, confidence);
        double ratio =
                b.events() == 0 ? Double.POSITIVE_INFINITY : a.events() / a.exposure() / (b.events() / b.exposure());
        return new RateRatioAnalysis(
                ratio,
                exact.exact(),
                exact.midP(),
                exact.minlikePValue(),
                exact.centralPValue(),
                exact.midPValue(),
                waldLog(a, b, ratio, confidence.z()),
                notes(a, b));
    }

    private static Interval waldLog(Rate a, Rate b, double ratio, double z) {
        if (a.events() == 0 || b.events() == 0) {
            return Interval.NOT_ESTIMABLE;
        }
        double factor = FastMath.exp(z * FastMath.sqrt(1.0 / a.events() + 1.0 / b.events()));
        return new Interval(ratio / factor, ratio * factor);
    }

    private static List<Note> notes(Rate a, Rate b) {
        return a.exposure() == 0 || b.exposure() == 0
                ? List.of(new Note(
                        NoteCode.NO_EXPOSURE, "A group has no exposure: any ratio is compatible with these counts."))
                : RelativeRiskAnalysis.notesOnZeros(a.events(), b.events());
    }
}
