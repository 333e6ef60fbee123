package entrapment.registry.exports.slides;

import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Figure.Item;
import entrapment.registry.exports.slides.Scatter.Spot;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.apache.poi.xddf.usermodel.PresetLineDash;
import org.jspecify.annotations.Nullable;
import org.openxmlformats.schemas.drawingml.x2006.chart.STDLblPos;

/** A point for each centre by its uses, within curves of limits. */
final class FunnelChart {

    private static final double LEFT = 52;
    private static final double TOP = 10;
    private static final double BOTTOM = 44;
    private static final double SIZE = 11;
    private static final double LINE_NAMES = 0.3;

    /** Limits of a small centre reach far above every centre; they may leave the plot at the top. */
    private static final double ABOVE_ESTIMATES = 1.6;

    /** With more points than this only the marked ones are named. */
    private static final int MOST_NAMES = 30;

    private static final PresetLineDash[] DASHES = {
        PresetLineDash.SOLID, PresetLineDash.DASH, PresetLineDash.DOT, PresetLineDash.DASH_DOT
    };

    /** Where the name of a point may stand, in the order tried. */
    private static final List<STDLblPos.Enum> SIDES = List.of(STDLblPos.R, STDLblPos.T, STDLblPos.B, STDLblPos.L);

    private final ChartBuilder builder;
    private final Figure figure;
    private final Scale across;
    private final Scale up;
    private final double right;

    private FunnelChart(ChartBuilder builder, Figure figure) {
        this.builder = builder;
        this.figure = figure;
        List<Double> estimates = drawn(figure).stream()
                .map(item -> value(Objects.requireNonNull(item.estimate())))
                .toList();
        double highest =
                estimates.stream().mapToDouble(Double::doubleValue).max().orElse(0);
        Stream<Double> limits = figure.lines().stream()
                .flatMap(line -> line.points().stream())
                .map(point -> Math.min(value(point.y()), highest * ABOVE_ESTIMATES));
        this.across = Scale.linear(drawn(figure).stream()
                .map(item -> (double) Objects.requireNonNull(item.of()))
                .toList());
        this.up = Scale.linear(Stream.concat(estimates.stream(), limits).toList());
        this.right = Math.min(
                builder.width * LINE_NAMES,
                12
                        + TextWidth.widest(
                                figure.lines().stream().map(Figure.Line::label).toList(), SIZE));
    }

    static void draw(ChartBuilder builder, Figure figure) {
        new FunnelChart(builder, figure).draw();
    }

    /** Those that have a place on the plot. */
    static List<Item> drawn(Figure figure) {
        return figure.items().stream()
                .filter(item -> item.of() != null && item.estimate() != null && Double.isFinite(item.estimate()))
                .toList();
    }

    private void draw() {
        builder.margins(LEFT, TOP, right, BOTTOM);
        Scatter scatter = new Scatter(builder);
        builder.scale(scatter.across, across);
        scatter.across.setNumberFormat("#,##0");
        builder.scale(scatter.up, up);
        builder.style(scatter.across, figure.across(), false);
        builder.style(scatter.up, figure.axis(), true);
        lines(scatter);
        for (Figure.Mark mark : Figure.Mark.values()) {
            List<Spot> spots = drawn(figure).stream()
                    .filter(item -> item.mark() == mark)
                    .map(this::spot)
                    .toList();
            if (!spots.isEmpty()) {
                scatter.points(
                        mark == Figure.Mark.NONE ? "estimate" : Marker.word(mark),
                        spots,
                        Marker.of(mark, builder.palette));
            }
        }
        names(scatter);
        scatter.done(false);
    }

    private void lines(Scatter scatter) {
        List<Spot> ends = new ArrayList<>();
        List<String> names = new ArrayList<>();
        List<String> kinds =
                figure.lines().stream().map(FunnelChart::kind).distinct().toList();
        for (Figure.Line line : figure.lines()) {
            PresetLineDash dash = DASHES[kinds.indexOf(kind(line)) % DASHES.length];
            List<Spot> spots = line.points().size() == 1
                    ? List.of(
                            new Spot(across.min(), value(line.points().get(0).y())),
                            new Spot(across.max(), value(line.points().get(0).y())))
                    : line.points().stream()
                            .map(point -> new Spot(point.x(), value(point.y())))
                            .filter(spot -> spot.x() <= across.max())
                            .toList();
            if (!spots.isEmpty()) {
                scatter.line(line.label(), spots, ChartBuilder.line(builder.palette.muted(), 1.5, dash));
                ends.add(spots.get(spots.size() - 1));
                names.add(TextWidth.cut(line.label(), SIZE, right - 12));
            }
        }
        List<Double> heights = up.apart(ends.stream().map(Spot::y).toList(), builder.height - TOP - BOTTOM, SIZE * 1.3);
        scatter.texts(
                "names of lines",
                java.util.stream.IntStream.range(0, ends.size())
                        .mapToObj(end -> new Spot(ends.get(end).x(), heights.get(end)))
                        .toList(),
                names,
                STDLblPos.R,
                SIZE,
                builder.palette.muted());
    }

    /** The upper and the lower limit of the same level are drawn alike. */
    private static String kind(Figure.Line line) {
        return line.points().size() == 1 ? "level" : line.label().replaceAll("(?i)upper|lower", "");
    }

    /** Names the marked ones first, then the others, largest first, where no other name or point is in the way. */
    private void names(Scatter scatter) {
        List<Rectangle2D> taken = new ArrayList<>();
        drawn(figure).forEach(item -> taken.add(box(item, null, "")));
        List<Item> byImportance = drawn(figure).stream()
                .filter(item -> item.mark() != Figure.Mark.NONE || drawn(figure).size() <= MOST_NAMES)
                .sorted(Comparator.comparing((Item item) -> item.mark() == Figure.Mark.NONE)
                        .thenComparing(item -> -Objects.requireNonNull(item.of())))
                .toList();
        for (Item item : byImportance) {
            String name = TextWidth.cut(item.label(), SIZE, builder.width * LINE_NAMES)
                    + (item.mark() == Figure.Mark.NONE ? "" : ", " + Marker.word(item.mark()));
            STDLblPos.@Nullable Enum side = SIDES.stream()
                    .filter(one -> isFree(box(item, one, name), taken))
                    .findFirst()
                    .orElse(item.mark() == Figure.Mark.NONE ? null : STDLblPos.T);
            if (side != null) {
                taken.add(box(item, side, name));
                scatter.texts(
                        "name of " + item.label(),
                        List.of(spot(item)),
                        List.of(name),
                        side,
                        SIZE,
                        builder.palette.text());
            }
        }
    }

    private boolean isFree(Rectangle2D box, List<Rectangle2D> taken) {
        return box.getMinX() >= LEFT
                && box.getMaxX() <= builder.width - right / 2
                && box.getMinY() >= TOP
                && box.getMaxY() <= builder.height - BOTTOM
                && taken.stream().noneMatch(box::intersects);
    }

    /** Roughly where a point, or its name at a side of it, stands on the chart. */
    private Rectangle2D box(Item item, STDLblPos.@Nullable Enum side, String name) {
        Spot spot = spot(item);
        double x = LEFT + across.along(spot.x()) * (builder.width - LEFT - right);
        double y = TOP + (1 - up.along(spot.y())) * (builder.height - TOP - BOTTOM);
        if (side == null) {
            return new Rectangle2D.Double(x - 4, y - 4, 8, 8);
        }
        double width = TextWidth.of(name, SIZE) + 4;
        double height = SIZE * 1.3;
        double left = side == STDLblPos.R ? x + 6 : side == STDLblPos.L ? x - 6 - width : x - width / 2;
        double top = side == STDLblPos.T ? y - 7 - height : side == STDLblPos.B ? y + 7 : y - height / 2;
        return new Rectangle2D.Double(left, top, width, height);
    }

    private Spot spot(Item item) {
        return new Spot(Objects.requireNonNull(item.of()), value(Objects.requireNonNull(item.estimate())));
    }

    private double value(double value) {
        return ChartBuilder.onAxis(figure.unit(), value);
    }
}
