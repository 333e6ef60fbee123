package entrapment.registry.stats;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Did any period have more or fewer events than chance explains, given its number of uses?
 *
 * @param centre the proportion that the limits are built on; {@code null} without any use
 * @param subgroups one for each period, in the order given
 * @param notes why limits are missing, or that the chart is the wrong tool for counts this small
 */
public record PChartAnalysis(@Nullable Double centre, List<Subgroup> subgroups, List<Note> notes) {

    /**
     * A period's point and limits.
     *
     * @param estimate x/n; {@code null} for n = 0
     * @param lowerCount the smallest count inside the limits; {@code null} if none is too small
     * @param upperCount the largest count inside the limits
     * @param lower lowerCount/n
     * @param upper upperCount/n
     * @param signal whether the count lies outside
     */
    public record Subgroup(
            @Nullable Double estimate,
            @Nullable Long lowerCount,
            @Nullable Long upperCount,
            @Nullable Double lower,
            @Nullable Double upper,
            ChartSignal signal) {

        private static Subgroup of(Proportion period, ControlLimits limits) {
            return new Subgroup(
                    period.estimate(),
                    limits.lowerCount(),
                    limits.upperCount(),
                    limits.lower((double) period.of()),
                    limits.upper((double) period.of()),
                    period.of() == 0 ? ChartSignal.NO_DATA : limits.signal(period.events()));
        }
    }

    /** The chart about the proportion of all its periods together. */
    public static PChartAnalysis of(List<Proportion> subgroups, double tailProbability) {
        long of = subgroups.stream().mapToLong(Proportion::of).sum();
        long events = subgroups.stream().mapToLong(Proportion::events).sum();
        return chart(subgroups, of == 0 ? null : (double) events / of, tailProbability);
    }

    /**
     * The chart about a centre that was fixed beforehand: a frozen baseline or a target.
     *
     * <p>Valid for uses with at most one event each. Exact binomial limits with a tail α on each side: u is the smallest
     * integer with P(X&gt;u) ≤ α, l the smallest with P(X≤l) ≥ α; a signal is x &gt; u or x &lt; l.
     *
     * <p>Edges: n = 0: no point and no limits. l = 0: no lower limit. A centre of 0 or 1, which only the periods' own
     * proportion can have: no limits. No run rules: with skewed counts "eight below the mean" is common by chance.
     *
     * <p><b>Same as</b> R {@code qbinom(alpha, n, p)} and {@code qbinom(alpha, n, p, lower.tail = FALSE)}. <b>Not the same
     * as</b> limits at three standard deviations, which are wrong for rare events. Counts are exact.
     *
     * <p>Limits of probability in place of three sigma: common practice, no single source.
     *
     * @param centre in (0, 1)
     * @param tailProbability α in (0, 0.25]; 0.00135 by custom
     * @throws IllegalArgumentException if an argument is out of its range or not a number
     */
    public static PChartAnalysis of(List<Proportion> subgroups, double centre, double tailProbability) {
        Counts.requireInside("centre", centre);
        return chart(subgroups, centre, tailProbability);
    }

    private static PChartAnalysis chart(List<Proportion> subgroups, @Nullable Double centre, double tail) {
        ControlLimits.requireTail(tail);
        return new PChartAnalysis(
                centre,
                subgroups.stream()
                        .map(period -> Subgroup.of(period, limits(period, centre, tail)))
                        .toList(),
                ControlLimits.notes(
                        centre,
                        centre != null && centre == 1,
                        subgroups.stream()
                                .filter(period -> period.of() > 0)
                                .mapToDouble(period -> centre == null ? 0 : period.of() * centre)));
    }

    private static ControlLimits limits(Proportion period, @Nullable Double centre, double tail) {
        return centre == null || centre == 0 || centre == 1 || period.of() == 0
                ? ControlLimits.NONE
                : ControlLimits.of(new BinomialDistribution(period.of(), centre), tail);
    }
}
