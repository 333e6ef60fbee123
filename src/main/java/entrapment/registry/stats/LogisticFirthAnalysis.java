package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * By how much does each of several factors raise the odds of the event, the others held equal? Penalised likelihood, the
 * default for rare events: finite under separation and less biased everywhere. For odds ratios; its predicted
 * probabilities are drawn towards one half. An association in recorded cases, not proof of cause.
 *
 * @param separationOfMl whether plain maximum likelihood would have had finite estimates
 * @param events of all patterns together
 * @param of trials of all patterns together
 * @param eventsPerParameter min(events, non-events) per column but the intercept
 * @param penalisedLogLikelihood ℓ* at its maximum, without binomial coefficients
 * @param coefficients by column, in the order of the design; empty without a fit
 * @param overallPlr the test of all terms together
 * @param notes why figures are missing or to be read with care
 */
public record LogisticFirthAnalysis(
        @Nullable Separation separationOfMl,
        long events,
        long of,
        @Nullable Double eventsPerParameter,
        @Nullable Double penalisedLogLikelihood,
        Map<String, Coefficient> coefficients,
        Overall overallPlr,
        List<Note> notes) {

    /**
     * A column's estimate. There is no Wald interval: under separation it misleads.
     *
     * @param estimate log odds ratio; for the intercept log odds
     * @param standardError from Fisher's information at the maximum; for comparison with other programs only
     * @param oddsRatio its exponential; {@code null} if too large or too small to be written
     * @param profile limits by the profile of the penalised likelihood; a limit is {@code null} if it was not found
     * @param profileOddsRatio the same as odds ratios
     * @param plrChi2 what the penalised likelihood loses with this coefficient at 0; {@code null} if that did not converge
     * @param plrPValue its upper tail
     */
    public record Coefficient(
            double estimate,
            double standardError,
            @Nullable Double oddsRatio,
            Interval profile,
            Interval profileOddsRatio,
            @Nullable Double plrChi2,
            @Nullable Double plrPValue) {

        private boolean complete() {
            return plrChi2 != null && profile.lower() != null && profile.upper() != null;
        }

        private boolean outOfRange() {
            return OddsRatios.outOfRange(estimate)
                    || OddsRatios.outOfRange(profile.lower())
                    || OddsRatios.outOfRange(profile.upper());
        }
    }

    /**
     * The penalised likelihood-ratio test of all terms together.
     *
     * @param chi2 {@code null} without terms, or if a fit did not converge
     * @param df columns but the intercept
     * @param pValue its upper tail
     */
    public record Overall(
            @Nullable Double chi2, int df, @Nullable Double pValue) {}

    /**
     * Fits log(μ/(1−μ)) = Xβ by Firth's penalised likelihood.
     *
     * <p>Valid for independent trials, given the terms. Estimates maximise ℓ* = ℓ+½log|XᵀWX| [1]. A limit of βⱼ is where
     * 2(ℓ*(β̂)−max ℓ*(βⱼ fixed)) reaches χ²₁; the test of βⱼ is the same difference at 0, that of all terms the
     * difference with every slope at 0. In all of them the penalty keeps the full matrix [2].
     *
     * <p>Edges: always finite if no column is aliased [3]. Fewer than two events per parameter with several terms: refused,
     * note {@code TOO_FEW_EVENTS}. A fit or a limit that did not converge is {@code null}, note {@code NOT_CONVERGED}. One
     * factor of two levels gives the odds ratio with ½ added to each cell.
     *
     * <p><b>Same as</b> R {@code logistf::logistf} with its profile limits; estimates as
     * {@code brglm2::brglm_fit(type = "AS_mean")}. <b>Not the same as</b> {@code logistf} in the standard error, which newer
     * versions take from the augmented data. Accuracy: relative 1e-8 in estimates, 1e-6 in limits.
     *
     * <p>[1] Firth D, Biometrika 1993;80:27. [2] Heinze G, Schemper M, Stat Med 2002;21:2409, doi:10.1002/sim.1047. [3]
     * Kosmidis I, Firth D, Biometrika 2021;108:71, doi:10.1093/biomet/asaa052.
     */
    public static LogisticFirthAnalysis of(DesignMatrix design, Confidence confidence) {
        LogisticSeparationAnalysis separation = LogisticSeparationAnalysis.of(design);
        EventsPerParameter perParameter = EventsPerParameter.of(design);
        List<Note> notes = new ArrayList<>(separation.notes());
        notes.addAll(perParameter.notes());
        Overall overall = new Overall(null, design.parameters() - 1, null);
        Double penalised = null;
        Map<String, Coefficient> coefficients = Map.of();
        if (!perParameter.refused()) {
            FirthFit fit = FirthFit.of(design).orElse(null);
            if (fit != null) {
                penalised = fit.penalisedLogLikelihood();
                overall = overall(design, fit);
                coefficients = coefficients(design, fit, confidence);
                notes.addAll(notes(coefficients));
            } else {
                notes.add(new Note(NoteCode.NOT_CONVERGED, "The fit did not converge, so there are no estimates."));
            }
        }
        return new LogisticFirthAnalysis(
                separation.separation(),
                design.events(),
                design.of(),
                perParameter.value(),
                penalised,
                coefficients,
                overall,
                List.copyOf(notes));
    }

    private static Overall overall(DesignMatrix design, FirthFit fit) {
        int df = design.parameters() - 1;
        Double chi2 = df == 0 ? null : fit.lost(design.keeping(List.of(0)));
        return new Overall(chi2, df, chi2 == null ? null : Double.valueOf(ChiSquaredTest.upperTail(chi2, df)));
    }

    private static Map<String, Coefficient> coefficients(DesignMatrix design, FirthFit fit, Confidence confidence) {
        Map<String, Coefficient> coefficients = new LinkedHashMap<>();
        for (int j = 0; j < design.parameters(); j++) {
            Interval profile = fit.profile(j, confidence.z());
            Double chi2 = fit.lost(design.fixing(j, 0));
            coefficients.put(
                    design.columnNames().get(j),
                    new Coefficient(
                            fit.estimate(j),
                            fit.standardError(j),
                            OddsRatios.of(fit.estimate(j)),
                            profile,
                            OddsRatios.of(profile),
                            chi2,
                            chi2 == null ? null : Double.valueOf(ChiSquaredTest.upperTail(chi2, 1))));
        }
        return Collections.unmodifiableMap(coefficients);
    }

    private static List<Note> notes(Map<String, Coefficient> coefficients) {
        List<Note> notes = new ArrayList<>();
        if (!coefficients.values().stream().allMatch(Coefficient::complete)) {
            notes.add(new Note(
                    NoteCode.NOT_CONVERGED,
                    "A limit or a test did not converge and is missing; the estimates themselves stand."));
        }
        if (coefficients.values().stream().anyMatch(Coefficient::outOfRange)) {
            notes.add(OddsRatios.NOTE);
        }
        return notes;
    }
}
