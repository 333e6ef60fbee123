package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is the mean of several centres' effects, and how much do they differ? Second line for proportions, where
 * {@link PooledProportionAnalysis} needs no added halves; first line for effects that come with a variance.
 *
 * @param k centres that count
 * @param q Cochran's statistic; {@code null} for fewer than two centres
 * @param qDf k−1
 * @param qPValue its upper tail
 * @param i2FromQ max(0, (Q−(k−1))/Q), per cent
 * @param i2Reml τ²/(τ²+typical v), per cent
 * @param dl with DerSimonian and Laird's variance
 * @param reml with the restricted maximum-likelihood variance: the default
 * @param remlAsProportion {@code reml} back on the scale of proportions; {@code null} for effects that are not logits
 * @param notes why a figure is missing or to be read with care
 */
public record PooledEffectsAnalysis(
        int k,
        @Nullable Double q,
        int qDf,
        @Nullable Double qPValue,
        @Nullable Double i2FromQ,
        @Nullable Double i2Reml,
        PooledEffect dl,
        PooledEffect reml,
        @Nullable AsProportion remlAsProportion,
        List<Note> notes) {

    private static final int FEWEST_CENTRES = 5;
    private static final double RARE = 0.02;

    /**
     * Logits as proportions.
     *
     * @param estimate expit(μ), the median centre
     * @param hartungKnapp its interval
     * @param predictionInterval of a further centre
     */
    public record AsProportion(@Nullable Double estimate, Interval hartungKnapp, Interval predictionInterval) {

        private static AsProportion of(PooledEffect effect) {
            return new AsProportion(
                    proportion(effect.estimate()),
                    proportion(effect.hartungKnapp()),
                    proportion(effect.predictionInterval()));
        }

        private static Interval proportion(Interval logits) {
            return new Interval(proportion(logits.lower()), proportion(logits.upper()));
        }

        private static @Nullable Double proportion(@Nullable Double logit) {
            return logit == null ? null : Double.valueOf(Logit.proportion(logit));
        }
    }

    /**
     * Random-effects pooling by inverse variance.
     *
     * <p>Valid for nearly normal effects of like centres. Q = Σw(y−ȳ_w)², w = 1/v; τ² after DerSimonian and Laird [1] and by
     * restricted maximum likelihood [2]; Hartung and Knapp's standard error [3]; prediction after [4] with k−1 degrees of
     * freedom. I²: max(0, (Q−(k−1))/Q), and τ²/(τ²+ν) with ν = (k−1)Σw/((Σw)²−Σw²).
     *
     * <p>Edges: fewer than two effects: no pooling, everything {@code null}, note {@code FEW_CENTRES}. Fewer than five: a note not
     * to read τ², I² or the prediction as findings. τ² is exactly 0 where the maximum lies there.
     *
     * <p><b>Same as</b> R {@code metafor::rma(y, v, method = "REML", test = "knha")} and {@code "DL"}. <b>Not the same as</b>
     * prediction with k−2 degrees of freedom. Accuracy: relative 1e-10.
     *
     * <p>[1] DerSimonian R, Laird N, Control Clin Trials 1986;7:177. [2] Viechtbauer W, J Stat Softw 2010;36(3). [3] Hartung J,
     * Knapp G, Stat Med 2001;20:3875; Röver C et al., BMC Med Res Methodol 2015;15:99. [4] Higgins JPT, Thompson SG,
     * Spiegelhalter DJ, J R Stat Soc A 2009;172:137.
     */
    public static PooledEffectsAnalysis of(List<Effect> effects, Confidence confidence) {
        return pool(effects, confidence, false, List.of());
    }

    /**
     * The same for the logits of centres' proportions, ½ added to events and non-events of a centre that lacks one of them.
     * With rare events that pulls the answer towards ½, and a note says so. Centres without uses do not count.
     */
    public static PooledEffectsAnalysis ofCentres(List<Group> centres, Confidence confidence) {
        List<Proportion> used =
                centres.stream().map(Group::proportion).filter(p -> p.of() > 0).toList();
        List<Note> notes = new ArrayList<>();
        if (used.size() < centres.size()) {
            notes.add(new Note(
                    NoteCode.LEFT_OUT,
                    (centres.size() - used.size()) + " of " + centres.size() + " centres left out: no use."));
        }
        double events = used.stream().mapToDouble(Proportion::events).sum();
        double of = used.stream().mapToDouble(Proportion::of).sum();
        boolean corrected = used.stream().anyMatch(Effect::corrected);
        if (corrected || (of > 0 && Math.min(events, of - events) < RARE * of)) {
            notes.add(new Note(
                    NoteCode.APPROXIMATE,
                    corrected
                            ? "A centre has no event or nothing but events: the half added to it pulls the answer towards one"
                                    + " in two; use the binomial-normal model."
                            : "With rates below 2 % normal logits are off; use the binomial-normal model."));
        }
        return pool(used.stream().map(Effect::logit).toList(), confidence, true, notes);
    }

    private static PooledEffectsAnalysis pool(
            List<Effect> effects, Confidence confidence, boolean logits, List<Note> before) {
        List<Note> notes = new ArrayList<>(before);
        int k = effects.size();
        if (k < FEWEST_CENTRES) {
            notes.add(
                    new Note(
                            NoteCode.FEW_CENTRES,
                            k < 2
                                    ? "Fewer than two centres: there is nothing to combine."
                                    : "Fewer than five centres: the variance between them, I² and the prediction are not findings."));
        }
        Double q = k < 2 ? null : Double.valueOf(BetweenVariance.q(effects));
        Double tau2 = k < 2 ? null : Double.valueOf(BetweenVariance.restrictedMaximumLikelihood(effects));
        PooledEffect reml = tau2 == null ? PooledEffect.NOT_ESTIMABLE : PooledEffect.of(effects, tau2, confidence);
        return new PooledEffectsAnalysis(
                k,
                q,
                Math.max(0, k - 1),
                q == null ? null : Double.valueOf(ChiSquaredTest.upperTail(q, k - 1)),
                q == null ? null : Double.valueOf(q == 0 ? 0 : 100 * Math.max(0, (q - (k - 1)) / q)),
                tau2 == null ? null : Double.valueOf(100 * tau2 / (tau2 + typicalVariance(effects))),
                k < 2
                        ? PooledEffect.NOT_ESTIMABLE
                        : PooledEffect.of(effects, BetweenVariance.derSimonianLaird(effects), confidence),
                reml,
                logits ? AsProportion.of(reml) : null,
                List.copyOf(notes));
    }

    /** ν = (k−1)Σw/((Σw)²−Σw²). */
    private static double typicalVariance(List<Effect> effects) {
        double sum = BetweenVariance.weights(effects, 0, 1);
        return (effects.size() - 1) * sum / (sum * sum - BetweenVariance.weights(effects, 0, 2));
    }
}
