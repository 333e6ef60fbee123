package entrapment.registry.stats;

import java.util.List;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;

/** What the reader of a chart of counts must be told. */
final class ChartNotes {

    /** Below one expected event a period's count is nearly always 0 or 1 and no limit can mean much. */
    private static final double LEAST_EXPECTED = 1;

    private ChartNotes() {}

    /** @param expected the expected count of each period with exposure */
    static List<Note> of(@Nullable Double centre, boolean full, DoubleStream expected) {
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
