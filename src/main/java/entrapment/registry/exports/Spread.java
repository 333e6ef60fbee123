package entrapment.registry.exports;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/** Moves names apart that would stand on each other. */
final class Spread {

    private Spread() {}

    /**
     * Heights near those given, in their order, but far enough from each other.
     *
     * @param heights in numbers of the axis
     * @param span of the axis
     * @param points how high the axis is
     * @param least distance in points
     */
    static List<Double> apart(List<Double> heights, double span, double points, double least) {
        double gap = least * span / points;
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
        return Arrays.stream(moved).boxed().toList();
    }
}
