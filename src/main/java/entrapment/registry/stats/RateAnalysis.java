package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How many events per so much exposure, and between which values may the true rate lie?
 *
 * @param rate events per {@code per} units of exposure; {@code null} without exposure
 * @param garwood the default, exact interval on the same scale
 * @param byar its closed approximation on the same scale
 * @param notes why a figure is missing or held at an edge
 */
public record RateAnalysis(@Nullable Double rate, Interval garwood, Interval byar, List<Note> notes) {

    private static final double MOST_PER = 1e9;

    /**
     * A Poisson rate with both intervals.
     *
     * <p>Edges: exposure 0: all {@code null}, note {@code NO_EXPOSURE}. No event: note {@code NO_EVENT}.
     *
     * <p><b>Same as</b> R {@code per * poisson.test(events, exposure)$conf.int}. Accuracy: as {@link Rate#garwood}.
     *
     * @param per units of exposure that the rate refers to, in (0, 1e9]
     * @throws IllegalArgumentException if {@code per} is out of its range or not a number
     */
    public static RateAnalysis of(Rate rate, double per, Confidence confidence) {
        if (!(per > 0 && per <= MOST_PER)) {
            throw new IllegalArgumentException("per must be in (0, " + MOST_PER + "], got " + per);
        }
        Double estimate = rate.estimate();
        return new RateAnalysis(
                estimate == null ? null : estimate * per,
                rate.garwood(confidence).times(per),
                rate.byar(confidence).times(per),
                notes(rate));
    }

    private static List<Note> notes(Rate rate) {
        List<Note> notes = new ArrayList<>();
        if (rate.exposure() == 0) {
            notes.add(new Note(
                    NoteCode.NO_EXPOSURE,
                    rate.events() == 0
                            ? "There was no exposure, so no rate can be estimated."
                            : "There are events but no exposure; these counts contradict each other."));
        } else if (rate.events() == 0) {
            notes.add(new Note(
                    NoteCode.NO_EVENT,
                    "No event does not mean no risk: the upper limit says how high the true rate may still be."));
        }
        return List.copyOf(notes);
    }
}
