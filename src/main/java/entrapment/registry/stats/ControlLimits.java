package entrapment.registry.stats;

import java.util.List;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;

/**
 * The counts between which a period's count is expected to lie, each side missed with a probability of at most the tail.
 *
 * @param lowerCount the smallest l with P(X ≤ l) ≥ tail; {@code null} if that is 0, since no count lies below it
 * @param upperCount the smallest u with P(X &gt; u) ≤ tail; {@code null} without limits
 */
record ControlLimits(@Nullable Long lowerCount, @Nullable Long upperCount) {

    /** For a period without exposure, or a centre line at the edge of its range. */
    static final ControlLimits NONE = new ControlLimits(null, null);

    private static final double HIGHEST_TAIL = 0.25;
    /** Below one expected event a period's count is nearly always 0 or 1 and no limit can mean much. */
    private static final double LEAST_EXPECTED = 1;

    static ControlLimits of(CountDistribution distribution, double tail) {
        long lower = distribution.lowerCount(tail);
        return new ControlLimits(lower == 0 ? null : lower, distribution.upperCount(tail));
    }

    /** @throws IllegalArgumentException unless the tail on each side is in (0, 0.25] */
    static void requireTail(double tail) {
        if (!(tail > 0 && tail <= HIGHEST_TAIL)) {
            throw new IllegalArgumentException("tail probability must be in (0, " + HIGHEST_TAIL + "], got " + tail);
        }
    }

    ChartSignal signal(long events) {
        return upperCount != null && events > upperCount
                ? ChartSignal.HIGH
                : lowerCount != null && events < lowerCount ? ChartSignal.LOW : ChartSignal.NONE;
    }

    @Nullable
    Double lower(double exposure) {
        return lowerCount == null ? null : lowerCount / exposure;
    }

    @Nullable
    Double upper(double exposure) {
        return upperCount == null ? null : upperCount / exposure;
    }

    /** @param expected the expected count of each period with exposure */
    static List<Note> notes(@Nullable Double centre, boolean full, DoubleStream expected) {
        if (centre == null) {
            return List.of(new Note(NoteCode.NO_EXPOSURE, "Nothing was observed, so there is no chart."));
        }
        if (centre == 0) {
            return List.of(new Note(
                    NoteCode.NO_EVENT, "No event in any period: limits need a baseline or target that had events."));
        }
        if (full) {
            return List.of(
                    new Note(NoteCode.BOUNDARY, "Every observation had the event: the chart has no limits to draw."));
        }
        long small = expected.filter(count -> count < LEAST_EXPECTED).count();
        if (small > 0) {
            return List.of(new Note(
                    NoteCode.TOO_FEW_EVENTS,
                    "Fewer than one event is expected in " + small + (small == 1 ? " period" : " periods")
                            + ": merge periods, or use a chart of the gaps between events or a CUSUM."));
        }
        return List.of();
    }
}
