package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * How much do centres differ beyond chance and beyond what the terms explain? For that question, and for foretelling a new
 * centre; whether a factor matters within centres is a question for {@link StratifiedOddsRatioAnalysis}.
 *
 * @param coefficients by column, in the order of the design, for a centre in the middle; empty without a fit
 * @param sdRandomIntercept σ, the standard deviation of the centres' log odds; 0 at the boundary, {@code null} without a fit
 * @param varianceRandomIntercept σ²
 * @param medianOddsRatio of two centres drawn at random, the higher over the lower: the median
 * @param logLikelihood at the maximum, without binomial coefficients
 * @param lrVsNoRandom twice what the model without σ lacks
 * @param lrHalfPValue its p-value, halved because σ cannot be negative
 * @param notes why figures are missing, at an edge, or to be read with care
 */
public record LogisticRandomInterceptAnalysis(
        Map<String, Coefficient> coefficients,
        @Nullable Double sdRandomIntercept,
        @Nullable Double varianceRandomIntercept,
        @Nullable Double medianOddsRatio,
        @Nullable Double logLikelihood,
        @Nullable Double lrVsNoRandom,
        @Nullable Double lrHalfPValue,
        List<Note> notes) {

    /** A gain in likelihood within its own rounding: one use in each centre says nothing about their spread. */
    private static final double NO_GAIN = 1e-8;

    private static final int FEW_CLUSTERS = 8;
    private static final int FEW_EVENTS = 20;

    /** Φ⁻¹(¾). */
    private static final double UPPER_QUARTILE = 0.674489750196082;

    /**
     * A column's estimate.
     *
     * @param estimate log odds ratio between uses of one centre
     * @param standardError from the observed information
     */
    public record Coefficient(double estimate, double standardError) {}

    /**
     * Fits log(μ/(1−μ)) = Xβ+σu, u standard normal and common to a cluster, by maximum marginal likelihood.
     *
     * <p>Valid for clusters that are a sample of many; for eight clusters and twenty events or more, fewer are noted. The
     * integral over u by adaptive Gauss–Hermite quadrature with 35 nodes [1]; the test of σ = 0 has p = ½P(χ²₁ &gt; LR) [2];
     * median odds ratio exp(√2·σ·Φ⁻¹(¾)) [3].
     *
     * <p>Edges: no more spread than chance: σ = 0, the coefficients of plain logistic regression, LR 0 with p = ½, note
     * {@code BOUNDARY}. Separation, or clusters that are all or nothing so that σ has no finite estimate: no figures, notes
     * {@code SEPARATION}, {@code NOT_CONVERGED}.
     *
     * <p><b>Same as</b> R {@code lme4::glmer(cbind(y, n - y) ~ . + (1 | cluster), binomial, nAGQ = 25)}. <b>Not the same
     * as</b> its default, Laplace's approximation, which is off in the third digit. Accuracy: relative 1e-6, the integral
     * 1e-9.
     *
     * <p>[1] Pinheiro JC, Bates DM, J Comput Graph Stat 1995;4:12. [2] Self SG, Liang KY, J Am Stat Assoc 1987;82:605. [3]
     * Merlo J et al., J Epidemiol Community Health 2006;60:290.
     *
     * @param cluster the name in {@link CovariatePattern#levels} that holds each pattern's cluster
     * @throws IllegalArgumentException if a pattern has no cluster
     */
    public static LogisticRandomInterceptAnalysis of(DesignMatrix design, String cluster) {
        MarginalLikelihood marginal = MarginalLikelihood.of(design, cluster);
        LogisticSeparationAnalysis separation = LogisticSeparationAnalysis.of(design);
        long rarer = Math.min(design.events(), design.of() - design.events());
        List<Note> notes = notes(separation, marginal.clusters(), rarer);
        if (separation.separation() != Separation.NONE) {
            return withoutFit(notes);
        }
        LogisticLikelihood plain = LogisticLikelihood.plain(design);
        LogisticLikelihood.Point without = LogisticAnalysis.maximum(design, plain, Subspace.all(design.parameters()))
                .orElse(null);
        MarginalLikelihood.Point with = without == null
                ? null
                : MarginalMaximum.from(marginal, without.theta, rarer).orElse(null);
        if (without != null && with != null) {
            double lr = 2 * (with.value - without.value);
            if (with.sigma() < MarginalMaximum.SMALLEST_SIGMA || !(lr > NO_GAIN)) {
                return boundary(design, plain, without, notes);
            }
            Optional<DecompositionSolver> information = MarginalMaximum.information(with);
            if (information.isPresent()) {
                return spread(design, with, information.get(), lr, notes);
            }
        }
        notes.add(
                new Note(
                        NoteCode.NOT_CONVERGED,
                        "The fit did not converge, or the spread between centres has no finite estimate; there are no figures."));
        return withoutFit(notes);
    }

    private static List<Note> notes(LogisticSeparationAnalysis separation, int clusters, long rarer) {
        List<Note> notes = new ArrayList<>(separation.notes());
        if (clusters < FEW_CLUSTERS) {
            notes.add(new Note(
                    NoteCode.FEW_CASES,
                    "Fewer than " + FEW_CLUSTERS + " centres: how much they differ is itself uncertain."));
        }
        if (rarer < FEW_EVENTS) {
            notes.add(new Note(
                    NoteCode.LOW_EPV,
                    "Fewer than " + FEW_EVENTS
                            + " events, or uses without one: a spread between centres cannot be told from"
                            + " chance."));
        }
        return notes;
    }

    private static LogisticRandomInterceptAnalysis withoutFit(List<Note> notes) {
        return new LogisticRandomInterceptAnalysis(Map.of(), null, null, null, null, null, null, List.copyOf(notes));
    }

    private static LogisticRandomInterceptAnalysis boundary(
            DesignMatrix design, LogisticLikelihood plain, LogisticLikelihood.Point point, List<Note> notes) {
        notes.add(new Note(
                NoteCode.BOUNDARY, "There is no evidence that centres differ beyond chance: their spread is 0."));
        ThinQr information = plain.information(point.eta);
        Map<String, Coefficient> coefficients =
                coefficients(design, point.theta, contrast -> ThinQr.norm(information.solveTransposed(contrast)));
        return new LogisticRandomInterceptAnalysis(
                coefficients, 0.0, 0.0, 1.0, point.value, 0.0, 0.5, List.copyOf(notes));
    }

    private static LogisticRandomInterceptAnalysis spread(
            DesignMatrix design,
            MarginalLikelihood.Point point,
            DecompositionSolver information,
            double lr,
            List<Note> notes) {
        int parameters = design.parameters();
        Map<String, Coefficient> coefficients = coefficients(design, Arrays.copyOf(point.at, parameters), contrast -> {
            RealVector longer = new ArrayRealVector(Arrays.copyOf(contrast, parameters + 1));
            return FastMath.sqrt(longer.dotProduct(information.solve(longer)));
        });
        double sigma = point.sigma();
        return new LogisticRandomInterceptAnalysis(
                coefficients,
                sigma,
                sigma * sigma,
                FastMath.exp(FastMath.sqrt(2) * sigma * UPPER_QUARTILE),
                point.value,
                lr,
                ChiSquaredTest.upperTail(lr, 1) / 2,
                List.copyOf(notes));
    }

    private static Map<String, Coefficient> coefficients(
            DesignMatrix design, double[] theta, ToDoubleFunction<double[]> standardError) {
        double[] beta = design.coefficients(theta);
        Map<String, Coefficient> coefficients = new LinkedHashMap<>();
        for (int j = 0; j < beta.length; j++) {
            coefficients.put(
                    design.columnNames().get(j),
                    new Coefficient(beta[j], standardError.applyAsDouble(design.contrast(j))));
        }
        return Collections.unmodifiableMap(coefficients);
    }
}
