package entrapment.registry.exports.slides;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/** Moves names apart that would stand on each other. */
final class LabelSpacing {

    private LabelSpacing() {}

    /**
     * Heights near those given, in their order, but far enough from each other and on the axis.
     *
     * @param heights in numbers of the axis
     * @param length of the axis in points, the unit of type
     * @param least distance in the same unit
     */
    static List<Double> apart(List<Double> heights, Scale axis, double length, double least) {
        double gap = least * (axis.max() - axis.min()) / length;
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
        double floor = axis.min();
        for (int place = 0; place < order.length; place++) {
            moved[order[place]] = Math.max(moved[order[place]], floor);
            floor = moved[order[place]] + gap;
        }
        double ceiling = axis.max();
        for (int place = order.length - 1; place >= 0; place--) {
            moved[order[place]] = Math.min(moved[order[place]], ceiling);
            ceiling = moved[order[place]] - gap;
        }
        return Arrays.stream(moved).boxed().toList();
    }
}
