package entrapment.registry.exports;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A figure as the page's script draws it: numbers on the scale of the axis, and the text that stands beside each, so that
 * no number is formatted twice; with the shapes and open ends that a slide has too.
 *
 * @param farthestRatio how far from 1 a logarithmic axis goes to each side; null for an even one, which takes in every number
 */
public record FigureView(
        Figure.Kind kind,
        @Nullable Double farthestRatio,
        String axis,
        String across,
        List<Item> items,
        List<Figure.Line> lines,
        List<Figure.Path> paths) {

    /**
     * A point with the texts that stand beside it.
     *
     * @param shape null where no point is drawn
     * @param openBelow whether an arrow at the lower end of the axis says that the item goes on
     * @param openAbove the same at the upper end
     */
    public record Item(
            String label,
            String series,
            @Nullable Long of,
            String counts,
            @Nullable Double value,
            @Nullable Double lower,
            @Nullable Double upper,
            Figure.Mark mark,
            Figure.@Nullable Shape shape,
            boolean openBelow,
            boolean openAbove,
            String text,
            String interval,
            String sentence) {}

    /** The figures of some exhibits in their order, null for one without. */
    public static List<@Nullable FigureView> of(List<Exhibit> exhibits, NumberMarks marks) {
        List<@Nullable FigureView> figures = new ArrayList<>();
        for (Exhibit exhibit : exhibits) {
            Figure figure = exhibit.figure();
            figures.add(figure == null ? null : of(figure, marks));
        }
        return figures;
    }

    private static FigureView of(Figure figure, NumberMarks marks) {
        Unit unit = figure.unit();
        Column column = Column.of("", Column.Kind.valueOf(unit.name()));
        return new FigureView(
                figure.kind(),
                figure.kind() == Figure.Kind.FOREST ? Figure.FARTHEST_RATIO : null,
                figure.axis(),
                figure.across(),
                figure.items().stream()
                        .map(item -> new Item(
                                item.label(),
                                item.series(),
                                item.of(),
                                marks.in(counts(item)),
                                onAxis(unit, item.estimate()),
                                onAxis(unit, item.lower()),
                                onAxis(unit, item.upper()),
                                item.mark(),
                                figure.shape(item).orElse(null),
                                figure.isOpenBelow(item),
                                figure.isOpenAbove(item),
                                marks.in(column.text(item.estimate())),
                                marks.in(column.text(new Limits(item.lower(), item.upper()))),
                                marks.in(item.sentence())))
                        .toList(),
                figure.lines().stream()
                        .map(line -> new Figure.Line(
                                marks.in(line.label()),
                                line.points().stream()
                                        .map(point -> new Figure.Point(point.x(), unit.onAxis(point.y())))
                                        .toList()))
                        .toList(),
                figure.paths());
    }

    private static @Nullable Double onAxis(Unit unit, @Nullable Double value) {
        return value == null ? null : Double.valueOf(unit.onAxis(value));
    }

    private static String counts(Figure.Item item) {
        Column column = Column.of("", Column.Kind.COUNT);
        Long events = item.events();
        Long of = item.of();
        return events == null
                ? of == null ? "" : "of " + column.text(of)
                : of == null ? column.text(events) : column.text(events) + " of " + column.text(of);
    }
}
