package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.special.Erf;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * What is the best estimate of each centre's proportion, allowing for chance? The default for showing one centre's rate next
 * to others.
 *
 * @param boundary whether there is no evidence that centres differ beyond chance: each then gets the pooled proportion;
 *     {@code null} if nothing can be estimated
 * @param mu mean of the centres' proportions
 * @param rho correlation of uses in one centre; 0 at the boundary
 * @param alpha first parameter of the beta distribution between centres; infinite at the boundary
 * @param beta its second parameter
 * @param lrOverdispersion likelihood-ratio statistic against ρ = 0
 * @param lrHalfPValue its p, ½P(χ²₁ &gt; LR), and 1 at the boundary
 * @param taroneZ Tarone's score statistic
 * @param taroneUpperPValue its one-sided p
 * @param centres one for each centre, in the order given
 * @param notes why a figure is missing or to be read with care
 */
public record ShrinkageAnalysis(
        @Nullable Boolean boundary,
        @Nullable Double mu,
        @Nullable Double rho,
        @Nullable Double alpha,
        @Nullable Double beta,
        @Nullable Double lrOverdispersion,
        @Nullable Double lrHalfPValue,
        @Nullable Double taroneZ,
        @Nullable Double taroneUpperPValue,
        List<Centre> centres,
        List<Note> notes) {

    private static final int FEWEST_CENTRES = 5;
    private static final long FEWEST_EVENTS = 10;

    /**
     * A centre's estimate.
     *
     * @param name as given
     * @param crude x/n; {@code null} for n = 0
     * @param shrunken (x+α)/(n+α+β)
     * @param lower plug-in limit, a little too narrow; {@code null} at the boundary
     * @param upper as lower
     * @param weightOnOwnData n/(n+α+β)
     */
    public record Centre(
            String name,
            @Nullable Double crude,
            @Nullable Double shrunken,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double weightOnOwnData) {}

    /**
     * Empirical Bayes estimates under a beta-binomial model.
     *
     * <p>Valid for centres that may be taken as a sample of like ones. μ and ρ by maximum likelihood [1];
     * α = μ(1−ρ)/ρ, β = (1−μ)(1−ρ)/ρ; limits from the quantiles of Beta(x+α, n−x+β). Tarone:
     * z = (S−Σn)/√(2Σn(n−1)), S = Σ(x−np̂)²/(p̂q̂) [2].
     *
     * <p>Edges: maximum at ρ = 0: {@code boundary}, every centre gets the pooled proportion with weight 0 and no interval. A
     * centre without uses gets the mean between centres. No event, nothing but events, or fewer than two centres with uses:
     * figures {@code null}. Centres with either nothing or everything: {@code null}, note {@code NOT_CONVERGED}.
     *
     * <p><b>Same as</b> R {@code VGAM::vglm(cbind(x, n - x) ~ 1, betabinomial)} (μ, ρ). Accuracy: relative 1e-8 in μ and ρ,
     * n up to 10⁷.
     *
     * <p>[1] Griffiths DA, Biometrics 1973;29:637. [2] Tarone RE, Biometrika 1979;66:585.
     */
    public static ShrinkageAnalysis of(List<Group> centres, Confidence confidence) {
        List<Proportion> used =
                centres.stream().map(Group::proportion).filter(p -> p.of() > 0).toList();
        long events = used.stream().mapToLong(Proportion::events).sum();
        long of = used.stream().mapToLong(Proportion::of).sum();
        if (used.size() < 2 || events == 0 || events == of) {
            return notEstimable(centres, CentreFit.notEstimable(used.size(), events, of));
        }
        CentreFit fit = BetaBinomialFit.of(used);
        if (fit instanceof CentreFit.NotConverged failure) {
            return notEstimable(centres, new Note(NoteCode.NOT_CONVERGED, failure.why()));
        }
        return estimable(centres, used, (CentreFit.Converged) fit, confidence);
    }

    private static ShrinkageAnalysis estimable(
            List<Group> centres, List<Proportion> used, CentreFit.Converged fit, Confidence confidence) {
        double odds = (1 - fit.spread()) / fit.spread(); // infinite at the boundary
        double alpha = fit.location() * odds;
        double beta = (1 - fit.location()) * odds;
        double tarone = tarone(used);
        return new ShrinkageAnalysis(
                fit.boundary(),
                fit.location(),
                fit.spread(),
                alpha,
                beta,
                fit.lr(),
                fit.halfPValue(),
                tarone,
                Math.max(Double.MIN_NORMAL, Erf.erfc(tarone / FastMath.sqrt(2)) / 2),
                centres.stream()
                        .map(centre -> fit.boundary()
                                ? pooled(centre, fit.location())
                                : shrunken(centre, alpha, beta, confidence.logTail()))
                        .toList(),
                notes(fit, used));
    }

    private static Centre shrunken(Group centre, double alpha, double beta, double logTail) {
        double x = centre.proportion().events();
        double n = centre.proportion().of();
        return new Centre(
                centre.name(),
                centre.proportion().estimate(),
                (x + alpha) / (n + alpha + beta),
                BetaQuantile.lower(logTail, x + alpha, n - x + beta),
                BetaQuantile.upper(logTail, x + alpha, n - x + beta),
                n / (n + alpha + beta));
    }

    private static Centre pooled(Group centre, double mu) {
        return new Centre(centre.name(), centre.proportion().estimate(), mu, null, null, 0.0);
    }

    private static double tarone(List<Proportion> used) {
        double of = used.stream().mapToDouble(Proportion::of).sum();
        double p = used.stream().mapToDouble(Proportion::events).sum() / of;
        double s = 0;
        double pairs = 0;
        for (Proportion centre : used) {
            double n = centre.of();
            double distance = centre.events() - n * p;
            s += distance * distance / (p * (1 - p));
            pairs += n * (n - 1);
        }
        // One use in every centre says nothing about correlation within centres.
        return pairs == 0 ? 0 : (s - of) / FastMath.sqrt(2 * pairs);
    }

    private static ShrinkageAnalysis notEstimable(List<Group> centres, Note why) {
        return new ShrinkageAnalysis(
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                centres.stream()
                        .map(centre ->
                                new Centre(centre.name(), centre.proportion().estimate(), null, null, null, null))
                        .toList(),
                List.of(why));
    }

    private static List<Note> notes(CentreFit.Converged fit, List<Proportion> used) {
        List<Note> notes = new ArrayList<>(CentreFit.few(used, FEWEST_CENTRES, FEWEST_EVENTS));
        notes.add(
                fit.boundary()
                        ? new Note(NoteCode.BOUNDARY, "There is no evidence that centres differ beyond chance.")
                        : new Note(
                                NoteCode.APPROXIMATE,
                                "The intervals take the spread between centres as known and are a little too narrow."));
        return List.copyOf(notes);
    }
}
