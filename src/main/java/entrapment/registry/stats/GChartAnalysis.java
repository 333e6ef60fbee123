package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * Is the number of uneventful uses between events longer or shorter than chance explains?
 *
 * @param meanGap ḡ; {@code null} without a gap
 * @param pHat 1/(ḡ+1), the events per use that this mean implies
 * @param medianGap the centre line
 * @param threeSigma limits at three standard deviations, for comparison only: they alarm falsely on the long side
 * @param probability the default limits; no lower one unless events are so rare that a single short gap could signal
 * @param signals one for each gap, in the order given
 * @param notes why limits are missing, and what the chart cannot see
 */
public record GChartAnalysis(
        @Nullable Double meanGap,
        @Nullable Double pHat,
        @Nullable Long medianGap,
        Interval threeSigma,
        Limits probability,
        List<ChartSignal> signals,
        List<Note> notes) {

    /** Fewer gaps than this do not carry limits: dots only. */
    private static final int FEWEST_GAPS = 10;

    /**
     * The gaps that are neither short nor long.
     *
     * @param lower the smallest; {@code null} if none is too short
     * @param upper the largest; {@code null} without limits
     */
    public record Limits(@Nullable Long lower, @Nullable Long upper) {

        private static final Limits NONE = new Limits(null, null);
    }

    /**
     * A chart of gaps under the geometric distribution P(G&gt;g) = (1−p̂)^{g+1}.
     *
     * <p>Valid for independent uses in order, with p̂ = 1/(ḡ+1). With a tail α on each side: upper limit
     * ⌈log α/log(1−p̂)⌉−1, lower limit the smallest g with P(G≤g) ≥ α, centre the median ⌈log ½/log(1−p̂)⌉−1. Three sigma:
     * ḡ±3√(ḡ(ḡ+1)), the lower cut at 0 [1].
     *
     * <p>Edges: p̂ ≥ α, which is nearly always: no lower limit, so the chart shows improvement only, and the note says to use
     * the CUSUM for deterioration. Fewer than ten gaps: no limits, note {@code TOO_FEW_EVENTS}. ḡ = 0: median and upper
     * limit 0.
     *
     * <p><b>Same as</b> R {@code qgeom(alpha, p)} and {@code qgeom(alpha, p, lower.tail = FALSE)}. Limits are exact integers.
     *
     * <p>[1] Benneyan JC, Health Care Manag Sci 2001;4:305, doi:10.1023/A:1011846412909.
     *
     * @param gaps uneventful uses between consecutive events, each in [0, 2³¹−1]; the open gap since the last event does
     *     not belong here, it is a lower bound to be held against the upper limit
     * @param tailProbability α in (0, 0.25]; 0.00135 by custom
     */
    public static GChartAnalysis of(List<Long> gaps, double tailProbability) {
        ControlLimits.requireTail(tailProbability);
        gaps.forEach(gap -> Counts.require("gap", gap));
        if (gaps.isEmpty()) {
            return new GChartAnalysis(
                    null,
                    null,
                    null,
                    Interval.NOT_ESTIMABLE,
                    Limits.NONE,
                    List.of(),
                    List.of(new Note(NoteCode.TOO_FEW_EVENTS, "A gap needs two events; there is none yet.")));
        }
        double mean = gaps.stream().mapToDouble(Long::doubleValue).sum() / gaps.size();
        boolean enough = gaps.size() >= FEWEST_GAPS;
        Limits limits = enough ? limits(mean, tailProbability) : Limits.NONE;
        double threeSigma = 3 * FastMath.sqrt(mean * (mean + 1));
        return new GChartAnalysis(
                mean,
                1 / (mean + 1),
                quantile(FastMath.log(0.5), mean),
                enough ? new Interval(Math.max(0, mean - threeSigma), mean + threeSigma) : Interval.NOT_ESTIMABLE,
                limits,
                gaps.stream()
                        .map(gap -> ChartSignal.ofGap((double) gap, limits.lower(), limits.upper()))
                        .toList(),
                notes(enough, limits));
    }

    private static Limits limits(double mean, double tail) {
        long lower = quantile(FastMath.log1p(-tail), mean);
        return new Limits(lower == 0 ? null : lower, quantile(FastMath.log(tail), mean));
    }

    /** The smallest g with log P(G &gt; g) ≤ logTail, where log(1−p̂) = −log(1+1/ḡ). */
    private static long quantile(double logTail, double mean) {
        return mean == 0 ? 0 : (long) Math.max(0, IntegerSearch.ceiling(-logTail / FastMath.log1p(1 / mean)) - 1);
    }

    private static List<Note> notes(boolean enough, Limits limits) {
        List<Note> notes = new ArrayList<>();
        if (!enough) {
            notes.add(new Note(
                    NoteCode.TOO_FEW_EVENTS, "Fewer than ten gaps: the chart shows them, but cannot carry limits."));
        } else if (limits.lower() == null) {
            notes.add(new Note(
                    NoteCode.ONE_SIDED,
                    "No gap is short enough to signal, so this chart sees improvement only; use the CUSUM to watch for"
                            + " deterioration."));
        }
        return List.copyOf(notes);
    }
}
