package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * Do centres differ by more than chance all over, so that a funnel's lines are too narrow? Adjusting hides differences that
 * may be real; both versions are to be shown.
 *
 * @param target the pooled rate θ; {@code null} without data
 * @param phiUnwinsorised Σz²/I of all centres with data
 * @param phi the same with extreme z-scores pulled in
 * @param overdispersed whether φ &gt; 1+2√(2/I)
 * @param tau2 variance between centres, on the scale of proportions
 * @param zNaive z-scores, one for each centre in the order given; {@code null} for a centre without data
 * @param zMultiplicative the same over √max(1, φ)
 * @param zAdditive the same with τ² added to the variance: the preferred one
 * @param notes why a figure is missing or to be read with care
 */
public record FunnelOverdispersionAnalysis(
        @Nullable Double target,
        @Nullable Double phiUnwinsorised,
        @Nullable Double phi,
        @Nullable Boolean overdispersed,
        @Nullable Double tau2,
        List<@Nullable Double> zNaive,
        List<@Nullable Double> zMultiplicative,
        List<@Nullable Double> zAdditive,
        List<Note> notes) {

    private static final int FEWEST_CENTRES = 10;
    private static final double SMALL_EXPECTED = 5;

    /**
     * Overdispersion of proportions about their pooled value.
     *
     * <p>Valid with ten or more centres that expect five or more events each; below that normal z-scores are fiction.
     * z_i = (p_i−θ)/s_i, s_i² = θ(1−θ)/n_i. Winsorised: the ⌊qI⌋ lowest z take the value of the next one, and the highest
     * likewise. φ = Σz²/I. With w = 1/s²: τ² = max(0, (Iφ−(I−1))/(Σw−Σw²/Σw)); additive z = (p−θ)/√(s²+τ²) [1].
     *
     * <p>Edges: fewer than two centres with data, no event, or nothing but events: all {@code null}.
     *
     * <p>Checked against the formula in another program; <b>not the same as</b> packages that winsorise by quantile.
     * Accuracy: relative 1e-12.
     *
     * <p>[1] Spiegelhalter DJ, Stat Med 2005;24:1185 and Qual Saf Health Care 2005;14:347.
     *
     * @param winsor q in [0, 0.5), 0.1 by custom
     * @throws IllegalArgumentException if the share is out of its range or not a number
     */
    public static FunnelOverdispersionAnalysis of(List<Group> centres, double winsor) {
        if (!(winsor >= 0 && winsor < 0.5)) {
            throw new IllegalArgumentException("winsorised share must be in [0, 0.5), got " + winsor);
        }
        List<Proportion> all = centres.stream().map(Group::proportion).toList();
        List<Proportion> used = all.stream().filter(p -> p.of() > 0).toList();
        long of = used.stream().mapToLong(Proportion::of).sum();
        long events = used.stream().mapToLong(Proportion::events).sum();
        Double target = of == 0 ? null : (double) events / of;
        if (target == null || used.size() < 2 || events == 0 || events == of) {
            List<@Nullable Double> none = all.stream().map(p -> (Double) null).toList();
            return new FunnelOverdispersionAnalysis(
                    target, null, null, null, null, none, none, none, notEstimable(of, events));
        }
        double[] z = used.stream().mapToDouble(p -> z(p, target, 0)).toArray();
        double phi = meanSquare(winsorised(z, winsor));
        double tau2 = tau2(used, target, phi);
        return new FunnelOverdispersionAnalysis(
                target,
                meanSquare(z),
                phi,
                phi > 1 + 2 * FastMath.sqrt(2.0 / used.size()),
                tau2,
                scores(all, target, 0, 1),
                scores(all, target, 0, FastMath.sqrt(Math.max(1, phi))),
                scores(all, target, tau2, 1),
                notes(used, target));
    }

    private static double z(Proportion p, double target, double tau2) {
        double x = p.events();
        double n = p.of();
        return (x / n - target) / FastMath.sqrt(target * (1 - target) / n + tau2);
    }

    private static List<@Nullable Double> scores(List<Proportion> centres, double target, double tau2, double divisor) {
        List<@Nullable Double> scores = new ArrayList<>();
        centres.forEach(p -> scores.add(p.of() == 0 ? null : z(p, target, tau2) / divisor));
        return scores;
    }

    private static double[] winsorised(double[] z, double share) {
        double[] sorted = z.clone();
        Arrays.sort(sorted);
        int cut = (int) (share * z.length * (1 + 1e-12)); // 0.29 of 100 is 29
        double lowest = sorted[cut];
        double highest = sorted[z.length - 1 - cut];
        return Arrays.stream(z)
                .map(value -> Math.max(lowest, Math.min(highest, value)))
                .toArray();
    }

    private static double meanSquare(double[] z) {
        return Arrays.stream(z).map(value -> value * value).sum() / z.length;
    }

    private static double tau2(List<Proportion> used, double target, double phi) {
        double sum = 0;
        double squares = 0;
        for (Proportion p : used) {
            double w = p.of() / (target * (1 - target));
            sum += w;
            squares += w * w;
        }
        return Math.max(0, (used.size() * phi - (used.size() - 1)) / (sum - squares / sum));
    }

    private static List<Note> notEstimable(long of, long events) {
        return List.of(
                of == 0
                        ? new Note(NoteCode.NO_EXPOSURE, "No centre has any use, so nothing can be compared.")
                        : events == 0
                                ? new Note(NoteCode.NO_EVENT, "No centre has an event, so nothing can be compared.")
                                : events == of
                                        ? new Note(
                                                NoteCode.BOUNDARY,
                                                "Every observation had the event, so nothing can be compared.")
                                        : new Note(
                                                NoteCode.FEW_CENTRES,
                                                "Only one centre has any use, so nothing can be compared."));
    }

    private static List<Note> notes(List<Proportion> used, double target) {
        double least =
                used.stream().map(Proportion::of).min(Comparator.naturalOrder()).orElseThrow()
                        * Math.min(target, 1 - target);
        return used.size() < FEWEST_CENTRES || least < SMALL_EXPECTED
                ? List.of(new Note(
                        NoteCode.APPROXIMATE,
                        "Fewer than ten centres, or one that expects fewer than five events: normal scores do not hold;"
                                + " read the exact flags of the funnel instead."))
                : List.of();
    }
}
