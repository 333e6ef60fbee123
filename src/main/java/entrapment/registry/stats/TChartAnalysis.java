package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * Is the time between events longer or shorter than chance explains? Only where the number of uses is unknown: it takes
 * for granted that the device is used at an even pace.
 *
 * @param meanTime t̄; {@code null} without a time
 * @param nelson limits on Nelson's transformed scale, back in units of time
 * @param exponential the default limits
 * @param signalsExponential one for each time, in the order given
 * @param notes why limits are missing, and what the chart takes for granted
 */
public record TChartAnalysis(
        @Nullable Double meanTime,
        Nelson nelson,
        Exponential exponential,
        List<ChartSignal> signalsExponential,
        List<Note> notes) {

    private static final int FEWEST_TIMES = 10;
    private static final double LONGEST = 1e9;

    /** Nelson's power: t^(1/3.6) of an exponential time is nearly normal. */
    private static final double NELSON_POWER = 3.6;

    /** 3/d₂ for moving ranges of two: 3/1.128. */
    private static final double MOVING_RANGE_FACTOR = 2.66;

    /**
     * An individuals chart of y = t^(1/3.6).
     *
     * @param centre ȳ, back-transformed
     * @param lower ȳ−2.66·mean moving range, cut at 0, back-transformed
     * @param upper ȳ+2.66·mean moving range, back-transformed
     * @param meanMovingRange of y, on the transformed scale
     */
    public record Nelson(
            @Nullable Double centre,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double meanMovingRange) {

        private static final Nelson NONE = new Nelson(null, null, null, null);
    }

    /**
     * Quantiles of the exponential distribution.
     *
     * @param lower −t̄·log(1−α)
     * @param median t̄·log 2
     * @param upper −t̄·log α
     */
    public record Exponential(
            @Nullable Double lower,
            @Nullable Double median,
            @Nullable Double upper) {

        private static final Exponential NONE = new Exponential(null, null, null);
    }

    /**
     * A chart of times between consecutive events.
     *
     * <p>Valid for exponential times, which an even pace of use implies. Limits as named on {@link Exponential}, with a tail α
     * on each side, and on {@link Nelson} [1].
     *
     * <p>Edges: a time of 0 (two events on one day) is kept. Fewer than ten times, or none above 0: no limits, note
     * {@code TOO_FEW_EVENTS}.
     *
     * <p><b>Same as</b> R {@code qexp(c(alpha, 0.5, 1 - alpha), 1 / mean(t))}. Accuracy: relative 1e-14.
     *
     * <p>[1] Nelson LS, J Qual Technol 1994;26:239.
     *
     * @param times each in [0, 1e9], in any unit
     * @param tailProbability α in (0, 0.25]; 0.00135 by custom
     * @throws IllegalArgumentException if an argument is out of its range or not a number
     */
    public static TChartAnalysis of(List<Double> times, double tailProbability) {
        ControlLimits.requireTail(tailProbability);
        times.forEach(TChartAnalysis::require);
        double mean = times.isEmpty()
                ? 0
                : times.stream().mapToDouble(Double::doubleValue).sum() / times.size();
        boolean enough = times.size() >= FEWEST_TIMES && mean > 0;
        Exponential exponential = enough ? exponential(mean, tailProbability) : Exponential.NONE;
        return new TChartAnalysis(
                times.isEmpty() ? null : mean,
                enough ? nelson(times) : Nelson.NONE,
                exponential,
                times.stream()
                        .map(gap -> ChartSignal.ofGap(gap, exponential.lower(), exponential.upper()))
                        .toList(),
                notes(enough));
    }

    private static void require(double time) {
        if (!(time >= 0 && time <= LONGEST)) {
            throw new IllegalArgumentException("time must be in [0, " + LONGEST + "], got " + time);
        }
    }

    private static Exponential exponential(double mean, double tail) {
        return new Exponential(-mean * FastMath.log1p(-tail), mean * FastMath.log(2), -mean * FastMath.log(tail));
    }

    private static Nelson nelson(List<Double> times) {
        double[] y = times.stream()
                .mapToDouble(time -> FastMath.pow(time, 1 / NELSON_POWER))
                .toArray();
        double sum = y[0];
        double ranges = 0;
        for (int i = 1; i < y.length; i++) {
            sum += y[i];
            ranges += Math.abs(y[i] - y[i - 1]);
        }
        double mean = sum / y.length;
        double range = ranges / (y.length - 1);
        double distance = MOVING_RANGE_FACTOR * range;
        return new Nelson(back(mean), back(Math.max(0, mean - distance)), back(mean + distance), range);
    }

    private static double back(double y) {
        return FastMath.pow(y, NELSON_POWER);
    }

    private static List<Note> notes(boolean enough) {
        List<Note> notes = new ArrayList<>();
        if (!enough) {
            notes.add(new Note(
                    NoteCode.TOO_FEW_EVENTS,
                    "Fewer than ten times between events, or none above 0: the chart cannot carry limits."));
        }
        notes.add(new Note(
                NoteCode.APPROXIMATE,
                "Times between events stand for uses only if the device is used at an even pace."));
        return List.copyOf(notes);
    }
}
