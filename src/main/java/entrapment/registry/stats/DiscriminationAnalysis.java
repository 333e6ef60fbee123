package entrapment.registry.stats;

import entrapment.registry.stats.LogisticLikelihood.Point;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * Does a model tell events from non-events, and do its probabilities come true? On the data that made the model the answer
 * flatters it: call it apparent.
 *
 * @param cStatistic the chance that an event had the higher probability than a non-event; {@code null} without such a pair
 * @param delongStandardError its standard error; {@code null} with fewer than two events or non-events
 * @param ci its normal interval, cut to [0, 1]; {@code null} limits likewise
 * @param brier mean squared distance of outcome and probability; {@code null} without trials
 * @param observed events
 * @param expected the sum of the probabilities
 * @param oOverE their ratio; infinite if none was expected and some happened, {@code null} if neither
 * @param calibrationInterceptAtSlope1 by how much the log odds are too low throughout; 0 if right
 * @param calibrationSlope 1 if right, below 1 if the probabilities are too extreme
 * @param calibrationInterceptFree the intercept beside that slope
 * @param notes why a figure is missing
 */
public record DiscriminationAnalysis(
        @Nullable Double cStatistic,
        @Nullable Double delongStandardError,
        Interval ci,
        @Nullable Double brier,
        long observed,
        double expected,
        @Nullable Double oOverE,
        @Nullable Double calibrationInterceptAtSlope1,
        @Nullable Double calibrationSlope,
        @Nullable Double calibrationInterceptFree,
        List<Note> notes) {

    private static final int MOST_ROWS = 1_000_000;

    /** Probabilities of exactly 0 or 1 have no log odds; they are held this far from the edge for calibration alone. */
    private static final double CLIP = 1e-12;

    private static final String LOGIT = "logit";

    /** Intercept and slope of the outcome on the logit of the prediction; each {@code null} if there is none. */
    private record Calibration(
            @Nullable Double interceptAtSlope1,
            @Nullable Double slope,
            @Nullable Double interceptFree) {}

    /**
     * Concordance with DeLong's error, Brier's score, observed over expected, and calibration on the logit scale.
     *
     * <p>Formulas of the first: {@link Concordance#of}. Brier Σ[e(1−p)²+f·p²]/N. Calibration [1]: the maximum-likelihood
     * intercept with offset logit(p); then intercept and slope of a regression on logit(p), p held within
     * [1e-12, 1−1e-12].
     *
     * <p>Edges: only events, or only non-events: c and calibration {@code null}, notes {@code NO_EVENT} or
     * {@code NO_VARIATION}. One prediction for all: c = ½ and no slope, note {@code NO_VARIATION}. Predictions that tell
     * all events apart: no slope, note {@code SEPARATION}.
     *
     * <p><b>Same as</b> R {@code pROC::ci.auc}, {@code rms::val.prob} in c, Brier, intercept and slope, and
     * {@code glm(y ~ offset(qlogis(p)), binomial)}. Accuracy: relative 1e-9. No Hosmer–Lemeshow test.
     *
     * <p>[1] Cox DR, Biometrika 1958;45:562.
     *
     * @param rows at most a million; those without trials are ignored
     * @throws IllegalArgumentException if there are too many
     */
    public static DiscriminationAnalysis of(List<PredictedRow> rows, Confidence confidence) {
        Counts.require("number of rows", rows.size(), 0, MOST_ROWS);
        List<PredictedRow> used =
                rows.stream().filter(row -> row.proportion().of() > 0).toList();
        long observed = 0;
        long of = 0;
        double expected = 0;
        double squares = 0;
        for (PredictedRow row : used) {
            double p = row.predicted();
            double e = row.proportion().events();
            double n = row.proportion().of();
            observed += row.proportion().events();
            of += row.proportion().of();
            expected += n * p;
            squares += e * (1 - p) * (1 - p) + (n - e) * p * p;
        }
        Concordance concordance = Concordance.of(used);
        List<Note> notes = new ArrayList<>();
        Calibration calibration = calibration(used, observed, of, notes);
        return new DiscriminationAnalysis(
                concordance.c(),
                concordance.standardError(),
                interval(concordance, confidence.z()),
                of == 0 ? null : squares / of,
                observed,
                expected,
                ratio(observed, expected),
                calibration.interceptAtSlope1(),
                calibration.slope(),
                calibration.interceptFree(),
                List.copyOf(notes));
    }

    private static Interval interval(Concordance concordance, double z) {
        Double c = concordance.c();
        Double se = concordance.standardError();
        return c == null || se == null
                ? Interval.NOT_ESTIMABLE
                : new Interval(Math.max(0, c - z * se), Math.min(1, c + z * se));
    }

    private static @Nullable Double ratio(long observed, double expected) {
        if (expected == 0) {
            return observed == 0 ? null : Double.valueOf(Double.POSITIVE_INFINITY);
        }
        return observed / expected;
    }

    private static Calibration calibration(List<PredictedRow> rows, long observed, long of, List<Note> notes) {
        if (observed == 0 || observed == of) {
            notes.add(
                    of == 0
                            ? new Note(NoteCode.NO_EXPOSURE, "There are no trials.")
                            : observed == 0
                                    ? new Note(NoteCode.NO_EVENT, "No event: nothing shows whether the model tells.")
                                    : new Note(
                                            NoteCode.NO_VARIATION,
                                            "Nothing but events: nothing shows whether the model tells."));
            return new Calibration(null, null, null);
        }
        double first = logit(rows.get(0));
        if (rows.stream().allMatch(row -> logit(row) == first)) {
            notes.add(new Note(NoteCode.NO_VARIATION, "All predictions are equal, so calibration has no slope."));
            return new Calibration(FastMath.log((double) observed / (of - observed)) - first, null, null);
        }
        return calibration(
                DesignMatrix.of(
                        List.of(new Term.Numeric(LOGIT)),
                        rows.stream()
                                .map(row -> new CovariatePattern(Map.of(), Map.of(LOGIT, logit(row)), row.proportion()))
                                .toList()),
                notes);
    }

    private static Calibration calibration(DesignMatrix design, List<Note> notes) {
        LogisticLikelihood likelihood = LogisticLikelihood.plain(design);
        Double atSlope1 = LogisticAnalysis.maximum(design, likelihood, design.fixing(1, 1))
                .map(offset -> design.coefficients(offset.theta)[0])
                .orElse(null);
        if (LogisticSeparationAnalysis.of(design).separation() != Separation.NONE) {
            notes.add(new Note(
                    NoteCode.SEPARATION, "The predictions tell all events apart, so calibration has no finite slope."));
            return new Calibration(atSlope1, null, null);
        }
        Point free =
                LogisticAnalysis.maximum(design, likelihood, Subspace.all(2)).orElse(null);
        if (free != null && atSlope1 != null) {
            double[] beta = design.coefficients(free.theta);
            return new Calibration(atSlope1, beta[1], beta[0]);
        }
        notes.add(new Note(NoteCode.NOT_CONVERGED, "A calibration line did not converge and is missing."));
        return new Calibration(atSlope1, null, null);
    }

    private static double logit(PredictedRow row) {
        return Logit.of(Math.max(CLIP, Math.min(1 - CLIP, row.predicted())));
    }
}
