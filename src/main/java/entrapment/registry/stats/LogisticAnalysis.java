package entrapment.registry.stats;

import entrapment.registry.stats.LogisticLikelihood.Point;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.commons.math3.special.Erf;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * By how much does each of several factors raise the odds of the event, the others held equal? Maximum likelihood, for ten
 * events per parameter and more; below that {@link LogisticFirthAnalysis}. An association in recorded cases, not proof of
 * cause.
 *
 * @param separation whether finite estimates exist; if not there are none here
 * @param directions where each coefficient would go, by column
 * @param events of all patterns together
 * @param of trials of all patterns together
 * @param eventsPerParameter min(events, non-events) per column but the intercept
 * @param logLikelihood at the maximum, without binomial coefficients
 * @param nullLogLikelihood of one proportion for all
 * @param lrChi2 twice their difference
 * @param lrDf columns but the intercept
 * @param lrPValue the test of all terms together
 * @param residualDeviance against the observed proportions of the rows as given: it changes if a pattern is split
 * @param residualDf rows with trials less parameters
 * @param coefficients by column, in the order of the design; empty without a fit
 * @param terms the test of each whole term; empty without a fit
 * @param notes why figures are missing or to be read with care
 */
public record LogisticAnalysis(
        @Nullable Separation separation,
        Map<String, Direction> directions,
        long events,
        long of,
        @Nullable Double eventsPerParameter,
        @Nullable Double logLikelihood,
        double nullLogLikelihood,
        @Nullable Double lrChi2,
        int lrDf,
        @Nullable Double lrPValue,
        @Nullable Double residualDeviance,
        int residualDf,
        Map<String, Coefficient> coefficients,
        List<TermTest> terms,
        List<Note> notes) {

    /**
     * A column's estimate.
     *
     * @param estimate log odds ratio; for the intercept log odds
     * @param standardError from the information at the maximum
     * @param oddsRatio its exponential; {@code null} if too large or too small to be written
     * @param lower Wald limit of the odds ratio; {@code null} likewise
     * @param upper Wald limit of the odds ratio; {@code null} likewise
     * @param waldPValue 2Φ(−|estimate/standardError|)
     */
    public record Coefficient(
            double estimate,
            double standardError,
            @Nullable Double oddsRatio,
            @Nullable Double lower,
            @Nullable Double upper,
            double waldPValue) {

        private static Coefficient of(double estimate, double standardError, double z) {
            return new Coefficient(
                    estimate,
                    standardError,
                    OddsRatios.of(estimate),
                    OddsRatios.of(estimate - z * standardError),
                    OddsRatios.of(estimate + z * standardError),
                    Math.max(Double.MIN_NORMAL, Erf.erfc(Math.abs(estimate / standardError) / FastMath.sqrt(2))));
        }

        private boolean outOfRange() {
            return oddsRatio == null || lower == null || upper == null;
        }
    }

    /**
     * The likelihood-ratio test of one term.
     *
     * @param name of the term
     * @param df its columns
     * @param lrChi2 what the likelihood loses without it; {@code null} if it has no column or the smaller fit did not
     *     converge
     * @param pValue its upper tail
     */
    public record TermTest(
            String name,
            int df,
            @Nullable Double lrChi2,
            @Nullable Double pValue) {}

    /**
     * Fits log(μ/(1−μ)) = Xβ by Newton's method.
     *
     * <p>Valid for independent trials, given the terms. Estimates maximise ℓ = Σ[y·log μ+(n−y)·log(1−μ)]; standard errors
     * from (XᵀWX)⁻¹, W = diag(nμ(1−μ)); odds ratios with e^(β±z·se); each term by the likelihood lost without all its
     * columns [1].
     *
     * <p>Edges: separation, or fewer than two events per parameter with several terms, gives no estimates, notes
     * {@code SEPARATION}, {@code TOO_FEW_EVENTS}; so does a fit that does not converge, note {@code NOT_CONVERGED}. Without
     * terms the one coefficient is the log odds of the whole.
     *
     * <p><b>Same as</b> R {@code glm(cbind(y, n - y) ~ ., binomial)} with {@code drop1(test = "Chisq")}. <b>Not the same
     * as</b> {@code logLik} of it, which adds binomial coefficients. Accuracy: relative 1e-8.
     *
     * <p>[1] McCullagh P, Nelder JA, Generalized Linear Models, 2nd ed., Chapman and Hall 1989, ch. 4.
     */
    public static LogisticAnalysis of(DesignMatrix design, Confidence confidence) {
        LogisticSeparationAnalysis separation = LogisticSeparationAnalysis.of(design);
        EventsPerParameter perParameter = EventsPerParameter.of(design);
        LogisticLikelihood likelihood = LogisticLikelihood.plain(design);
        List<Note> notes = new ArrayList<>(separation.notes());
        notes.addAll(perParameter.notes());
        Point fit = null;
        if (separation.separation() == Separation.NONE && !perParameter.refused()) {
            fit = maximum(design, likelihood, Subspace.all(design.parameters())).orElse(null);
            if (fit == null) {
                notes.add(new Note(NoteCode.NOT_CONVERGED, "The fit did not converge, so there are no estimates."));
            }
        }
        double nullLogLikelihood = nullLogLikelihood(design);
        Double chi2 = fit == null ? null : Double.valueOf(Math.max(0, 2 * (fit.value - nullLogLikelihood)));
        int df = design.parameters() - 1;
        Map<String, Coefficient> coefficients =
                fit == null ? Map.of() : coefficients(design, likelihood, fit, confidence.z());
        if (coefficients.values().stream().anyMatch(Coefficient::outOfRange)) {
            notes.add(OddsRatios.NOTE);
        }
        return new LogisticAnalysis(
                separation.separation(),
                separation.coefficients(),
                design.events(),
                design.of(),
                perParameter.value(),
                fit == null ? null : fit.value,
                nullLogLikelihood,
                chi2,
                df,
                chi2 == null || df == 0 ? null : ChiSquaredTest.upperTail(chi2, df),
                fit == null ? null : likelihood.deviance(fit.eta),
                design.patterns().size() - design.parameters(),
                coefficients,
                fit == null ? List.of() : tests(design, likelihood, fit),
                List.copyOf(notes));
    }

    static Optional<Point> maximum(DesignMatrix design, LogisticLikelihood likelihood, Subspace subspace) {
        return new LogisticMaximum(likelihood, subspace)
                .from(subspace.nearest(design.start()), LogisticMaximum.MOST_PLAIN_STEPS);
    }

    private static Map<String, Coefficient> coefficients(
            DesignMatrix design, LogisticLikelihood likelihood, Point point, double z) {
        double[] beta = design.coefficients(point.theta);
        ThinQr information = likelihood.information(point.eta);
        Map<String, Coefficient> coefficients = new LinkedHashMap<>();
        for (int j = 0; j < beta.length; j++) {
            double standardError = ThinQr.norm(information.solveTransposed(design.contrast(j)));
            coefficients.put(design.columnNames().get(j), Coefficient.of(beta[j], standardError, z));
        }
        return Collections.unmodifiableMap(coefficients);
    }

    private static List<TermTest> tests(DesignMatrix design, LogisticLikelihood likelihood, Point full) {
        return design.terms().stream()
                .map(term -> test(design, likelihood, full, term))
                .toList();
    }

    private static TermTest test(DesignMatrix design, LogisticLikelihood likelihood, Point full, Term term) {
        List<Integer> dropped = design.columnsOf(term);
        Subspace rest = design.keeping(IntStream.range(0, design.parameters())
                .boxed()
                .filter(j -> !dropped.contains(j))
                .toList());
        Point smaller =
                dropped.isEmpty() ? null : maximum(design, likelihood, rest).orElse(null);
        Double chi2 = smaller == null ? null : Double.valueOf(Math.max(0, 2 * (full.value - smaller.value)));
        return new TermTest(
                term.name(),
                dropped.size(),
                chi2,
                chi2 == null ? null : ChiSquaredTest.upperTail(chi2, dropped.size()));
    }

    /** x·log p+(n−x)·log(1−p) at p = x/n. */
    private static double nullLogLikelihood(DesignMatrix design) {
        double x = design.events();
        double n = design.of();
        return (x == 0 ? 0 : x * FastMath.log(x / n)) + (x == n ? 0 : (n - x) * FastMath.log1p(-x / n));
    }
}
