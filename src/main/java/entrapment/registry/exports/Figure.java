package entrapment.registry.exports;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What is drawn: the same on a page and on a slide, which ask here for the shape of each point and for what is beyond the
 * axis. Proportions are in [0, 1]; {@link Unit#onAxis} scales them.
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

    /**
     * How far from 1 an axis of ratios goes, to each side: from 0.01 to 100. A power of ten, because the axis of a slide has
     * to end at one; and the next, a thousand, would leave a doubling a twentieth of the width. What is beyond is hardly
     * known, and the table has it in full.
     */
    public static final double FARTHEST_RATIO = 100;

    public Figure {
        items = List.copyOf(items);
        lines = List.copyOf(lines);
        paths = List.copyOf(paths);
    }

    /** A point with its interval for each item, without further lines. */
    public static Figure intervals(Unit unit, String axis, List<Item> items) {
        return new Figure(Kind.INTERVALS, unit, axis, "", items, List.of(), List.of());
    }

    /** The names of the series in their order; one of them, empty, where items have none. */
    public List<String> series() {
        return items.stream().map(Item::series).distinct().toList();
    }

    /** The marks that the shapes of its points tell, without {@link Mark#NONE}. */
    public List<Mark> marks() {
        return Stream.of(Mark.values())
                .filter(mark -> mark != Mark.NONE && !shapesTellSeries())
                .filter(mark -> items.stream()
                        .anyMatch(item -> item.mark == mark && shape(item).isPresent()))
                .toList();
    }

    /**
     * The shape of an item's point: that of its series where intervals are of several, so that its mark is told by a word,
     * else that of its mark. None where no point is drawn: there is no estimate, it is beyond the axis and an arrow stands for
     * it, or the figure has bars or ways.
     */
    public Optional<Shape> shape(Item item) {
        boolean points = hasIntervals() || kind == Kind.CONTROL || kind == Kind.FUNNEL;
        if (!points || item.estimate == null || isBelowAxis(item.estimate) || isAboveAxis(item.estimate)) {
            return Optional.empty();
        }
        return Optional.of(shapesTellSeries() ? Shape.ofSeries(series().indexOf(item.series)) : item.mark.shape);
    }

    /** Whether an item is drawn with an arrow at the lower end of the axis: its interval or its estimate goes on below it. */
    public boolean isOpenBelow(Item item) {
        return hasIntervals() && (isBelowAxis(item.estimate) || (item.upper != null && isBelowAxis(item.lower)));
    }

    /** Whether an item is drawn with an arrow at the upper end of the axis. */
    public boolean isOpenAbove(Item item) {
        return hasIntervals() && (isAboveAxis(item.estimate) || (item.lower != null && isAboveAxis(item.upper)));
    }

    /** Whether any item is drawn with an arrow. */
    public boolean hasArrows() {
        return items.stream().anyMatch(item -> isOpenBelow(item) || isOpenAbove(item));
    }

    private boolean shapesTellSeries() {
        return hasIntervals() && series().size() > 1;
    }

    private boolean hasIntervals() {
        return kind == Kind.INTERVALS || kind == Kind.FOREST;
    }

    private boolean isBelowAxis(@Nullable Double value) {
        return value != null && kind == Kind.FOREST && value < 1 / FARTHEST_RATIO;
    }

    private boolean isAboveAxis(@Nullable Double value) {
        return value != null && value > (kind == Kind.FOREST ? FARTHEST_RATIO : Double.MAX_VALUE);
    }

    /** How a figure is drawn. */
    public enum Kind {
        /** A point with its interval for each item, one under another. */
        INTERVALS,
        /** As intervals, of ratios, on a logarithmic scale around 1. */
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

    /** The shape of a point: those that Office draws filled, each told from the others in black and white. */
    public enum Shape {
        CIRCLE("●"),
        SQUARE("■"),
        DIAMOND("◆"),
        TRIANGLE("▲");

        private final String sign;

        Shape(String sign) {
            this.sign = sign;
        }

        /** The shape as a character, for the key of a figure. */
        public String sign() {
            return sign;
        }

        /** The shape of a series by its place, from 0; the fifth looks like the first. */
        public static Shape ofSeries(int series) {
            return values()[series % values().length];
        }
    }

    /** What is special about an item; never told by colour alone. */
    public enum Mark {
        NONE(Shape.CIRCLE),
        /** Above its upper limit. */
        HIGH(Shape.TRIANGLE),
        /** Below its lower limit. */
        LOW(Shape.SQUARE),
        /** Of the viewer's own centre. */
        OWN(Shape.DIAMOND);

        private final Shape shape;

        Mark(Shape shape) {
            this.shape = shape;
        }

        /** The shape of its points where a figure has one series. */
        public Shape shape() {
            return shape;
        }
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
