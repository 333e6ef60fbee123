package entrapment.registry.stats;

import static entrapment.registry.stats.Logit.softplus;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * How long does a CUSUM run until it gives an alarm, false or true?
 *
 * @param p1Implied the risk that this m is best at detecting
 * @param oddsRatioImplied its odds over the baseline's
 * @param thresholdInWeights H in the units of {@link CusumRule}: H·log((1−p₀)/(1−p₁))
 * @param arl expected uses until the alarm, for each true risk asked about
 * @param thresholdForTarget the smallest threshold whose false alarms are rare enough; {@code null} if not asked for
 * @param notes runs beyond any count
 */
public record CusumDesignAnalysis(
        double p1Implied,
        double oddsRatioImplied,
        double thresholdInWeights,
        List<RunLength> arl,
        @Nullable ThresholdForTarget thresholdForTarget,
        List<Note> notes) {

    private static final double LONGEST_TARGET = 1e12;

    /**
     * Expected uses until the alarm.
     *
     * @param p the true risk
     * @param arl average run length; {@code null} if beyond 1e300
     */
    public record RunLength(double p, @Nullable Double arl) {}

    /**
     * The answer to a wanted number of uses between false alarms.
     *
     * @param targetArl0 as asked
     * @param threshold the smallest H that reaches it
     * @param arl0 the run length it has
     */
    public record ThresholdForTarget(double targetArl0, int threshold, double arl0) {}

    /**
     * Run lengths of the Bernoulli CUSUM on a lattice.
     *
     * <p>Valid for independent uses with one true risk. m and p₀ imply p₁ through
     * log((1−p₀)/(1−p₁))/log(p₁(1−p₀)/(p₀(1−p₁))) = 1/m; ARL(p) = E(0) of E(s) = 1+p·E(s+m−1)+(1−p)·E(max(s−1,0)), E = 0
     * from H on [1]. Exact, not simulated.
     *
     * <p>Edges: a run beyond 1e300 uses: {@code null}, note {@code OUT_OF_REACH}. A target that the threshold 1 reaches gives
     * 1; one that no threshold up to 1,000,000 reaches gives {@code null} with the same note.
     *
     * <p><b>Same as</b> R {@code solve(diag(H) - P, rep(1, H))[1]} with P the transition matrix below H. Accuracy: relative
     * 1e-11, H up to 100,000.
     *
     * <p>[1] Reynolds MR, Stoumbos ZG, J Qual Technol 1999;31:87.
     *
     * @param pTrue true risks to ask about, each in [1e-6, 1)
     * @param targetArl0 wanted uses until a false alarm, in [1, 1e12], or {@code null}
     * @throws IllegalArgumentException if a value is out of its range or not a number
     */
    public static CusumDesignAnalysis of(CusumDesign design, List<Double> pTrue, @Nullable Double targetArl0) {
        pTrue.forEach(CusumDesignAnalysis::requireRisk);
        if (targetArl0 != null && !(targetArl0 >= 1 && targetArl0 <= LONGEST_TARGET)) {
            throw new IllegalArgumentException("target must be in [1, " + LONGEST_TARGET + "], got " + targetArl0);
        }
        double logit0 = Logit.of(design.p0());
        double logit1 = impliedLogit(design);
        List<RunLength> runs = pTrue.stream()
                .map(p -> new RunLength(
                        p, finite(new CusumLattice(p, design.m(), design.threshold()).averageRunLength())))
                .toList();
        ThresholdForTarget target = targetArl0 == null ? null : threshold(design, targetArl0);
        return new CusumDesignAnalysis(
                Logit.proportion(logit1),
                FastMath.exp(logit1 - logit0),
                design.threshold() * (softplus(logit1) - softplus(logit0)),
                runs,
                target,
                notes(runs, targetArl0 != null && target == null));
    }

    private static void requireRisk(double p) {
        if (!(p >= 1e-6 && p < 1)) {
            throw new IllegalArgumentException("true risk must be in [1.0E-6, 1), got " + p);
        }
    }

    /** logit p₁: the root above p = 1/m of m·log((1−p₀)/(1−p)) = logit p − logit p₀, which is convex with a root at p₀. */
    private static double impliedLogit(CusumDesign design) {
        double logit0 = Logit.of(design.p0());
        return MonotoneRoot.of(
                u -> design.m() * (softplus(u) - softplus(logit0)) - (u - logit0), -FastMath.log(design.m() - 1.0), 1);
    }

    private static @Nullable Double finite(double value) {
        return Double.isInfinite(value) ? null : value;
    }

    private static @Nullable ThresholdForTarget threshold(CusumDesign design, double target) {
        int enough = 1;
        while (arl0(design, enough) < target) {
            if (enough == CusumDesign.LARGEST_THRESHOLD) {
                return null;
            }
            enough = Math.min(2 * enough, CusumDesign.LARGEST_THRESHOLD);
        }
        int threshold = (int) IntegerSearch.first(h -> arl0(design, (int) h) >= target, enough / 2, enough);
        return new ThresholdForTarget(target, threshold, arl0(design, threshold));
    }

    private static double arl0(CusumDesign design, int threshold) {
        return threshold == 0 ? 0 : new CusumLattice(design.p0(), design.m(), threshold).averageRunLength();
    }

    private static List<Note> notes(List<RunLength> runs, boolean noThreshold) {
        List<Note> notes = new ArrayList<>();
        if (runs.stream().anyMatch(run -> run.arl() == null)) {
            notes.add(new Note(
                    NoteCode.OUT_OF_REACH, "With this threshold the chart would run for ever at one of these risks."));
        }
        if (noThreshold) {
            notes.add(new Note(
                    NoteCode.OUT_OF_REACH, "No threshold up to 1,000,000 points keeps false alarms that far apart."));
        }
        return List.copyOf(notes);
    }
}
