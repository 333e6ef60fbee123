package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * How much higher are the odds of the event with a factor than without it? An association in recorded cases, not proof
 * of cause.
 *
 * @param estimable whether all four margins are positive
 * @param oddsRatio the sample odds ratio, the estimate shown by default
 * @param woolf approximate line for checking by hand
 * @param conditionalMle conditional maximum-likelihood estimate
 * @param exact exact central interval; its p-value is {@code centralPValue}
 * @param midP the default interval; its p-value is {@code midPValue}
 * @param fisherPValue Fisher's two-sided p by probability ordering; it may disagree with either interval
 * @param centralPValue twice the smaller tail
 * @param midPValue the default p-value
 * @param notes why a figure is missing, infinite or to be read with care
 */
public record OddsRatioAnalysis(
        boolean estimable,
        @Nullable Double oddsRatio,
        Woolf woolf,
        @Nullable Double conditionalMle,
        Interval exact,
        Interval midP,
        double fisherPValue,
        double centralPValue,
        double midPValue,
        List<Note> notes) {

    /**
     * Sample and conditional analysis of one 2×2 table.
     *
     * <p>Valid for two independent groups, or for cases and controls. The conditional distribution is P(A=s) ∝ C(m,s)C(n,k−s)ψ^s.
     * Estimate: E(A;ψ) = a. Exact limits: P(A≥a;ψ_L) = P(A≤a;ψ_U) = α/2 [1]. Mid-P: the same with half the weight of
     * P(A=a) [2]. At ψ = 1, Fisher's p sums P(s) ≤ P(a)(1+1e-7) [3]; the other two are twice the smaller tail, at most 1.
     *
     * <p>Edges: an empty margin: estimates {@code null}, intervals (0, ∞), every p = 1, note {@code EMPTY_MARGIN}. a at an
     * end of its support: estimate and limit exactly 0 or infinite, note {@code ZERO_CELL}. A p-value below 2.2e-308 is
     * given as 2.2e-308.
     *
     * <p><b>Same as</b> R {@code exact2x2::fisher.exact(x, tsmethod = "central")}, with {@code midp = TRUE} for mid-P, and
     * SciPy {@code contingency.odds_ratio(x, kind = "conditional")}. <b>Not the same as</b> the limits of
     * {@code fisher.test}, whose root-finder is loose, nor a mid-P that halves the ties of Fisher's p. Accuracy: relative
     * 1e-11 in estimate and limits, 1e-12 in p-values, tested up to 2·10⁷ in a group.
     *
     * <p>[1] Cornfield J, Proc Third Berkeley Symp 1956;4:135. [2] Lancaster HO, J Am Stat Assoc 1961;56:223. [3] Fisher
     * RA, J R Stat Soc 1935;98:39.
     *
     * @throws IllegalArgumentException if every margin exceeds 2,000,000, where an exact analysis has no purpose
     */
    public static OddsRatioAnalysis of(TwoByTwo table, Confidence confidence) {
        ExactOddsRatio exact = table.estimable()
                ? ExactOddsRatio.of(ConditionalDistribution.of(table), table.a(), logHeldOddsRatio(table), confidence)
                : ExactOddsRatio.NOT_ESTIMABLE;
        return new OddsRatioAnalysis(
                table.estimable(),
                table.oddsRatio(),
                table.woolf(confidence),
                exact.conditionalMle(),
                exact.exact(),
                exact.midP(),
                exact.minlikePValue(),
                exact.centralPValue(),
                exact.midPValue(),
                notes(table));
    }

    /** Where the root-finding starts: finite for every table. */
    private static double logHeldOddsRatio(TwoByTwo t) {
        return FastMath.log((t.a() + 0.5) * (t.d() + 0.5) / ((t.b() + 0.5) * (t.c() + 0.5)));
    }

    private static List<Note> notes(TwoByTwo table) {
        List<Note> notes = new ArrayList<>();
        if (!table.estimable()) {
            notes.add(new Note(
                    NoteCode.EMPTY_MARGIN,
                    "A row or column of the table is empty: any odds ratio is compatible with these counts."));
        } else if (table.hasZeroCell()) {
            notes.add(new Note(
                    NoteCode.ZERO_CELL,
                    (table.b() == 0 || table.c() == 0
                                    ? "A cell is 0: the odds ratio is infinite and no upper limit can be given."
                                    : "A cell is 0: the odds ratio is 0 and only its upper limit says anything.")
                            + " Woolf's line, and nothing else, has ½ added to all four cells."));
        }
        return List.copyOf(notes);
    }
}
