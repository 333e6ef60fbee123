package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.special.Erf;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * Does the proportion rise or fall along an ordered scale?
 *
 * @param z the Cochran–Armitage statistic, positive for a rise; {@code null} if there is nothing to compare
 * @param pValue its two-sided p
 * @param slope change of the proportion per unit of score
 * @param exactUpperPValue P(T ≥ t) given the events: evidence of a rise
 * @param exactLowerPValue P(T ≤ t) given the events: evidence of a fall
 * @param exactDoubledPValue twice the smaller of the two
 * @param midPValue the same with half the weight of P(T = t); the default if {@code fewEvents}
 * @param fewEvents whether there are fewer than 30 events, or a group expects fewer than 5: then {@code pValue} misleads
 * @param notes why a figure is missing or to be read with care
 */
public record TrendAnalysis(
        @Nullable Double z,
        @Nullable Double pValue,
        @Nullable Double slope,
        @Nullable Double exactUpperPValue,
        @Nullable Double exactLowerPValue,
        @Nullable Double exactDoubledPValue,
        @Nullable Double midPValue,
        boolean fewEvents,
        List<Note> notes) {

    private static final long FEW_EVENTS = 30;
    private static final double SMALL_EXPECTED = 5;

    /**
     * The trend test, asymptotic and exact.
     *
     * <p>Valid for independent groups whose scores were fixed in advance. With p = Σe/N and s̄ = Σns/N:
     * z = Σe(s−s̄)/√(p(1−p)Σn(s−s̄)²) [1, 2], slope Σe(s−s̄)/Σn(s−s̄)². Exact: the distribution of T = Σs·e given Σe, ∝ ∏C(n_j,x_j).
     *
     * <p>Edges: no event, nothing but events, or only one score with somebody at it: all {@code null}. Groups without anybody
     * do not count. Exact p-values are {@code null}, with a note, where the distribution has too many points to sum: many events, or
     * scores with many different decimals. A p-value below 2.2e-308 is given as 2.2e-308.
     *
     * <p><b>Same as</b> R {@code prop.trend.test(events, of, score)} (χ² = z²). <b>Not the same as</b> an exact two-sided p that
     * orders tables by their distance from the mean; this one doubles. Accuracy: relative 1e-12 in z and slope, 1e-10 in
     * p-values.
     *
     * <p>[1] Cochran WG, Biometrics 1954;10:417. [2] Armitage P, Biometrics 1955;11:375.
     *
     * @throws IllegalArgumentException if the groups hold more than 2³¹−1 together
     */
    public static TrendAnalysis of(List<ScoredGroup> groups) {
        List<ScoredGroup> used =
                groups.stream().filter(group -> group.proportion().of() > 0).toList();
        long of = used.stream().mapToLong(group -> group.proportion().of()).sum();
        long events =
                used.stream().mapToLong(group -> group.proportion().events()).sum();
        Counts.require("sum of of", of);
        boolean oneScore =
                used.stream().mapToDouble(ScoredGroup::score).distinct().count() < 2;
        if (oneScore || events == 0 || events == of) {
            return new TrendAnalysis(
                    null, null, null, null, null, null, null, false, notEstimable(oneScore, events, of));
        }
        double lowest = used.stream().mapToDouble(ScoredGroup::score).min().orElseThrow();
        double meanScore = mean(used, lowest, of);
        double covariance = 0;
        double spread = 0;
        for (ScoredGroup group : used) {
            double distance = group.score() - lowest - meanScore;
            covariance += group.proportion().events() * distance;
            spread += group.proportion().of() * distance * distance;
        }
        double z = covariance / FastMath.sqrt((double) events / of * (of - events) / of * spread);
        boolean few = few(used, events, of);
        Optional<ExactTrend> exact = ExactTrend.of(used);
        return new TrendAnalysis(
                z,
                Math.max(Double.MIN_NORMAL, Erf.erfc(Math.abs(z) / FastMath.sqrt(2))),
                covariance / spread,
                exact.map(ExactTrend::upper).orElse(null),
                exact.map(ExactTrend::lower).orElse(null),
                exact.map(ExactTrend::doubled).orElse(null),
                exact.map(ExactTrend::midP).orElse(null),
                few,
                notes(few, exact.isPresent()));
    }

    /** s̄ above the lowest score: calendar years would lose four digits. */
    private static double mean(List<ScoredGroup> groups, double lowest, long of) {
        return groups.stream()
                        .mapToDouble(group -> group.proportion().of() * (group.score() - lowest))
                        .sum()
                / of;
    }

    private static boolean few(List<ScoredGroup> groups, long events, long of) {
        return events < FEW_EVENTS
                || groups.stream().anyMatch(group -> (double) group.proportion().of() / of * events < SMALL_EXPECTED);
    }

    private static List<Note> notEstimable(boolean oneScore, long events, long of) {
        if (of == 0) {
            return List.of(new Note(NoteCode.NO_EXPOSURE, "Nothing was observed, so there is no trend to test."));
        }
        if (events == 0) {
            return List.of(new Note(NoteCode.NO_EVENT, "No event in any group, so there is no trend to test."));
        }
        return List.of(
                oneScore
                        ? new Note(NoteCode.EMPTY_MARGIN, "Only one score is in use, so there is no trend to test.")
                        : new Note(
                                NoteCode.BOUNDARY, "Every observation had the event, so there is no trend to test."));
    }

    private static List<Note> notes(boolean few, boolean exact) {
        List<Note> notes = new ArrayList<>();
        if (few) {
            notes.add(new Note(
                    NoteCode.APPROXIMATE,
                    "Few events, overall or expected in a group: read the mid-P value, not the approximate one."));
        }
        if (!exact) {
            notes.add(new Note(
                    NoteCode.OUT_OF_REACH,
                    "The exact law has too many points to sum: many events, or scores with many different decimals."));
        }
        return List.copyOf(notes);
    }
}
