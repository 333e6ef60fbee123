package entrapment.registry.stats;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * Which share of all attempts succeeded, when attempts of one case are not independent of each other?
 *
 * @param cases k
 * @param attempts M = Σm
 * @param successes Y = Σy
 * @param estimate Y/M; {@code null} without an attempt
 * @param naiveWilson Wilson's interval as if all attempts were independent
 * @param clusterStandardError √V; {@code null} with fewer than two cases
 * @param designEffect V over its value under independence; {@code null} with fewer than two cases or V = 0
 * @param clusterT p ± t·√V held inside [0, 1]; {@code null} limits where {@code designEffect} is
 * @param effectiveN M/max(1, designEffect), the number of independent attempts that would tell as much
 * @param effectiveWilson the default: Wilson's interval at the effective size
 */
public record ClusteredProportion(
        long cases,
        long attempts,
        long successes,
        @Nullable Double estimate,
        Interval naiveWilson,
        @Nullable Double clusterStandardError,
        @Nullable Double designEffect,
        Interval clusterT,
        @Nullable Double effectiveN,
        Interval effectiveWilson) {

    /** Below this many cases the variance between cases is itself uncertain (common practice, no single source). */
    private static final long FEW_CASES = 10;

    /**
     * A proportion of attempts with an interval that allows for cases.
     *
     * <p>Valid for independent cases; the attempts inside a case may depend on each other in any way. With p = Y/M:
     * V = k/(k−1)·Σ(y−pm)²/M², the ratio estimator's variance [1]; deff = V/(p(1−p)/M); n_eff = M/max(1,deff) and
     * x_eff = p·n_eff into Wilson's formula [2, 3, 4]. Stopping at the first success can make deff less than 1; it is not
     * allowed to narrow the interval.
     *
     * <p>Edges: no attempt: all {@code null}. k &lt; 2: standard error {@code null}. k &lt; 2 or V = 0, which is decided in
     * whole numbers: design effect {@code null}, n_eff = M.
     *
     * <p><b>Same as</b> R {@code survey::svyratio(~y, ~m, svydesign(~1, data = cases))} for estimate and standard error.
     * <b>Not the same as</b> {@code survey::svyciprop(method = "beta")}, which shrinks the degrees of freedom too.
     * Accuracy: relative 1e-12.
     *
     * <p>[1] Cochran WG, Sampling Techniques, 3rd ed., 1977, §6. [2] Rao JNK, Scott AJ, Biometrics 1992;48:577. [3] Korn EL,
     * Graubard BI, Surv Methodol 1998;24:193. [4] Dean N, Pagano M, J Surv Stat Methodol 2015;3:484.
     *
     * @param clusters in any order; splitting one into two changes nothing
     * @throws IllegalArgumentException if there are more than 2³¹−1 attempts in all
     */
    public static ClusteredProportion of(List<Cluster> clusters, Confidence confidence) {
        long k = 0;
        long attempts = 0;
        long successes = 0;
        for (Cluster cluster : clusters) {
            k += cluster.cases();
            attempts += cluster.cases() * cluster.attempts();
            successes += cluster.cases() * cluster.successes();
            Counts.require("attempts", attempts);
        }
        Proportion all = new Proportion(successes, attempts);
        Interval naive = all.interval(IntervalMethod.WILSON, confidence);
        if (attempts == 0) {
            return new ClusteredProportion(
                    k, 0, 0, null, naive, null, null, Interval.NOT_ESTIMABLE, null, Interval.NOT_ESTIMABLE);
        }
        double p = (double) successes / attempts;
        double squares = squares(clusters, attempts, successes);
        if (k < 2 || squares == 0) {
            return new ClusteredProportion(
                    k,
                    attempts,
                    successes,
                    p,
                    naive,
                    k < 2 ? null : 0.0,
                    null,
                    Interval.NOT_ESTIMABLE,
                    (double) attempts,
                    naive);
        }
        double between = squares * k / (k - 1);
        double se = FastMath.sqrt(between) / attempts / attempts;
        double deff = between / attempts / successes / (attempts - successes);
        double deflated = Math.max(1, deff);
        return new ClusteredProportion(
                k,
                attempts,
                successes,
                p,
                naive,
                se,
                deff,
                studentT(p, se, k - 1.0, confidence),
                attempts / deflated,
                WilsonScore.of(successes / deflated, attempts / deflated, confidence.z()));
    }

    /** Σ(yM−Ym)² = M²·Σ(y−pm)², exact until the last step so that 0 means no variation. */
    private static double squares(List<Cluster> clusters, long attempts, long successes) {
        BigInteger sum = BigInteger.ZERO;
        for (Cluster cluster : clusters) {
            BigInteger distance = BigInteger.valueOf(cluster.successes() * attempts - successes * cluster.attempts());
            sum = sum.add(distance.multiply(distance).multiply(BigInteger.valueOf(cluster.cases())));
        }
        return sum.doubleValue();
    }

    private static Interval studentT(double p, double se, double df, Confidence confidence) {
        double distance = confidence.t(df) * se;
        return new Interval(Math.max(0, p - distance), Math.min(1, p + distance));
    }

    /** What the reader of this figure must be told. */
    public List<Note> notes() {
        if (attempts == 0) {
            return List.of(new Note(NoteCode.NO_EXPOSURE, "There is no attempt, so nothing can be estimated."));
        }
        List<Note> notes = new ArrayList<>();
        if (designEffect == null) {
            notes.add(new Note(
                    NoteCode.NO_VARIATION, "No variation between cases: the interval per attempt ignores clustering."));
        } else if (designEffect < 1) {
            notes.add(
                    new Note(
                            NoteCode.BOUNDARY,
                            "Stopping at success makes cases more alike than chance; the interval per attempt is not narrowed for it."));
        }
        if (cases < FEW_CASES) {
            notes.add(
                    new Note(
                            NoteCode.FEW_CASES,
                            "With fewer than ten cases the variance between cases, and so the interval per attempt, is itself uncertain."));
        }
        return List.copyOf(notes);
    }
}
