package entrapment.registry.stats;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Did any period have more or fewer events than chance explains, given its exposure?
 *
 * @param centre the rate that the limits are built on, per unit of exposure; {@code null} without exposure
 * @param subgroups one for each period, in the order given
 * @param notes why limits are missing, or that the chart is the wrong tool for counts this small
 */
public record UChartAnalysis(@Nullable Double centre, List<Subgroup> subgroups, List<Note> notes) {

    /**
     * A period's point and limits.
     *
     * @param rate events per unit of exposure; {@code null} without exposure
     * @param lowerCount the smallest count inside the limits; {@code null} if none is too small
     * @param upperCount the largest count inside the limits
     * @param lower lowerCount per unit of exposure
     * @param upper upperCount per unit of exposure
     * @param signal whether the count lies outside
     */
    public record Subgroup(
            @Nullable Double rate,
            @Nullable Long lowerCount,
            @Nullable Long upperCount,
            @Nullable Double lower,
            @Nullable Double upper,
            ChartSignal signal) {

        private static Subgroup of(Rate period, ControlLimits limits) {
            return new Subgroup(
                    period.estimate(),
                    limits.lowerCount(),
                    limits.upperCount(),
                    limits.lower(period.exposure()),
                    limits.upper(period.exposure()),
                    period.exposure() == 0 ? ChartSignal.NO_DATA : limits.signal(period.events()));
        }
    }

    /** The chart about the rate of all its periods together; events without exposure do not enter it. */
    public static UChartAnalysis of(List<Rate> subgroups, double tailProbability) {
        List<Rate> used =
                subgroups.stream().filter(period -> period.exposure() > 0).toList();
        long events = used.stream().mapToLong(Rate::events).sum();
        double exposure = used.stream().mapToDouble(Rate::exposure).sum();
        return chart(subgroups, exposure == 0 ? null : events / exposure, tailProbability);
    }

    /**
     * The chart about a centre that was fixed beforehand: a frozen baseline or a target.
     *
     * <p>Valid for Poisson counts. Exact limits with a tail α on each side: u is the smallest integer with P(X&gt;u) ≤ α, l
     * the smallest with P(X≤l) ≥ α; a signal is x &gt; u or x &lt; l.
     *
     * <p>Edges: exposure 0: no point and no limits. l = 0: no lower limit. A centre of 0, which only the periods' own rate
     * can have: no limits.
     *
     * <p><b>Same as</b> R {@code qpois(alpha, u * t)} and {@code qpois(alpha, u * t, lower.tail = FALSE)}. Counts are exact
     * up to an expected 10⁷.
     *
     * <p>Limits of probability in place of three sigma: common practice, no single source.
     *
     * @param centre events per unit of exposure, above 0
     * @param tailProbability α in (0, 0.25]; 0.00135 by custom
     * @throws IllegalArgumentException if an argument is out of its range or not a number, or a period expects more than
     *     2³¹−1 events
     */
    public static UChartAnalysis of(List<Rate> subgroups, double centre, double tailProbability) {
        if (!(centre > 0 && centre <= Double.MAX_VALUE)) {
            throw new IllegalArgumentException("centre must be above 0, got " + centre);
        }
        return chart(subgroups, centre, tailProbability);
    }

    private static UChartAnalysis chart(List<Rate> subgroups, @Nullable Double centre, double tail) {
        ControlLimits.requireTail(tail);
        return new UChartAnalysis(
                centre,
                subgroups.stream()
                        .map(period -> Subgroup.of(period, limits(period, centre, tail)))
                        .toList(),
                ControlLimits.notes(
                        centre,
                        false,
                        subgroups.stream()
                                .filter(period -> period.exposure() > 0)
                                .mapToDouble(period -> centre == null ? 0 : period.exposure() * centre)));
    }

    private static ControlLimits limits(Rate period, @Nullable Double centre, double tail) {
        double expected = centre == null ? 0 : centre * period.exposure();
        return expected == 0 ? ControlLimits.NONE : ControlLimits.of(new PoissonDistribution(expected), tail);
    }
}
