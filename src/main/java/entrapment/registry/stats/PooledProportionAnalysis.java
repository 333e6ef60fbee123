package entrapment.registry.stats;

import static entrapment.registry.stats.Logit.proportion;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * What is the proportion in a typical centre, and what is to be expected of a further one? The default for rare events: no
 * added halves, and centres without an event count.
 *
 * @param crude Σx/Σn, the proportion of all uses together; not the same question as the typical centre
 * @param mu logit of the median centre's proportion; {@code null} if nothing can be estimated
 * @param standardError of {@code mu}
 * @param tau2 variance of the logits between centres; 0 at the boundary
 * @param tau its root
 * @param waldAsProportion the median centre with its interval
 * @param predictionAsProportion where the true proportion of a further centre would most likely lie
 * @param medianOddsRatio how many times the odds of one centre are those of another, in the median pair
 * @param lrHeterogeneity likelihood-ratio statistic against τ = 0
 * @param lrHalfPValue its p, ½P(χ²₁ &gt; LR), and 1 at the boundary
 * @param notes why a figure is missing or to be read with care
 */
public record PooledProportionAnalysis(
        @Nullable Double crude,
        @Nullable Double mu,
        @Nullable Double standardError,
        @Nullable Double tau2,
        @Nullable Double tau,
        Estimate waldAsProportion,
        Interval predictionAsProportion,
        @Nullable Double medianOddsRatio,
        @Nullable Double lrHeterogeneity,
        @Nullable Double lrHalfPValue,
        List<Note> notes) {

    private static final int FEWEST_CENTRES = 5;
    private static final long FEWEST_EVENTS = 10;

    /** Φ⁻¹(¾). */
    private static final double UPPER_QUARTILE = 0.6744897501960817;

    /**
     * The binomial-normal model.
     *
     * <p>Valid for centres that may be taken as a sample of like ones. x_i ~ Bin(n_i, expit(μ+τu_i)), u ~ N(0, 1), by maximum
     * likelihood with 100 adaptive nodes [1]. Interval expit(μ±z·se); prediction expit(μ±t_{k−1}√(se²+τ²)) [2]; median odds
     * ratio exp(√2·τ·Φ⁻¹(¾)) [3].
     *
     * <p>Edges: maximum at τ = 0: note {@code BOUNDARY}, μ the logit of Σx/Σn. No event, nothing but events, or fewer than two
     * centres with uses: figures but the crude one {@code null}. Centres that differ without bound: the same, note
     * {@code NOT_CONVERGED}.
     *
     * <p><b>Same as</b> R {@code lme4::glmer(cbind(x, n - x) ~ 1 + (1 | centre), binomial, nAGQ = 100)},
     * {@code metafor::rma.glmm(measure = "PLO")}. <b>Not the same as</b> glmer's default, Laplace. Accuracy: relative 1e-6 for τ up to 4,
     * 1e-4 up to 8, beyond which centres count as differing without bound.
     *
     * <p>[1] Stijnen T, Hamza TH, Özdemir P, Stat Med 2010;29:3046. [2] Higgins JPT, Thompson SG, Spiegelhalter DJ, J R Stat
     * Soc A 2009;172:137. [3] Merlo J et al., J Epidemiol Community Health 2006;60:290.
     */
    public static PooledProportionAnalysis of(List<Group> centres, Confidence confidence) {
        List<Proportion> used =
                centres.stream().map(Group::proportion).filter(p -> p.of() > 0).toList();
        long events = used.stream().mapToLong(Proportion::events).sum();
        long of = used.stream().mapToLong(Proportion::of).sum();
        Double crude = of == 0 ? null : (double) events / of;
        if (used.size() < 2 || events == 0 || events == of) {
            return notEstimable(crude, CentreFit.notEstimable(used.size(), events, of));
        }
        CentreFit fit = BinomialNormalFit.of(used);
        if (fit instanceof CentreFit.NotConverged failure) {
            return notEstimable(crude, new Note(NoteCode.NOT_CONVERGED, failure.why()));
        }
        return estimable(crude, used, (CentreFit.Converged) fit, confidence);
    }

    private static PooledProportionAnalysis estimable(
            @Nullable Double crude, List<Proportion> used, CentreFit.Converged fit, Confidence confidence) {
        double mu = fit.location();
        double se = fit.standardError();
        double tau = fit.spread();
        double distance = confidence.t(used.size() - 1.0) * FastMath.sqrt(se * se + tau * tau);
        List<Note> notes = new ArrayList<>(CentreFit.few(used, FEWEST_CENTRES, FEWEST_EVENTS));
        if (fit.boundary()) {
            notes.add(new Note(NoteCode.BOUNDARY, "There is no evidence that centres differ beyond chance."));
        }
        return new PooledProportionAnalysis(
                crude,
                mu,
                se,
                tau * tau,
                tau,
                new Estimate(
                        proportion(mu), proportion(mu - confidence.z() * se), proportion(mu + confidence.z() * se)),
                new Interval(proportion(mu - distance), proportion(mu + distance)),
                FastMath.exp(FastMath.sqrt(2) * tau * UPPER_QUARTILE),
                fit.lr(),
                fit.halfPValue(),
                List.copyOf(notes));
    }

    private static PooledProportionAnalysis notEstimable(@Nullable Double crude, Note why) {
        return new PooledProportionAnalysis(
                crude,
                null,
                null,
                null,
                null,
                new Estimate(null, null, null),
                Interval.NOT_ESTIMABLE,
                null,
                null,
                null,
                List.of(why));
    }
}
