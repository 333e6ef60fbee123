package entrapment.registry.stats;

import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * What can a CUSUM tell: how far apart are its false alarms, and how long does the change it is tuned to stay unseen?
 *
 * @param p1 the risk whose odds are R times the baseline's
 * @param m points that an event adds on the nearest lattice, plus one; {@code null} if there is no such lattice
 * @param threshold H on that lattice; {@code null} likewise
 * @param falseAlarm expected uses until an alarm at the baseline risk; {@code null} if it cannot be given
 * @param detection expected uses until an alarm at p₁; {@code null} if it cannot be given
 * @param notes why a figure is missing
 */
public record CusumReachAnalysis(
        double p1,
        @Nullable Integer m,
        @Nullable Integer threshold,
        @Nullable Double falseAlarm,
        @Nullable Double detection,
        List<Note> notes) {

    private static final Note NO_LATTICE = new Note(
            NoteCode.OUT_OF_REACH,
            "The rule is too far from one on whole points for its run lengths to be given: the change is downward, the risk is"
                    + " too large or too small, or the threshold is.");

    /**
     * Run lengths of a rule in weights, moved to the nearest lattice, on which they are exact.
     *
     * <p>Valid as {@link CusumDesignAnalysis}, for R above 1. p₁ = Rp₀/(1−p₀+Rp₀); an uneventful use takes
     * w = log((1−p₀)/(1−p₁)), so m = log(p₁(1−p₀)/(p₀(1−p₁)))/w and H = h/w, each rounded to the nearest whole number; then
     * ARL(p₀) and ARL(p₁) [1]. The smaller the risk, the less the rounding matters.
     *
     * <p>Edges: no lattice (m below 2 or not below 1/p₀, H not in [1, 1,000,000], p₀ below 1e-6): {@code null}s, note
     * {@code OUT_OF_REACH}. A run beyond 1e300 uses: {@code null}, the same note.
     *
     * <p><b>Same as</b> R {@code solve(diag(H) - P, rep(1, H))[1]} with P the transition matrix below H. Accuracy: as
     * {@link CusumDesignAnalysis}.
     *
     * <p>[1] Reynolds MR, Stoumbos ZG, J Qual Technol 1999;31:87.
     *
     * @param p0 the baseline risk, in (0, 1)
     * @throws IllegalArgumentException if it is out of its range or not a number
     */
    public static CusumReachAnalysis of(CusumRule rule, double p0) {
        Counts.requireInside("p0", p0);
        double ratio = rule.oddsRatioAlternative();
        double p1 = ratio * p0 / (1 - p0 + ratio * p0);
        double step = FastMath.log((1 - p0) / (1 - p1));
        int m = (int) FastMath.rint(FastMath.log(p1 * (1 - p0) / (p0 * (1 - p1))) / step);
        int threshold = (int) FastMath.rint(rule.threshold() / step);
        if (!CusumDesign.allows(p0, m, threshold)) {
            return new CusumReachAnalysis(p1, null, null, null, null, List.of(NO_LATTICE));
        }
        CusumDesignAnalysis design = CusumDesignAnalysis.of(new CusumDesign(p0, m, threshold), List.of(p0, p1), null);
        return new CusumReachAnalysis(
                p1, m, threshold, design.arl().get(0).arl(), design.arl().get(1).arl(), design.notes());
    }
}
