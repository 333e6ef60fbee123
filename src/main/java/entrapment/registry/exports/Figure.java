package entrapment.registry.exports;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is drawn: the same on a page and on a slide. Proportions are in [0, 1]; {@link Unit#onAxis} scales them.
 *
 * @param kind how it is drawn
 * @param unit of the estimates and of every limit
 * @param axis what the axis of the estimates says, with unit
 * @param across what the other axis says; empty where its labels say it
 * @param items the points, in the order shown
 * @param lines reference and limit lines
 * @param paths what was tried after what; empty but for a flow
 */
public record Figure(
        Kind kind, Unit unit, String axis, String across, List<Item> items, List<Line> lines, List<Path> paths) {

    public Figure {
        items = List.copyOf(items);
        lines = List.copyOf(lines);
        paths = List.copyOf(paths);
    }

    /** How a figure is drawn. */
    public enum Kind {
        /** A point with its interval for each item, one under another. */
        INTERVALS,
        /** As intervals, of ratios, on a logarithmic scale around 1; an infinite end is drawn open. */
        FOREST,
        /** A value for each period or event in their order, with limits and signals; an item's limits are control limits. */
        CONTROL,
        /** A point for each centre by its uses, within curves of limits. */
        FUNNEL,
        /** Bars of 100 %, a share for each series. */
        SHARES,
        /** What was tried after what. */
        FLOW
    }

    /** What is special about an item; never told by colour alone. */
    public enum Mark {
        NONE,
        /** Above its upper limit. */
        HIGH,
        /** Below its lower limit. */
        LOW,
        /** Of the viewer's own centre. */
        OWN
    }

    /**
     * One point with its numbers, and one row of a deck's CSV.
     *
     * @param label what it is about
     * @param series which of several points of the same label; empty where there is one
     * @param events the numerator, null where there is none or it is hidden
     * @param of the denominator, null where there is none
     * @param estimate null where not estimable
     * @param lower null where there is none
     * @param upper null where there is none; infinite where it is open
     * @param sentence the same in words; may be empty
     */
    public record Item(
            String label,
            String series,
            @Nullable Long events,
            @Nullable Long of,
            @Nullable Double estimate,
            @Nullable Double lower,
            @Nullable Double upper,
            Mark mark,
            String sentence) {}

    /**
     * A line across the figure: level where it has one point, otherwise through its points.
     *
     * @param label written at its end
     * @param points from left to right, x as of the items (of a funnel: uses), y as of the estimates
     */
    public record Line(String label, List<Point> points) {

        public Line {
            points = List.copyOf(points);
        }

        /** A level line. */
        public static Line at(String label, double value) {
            return new Line(label, List.of(new Point(0, value)));
        }
    }

    /** One point of a line. */
    public record Point(double x, double y) {}

    /**
     * Techniques in the order tried, with how many cases went that way.
     *
     * @param steps labels of the techniques
     * @param result label of what the last one brought
     */
    public record Path(List<String> steps, String result, long cases) {

        public Path {
            steps = List.copyOf(steps);
        }
    }
}
