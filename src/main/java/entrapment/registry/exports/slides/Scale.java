package entrapment.registry.exports.slides;

import entrapment.registry.exports.Figure;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/**
 * Where an axis begins and ends. Set by hand: what a program chooses by itself leaves intervals out and cuts them.
 *
 * @param step between two numbers of a linear axis
 * @param base of a logarithmic axis, 0 for a linear one
 */
record Scale(double min, double max, double step, int base) {

    private static final double STEPS = 5;

    /** Up to this ratio of the ends, doublings are marked; beyond it powers of ten. */
    private static final double DOUBLINGS = 64;

    private static final double HAIR = 1e-6;

    /** From 0, or from below it where a value is, to a round number above every value. Infinite ones are left out. */
    static Scale linear(List<Double> values) {
        double highest = finite(values).max().orElse(1);
        double lowest = Math.min(0, finite(values).min().orElse(0));
        double span = Math.max(highest, 0) - lowest;
        double step = round((span == 0 ? 1 : span) / STEPS);
        return new Scale(
                Math.floor(lowest / step + 1e-9) * step, Math.max(1, Math.ceil(highest / step - 1e-9)) * step, step, 0);
    }

    /** Powers around 1 and every value that an axis of ratios shows; the farthest ratio is a power of ten, so it ends there. */
    static Scale logarithmic(List<Double> values) {
        List<Double> drawn = finite(values)
                .filter(value -> value > 0)
                .map(value -> Math.min(Figure.FARTHEST_RATIO, Math.max(1 / Figure.FARTHEST_RATIO, value)))
                .boxed()
                .toList();
        double lowest = drawn.stream().mapToDouble(Double::doubleValue).min().orElse(1);
        double highest = drawn.stream().mapToDouble(Double::doubleValue).max().orElse(1);
        int base = Math.max(highest, 1) / Math.min(lowest, 1) <= DOUBLINGS ? 2 : 10;
        double below = Math.min(-1, Math.floor(Math.log(lowest) / Math.log(base) + 1e-9));
        double above = Math.max(1, Math.ceil(Math.log(highest) / Math.log(base) - 1e-9));
        return new Scale(Math.pow(base, below), Math.pow(base, above), base, base);
    }

    /** How far along the axis a value stands, from 0 to 1 between the ends. */
    double along(double value) {
        return base == 0
                ? (value - min) / (max - min)
                : (Math.log(value) - Math.log(min)) / (Math.log(max) - Math.log(min));
    }

    /** A hair inside the lower end: on a logarithmic axis what stands at the end may be taken to be beyond it. */
    double first() {
        return base == 0 ? min : min * (1 + HAIR);
    }

    /** A hair inside the upper end. */
    double last() {
        return base == 0 ? max : max * (1 - HAIR);
    }

    private static DoubleStream finite(List<Double> values) {
        return values.stream().mapToDouble(Double::doubleValue).filter(Double::isFinite);
    }

    private static double round(double step) {
        double power = Math.pow(10, Math.floor(Math.log10(step)));
        for (double nice : new double[] {1, 2, 2.5, 5}) {
            if (step <= nice * power * (1 + 1e-9)) {
                return nice * power;
            }
        }
        return 10 * power;
    }

    /**
     * Heights near those given, in their order, but far enough from each other and on the axis.
     *
     * @param heights in numbers of the axis
     * @param length of the axis in points, the unit of type
     * @param least distance in the same unit
     */
    List<Double> apart(List<Double> heights, double length, double least) {
        double gap = least * (max - min) / length;
        Integer[] order = IntStream.range(0, heights.size()).boxed().toArray(Integer[]::new);
        Arrays.sort(order, Comparator.comparing(heights::get));
        double[] moved = heights.stream().mapToDouble(Double::doubleValue).toArray();
        // Each round halves what is missing between two neighbours, so that a group stays around its middle.
        for (int round = 0; round < 100; round++) {
            for (int place = 1; place < order.length; place++) {
                double missing = gap - (moved[order[place]] - moved[order[place - 1]]);
                if (missing > 0) {
                    moved[order[place]] += missing / 2;
                    moved[order[place - 1]] -= missing / 2;
                }
            }
        }
        double floor = min;
        for (int place = 0; place < order.length; place++) {
            moved[order[place]] = Math.max(moved[order[place]], floor);
            floor = moved[order[place]] + gap;
        }
        double ceiling = max;
        for (int place = order.length - 1; place >= 0; place--) {
            moved[order[place]] = Math.min(moved[order[place]], ceiling);
            ceiling = moved[order[place]] - gap;
        }
        return Arrays.stream(moved).boxed().toList();
    }
}
