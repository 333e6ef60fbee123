package entrapment.registry.exports.slides;

import static entrapment.registry.TestBrowser.Look.DESK;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import entrapment.registry.BrowserTest;
import entrapment.registry.TestBrowser;
import entrapment.registry.TestNetwork;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Figure.Item;
import entrapment.registry.exports.Figure.Kind;
import entrapment.registry.exports.Figure.Mark;
import entrapment.registry.exports.Figure.Shape;
import entrapment.registry.exports.FigureView;
import entrapment.registry.exports.NumberMarks;
import entrapment.registry.exports.Unit;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeSet;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.poi.xslf.usermodel.XMLSlideShow;
import org.apache.poi.xslf.usermodel.XSLFChart;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTLineSer;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTMarker;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTPlotArea;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTScatterSer;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTSerTx;
import org.openxmlformats.schemas.drawingml.x2006.chart.STMarkerStyle;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A page and a slide draw the same figure: read back from the picture of the one and from the chart of the other. */
@BrowserTest
class PageAndSlideTests {

    private static final double INFINITE = Double.POSITIVE_INFINITY;

    private static final List<Mark> MARKS = List.of(Mark.values());

    /** At, just within and beyond the ends of an axis of ratios, and none. */
    private static final List<@Nullable Double> ESTIMATES =
            Arrays.asList(null, 0.0, 0.0099, 0.01, 0.7, 100.0, 100.1, INFINITE);

    private static final List<Double> LOWER = List.of(0.0, 0.0099, 0.01, 0.6, 101.0);
    private static final List<Double> UPPER = List.of(0.009, 0.9, 100.0, 100.1, INFINITE);

    /** Shapes by their outline, whatever their size, and arrows by the side on which their tip is. */
    private static final String READ = """
            () => {
              const outlines = { CIRCLE: d3.symbolCircle, SQUARE: d3.symbolSquare, DIAMOND: d3.symbolDiamond, TRIANGLE: d3.symbolTriangle };
              const shapeOf = (path) =>
                Object.keys(outlines).find((one) => [12, 62, 120].some((size) => d3.symbol(outlines[one], size)() === path.getAttribute('d')));
              const side = (arrow) => {
                const box = arrow.getBBox();
                return parseFloat(arrow.getAttribute('d').slice(1)) < box.x + box.width / 2 ? 'below' : 'above';
              };
              return [...document.querySelectorAll('figure.sample')].map((figure) =>
                [...figure.querySelectorAll('.point')].map((point) => ({
                  item: point.getAttribute('aria-label').split(' · ')[0],
                  interval: point.querySelector('line.interval[x1][x2]:not([y1])') !== null,
                  arrows: [...point.querySelectorAll('.arrow')].map(side).sort(),
                  shapes: [...point.querySelectorAll('.mark')].map((mark) => shapeOf(mark) ?? mark.getAttribute('d')),
                })));
            }
            """;

    private static final String DRAW = """
            (count) => {
              for (let index = 0; index < count; index++) {
                const figure = document.createElement('figure');
                figure.className = 'chart sample';
                Object.assign(figure.dataset, { figures: '/questions/incidence/figures?samples', index, name: 'sample' });
                const drawing = document.createElement('div');
                drawing.className = 'drawing';
                Object.assign(drawing.dataset, { high: 'above', low: 'below', own: 'own centre', none: 'not estimable' });
                figure.append(drawing);
                document.querySelector('main').append(figure);
              }
              document.dispatchEvent(new Event('htmx:afterSwap'));
            }
            """;

    @Autowired
    private TestNetwork network;

    @Autowired
    private TestBrowser browser;

    @Autowired
    private JsonMapper json;

    /** What is drawn of an item: its interval, the arrows at its ends, and its point. */
    private record Drawn(
            boolean interval,
            boolean openBelow,
            boolean openAbove,
            @Nullable Shape shape) {}

    @Test
    void drawTheSamePointsAndTheSameOpenEnds() throws IOException {
        List<Slide> slides = samples();
        List<Map<String, Drawn>> onPage = onPage(slides);

        for (int number = 0; number < slides.size(); number++) {
            Map<String, Drawn> onSlide = onSlide(slides.get(number));
            assertThat(onPage.get(number)).as(slides.get(number).title()).isEqualTo(onSlide);
            assertThat(onSlide).as(slides.get(number).title()).isNotEmpty();
        }
        List<Drawn> all =
                onPage.stream().flatMap(figure -> figure.values().stream()).toList();
        assertThat(all).extracting(Drawn::shape).contains(Shape.values());
        assertThat(all).anyMatch(Drawn::openBelow).anyMatch(Drawn::openAbove);
    }

    private static List<Slide> samples() {
        List<Slide> slides = new ArrayList<>(List.of(
                DeckSamples.incidence(),
                DeckSamples.series(),
                DeckSamples.forest(),
                DeckSamples.narrowForest(),
                DeckSamples.control(),
                DeckSamples.funnel()));
        for (Kind kind : List.of(Kind.FOREST, Kind.INTERVALS)) {
            for (int series : new int[] {1, 5}) {
                for (Double lower : LOWER) {
                    slides.add(slide(kind, kind + " from " + lower + " in " + series, ends(lower, series)));
                }
            }
        }
        slides.add(slide(Kind.CONTROL, "control", marks()));
        slides.add(slide(Kind.FUNNEL, "funnel", marks()));
        return slides;
    }

    /** Every estimate, with an upper end and a mark that change from one to the next; one without an interval. */
    private static List<Item> ends(double lower, int series) {
        List<Item> items = new ArrayList<>();
        // As many as a slide has room for.
        for (int number = 0; number < (series == 1 ? 16 : 12); number++) {
            double upper = Math.max(lower, UPPER.get(number % UPPER.size()));
            boolean interval = number % 7 != 6;
            items.add(DeckSamples.item(
                    "item " + number / series,
                    series == 1 ? "" : "series " + number % series,
                    null,
                    null,
                    ESTIMATES.get(number % ESTIMATES.size()),
                    interval ? lower : null,
                    interval ? upper : null,
                    MARKS.get(number / ESTIMATES.size() + 2 * (number % 2))));
        }
        return items;
    }

    private static List<Item> marks() {
        return IntStream.range(0, 12)
                .mapToObj(number -> DeckSamples.item(
                        "item " + number,
                        "",
                        number + 1L,
                        100L + 10L * number,
                        number == 7 ? null : 0.1 + 0.01 * number,
                        null,
                        null,
                        MARKS.get(number % MARKS.size())))
                .toList();
    }

    private static Slide slide(Kind kind, String title, List<Item> items) {
        Unit unit = kind == Kind.FOREST ? Unit.RATIO : kind == Kind.INTERVALS ? Unit.NUMBER : Unit.PERCENT;
        Figure figure = new Figure(kind, unit, "axis", "across", items, List.of(), List.of());
        return DeckSamples.slide(title, "", DeckSamples.exhibit("Samples", figure));
    }

    private List<Map<String, Drawn>> onPage(List<Slide> slides) {
        List<@Nullable FigureView> views = FigureView.of(
                slides.stream()
                        .map(slide -> Objects.requireNonNull(slide.exhibit()))
                        .toList(),
                NumberMarks.of(Locale.ENGLISH));
        Page page = browser.signedIn(network.centre().analyst(), DESK);
        page.route(
                "**/figures?samples",
                route -> route.fulfill(new Route.FulfillOptions()
                        .setContentType("application/json")
                        .setBody(json.writeValueAsString(views))));
        page.navigate("/questions/incidence");
        page.evaluate(DRAW, slides.size());
        TestBrowser.awaitFigures(page);

        List<Map<String, Drawn>> figures = new ArrayList<>();
        for (JsonNode figure : json.valueToTree(page.evaluate(READ))) {
            Map<String, Drawn> items = new LinkedHashMap<>();
            for (JsonNode point : figure) {
                String shapes = point.required("shapes").toString().replaceAll("[\\[\\]\"]", "");
                String arrows = point.required("arrows").toString();
                items.put(
                        point.required("item").asString(),
                        new Drawn(
                                point.required("interval").asBoolean(),
                                arrows.contains("below"),
                                arrows.contains("above"),
                                shapes.isEmpty() ? null : Shape.valueOf(shapes)));
            }
            figures.add(items);
        }
        return figures;
    }

    private static Map<String, Drawn> onSlide(Slide slide) throws IOException {
        Figure figure =
                Objects.requireNonNull(Objects.requireNonNull(slide.exhibit()).figure());
        byte[] file = PptxWriter.write(DeckSamples.deck(false, slide));
        try (XMLSlideShow show = new XMLSlideShow(new ByteArrayInputStream(file))) {
            CTPlotArea plot = show.getSlides().get(0).getRelations().stream()
                    .filter(XSLFChart.class::isInstance)
                    .map(chart -> ((XSLFChart) chart).getCTChart().getPlotArea())
                    .findFirst()
                    .orElseThrow();
            return switch (figure.kind()) {
                case INTERVALS, FOREST -> intervals(plot, figure);
                case CONTROL -> control(plot, figure);
                case FUNNEL -> funnel(plot, figure);
                case SHARES, FLOW -> throw new IllegalArgumentException("has no points");
            };
        }
    }

    /** Items stand one below another, so each is told by its height. */
    private static Map<String, Drawn> intervals(CTPlotArea plot, Figure figure) {
        TreeSet<Double> heights = new TreeSet<>(Collections.reverseOrder());
        Map<String, List<Double>> byName = new HashMap<>();
        Map<Double, Shape> shapes = new HashMap<>();
        for (CTScatterSer series : plot.getScatterChartArray(0).getSerList()) {
            String name = name(series.getTx()).replaceFirst("^intervals.*", "intervals");
            List<Double> up = values(series);
            Shape shape = shape(series.getMarker());
            if (shape != null) {
                up.forEach(height -> assertThat(shapes.put(height, shape)).isNull());
            }
            if (shape != null
                    || List.of("intervals", "open above", "open below", "not estimable")
                            .contains(name)) {
                byName.computeIfAbsent(name, one -> new ArrayList<>()).addAll(up);
                heights.addAll(up);
            }
        }
        assertThat(heights).hasSameSizeAs(figure.items());
        Map<String, Drawn> drawn = new LinkedHashMap<>();
        int number = 0;
        for (Double height : heights) {
            drawn.put(
                    key(figure.items().get(number++)),
                    new Drawn(
                            byName.getOrDefault("intervals", List.of()).contains(height),
                            byName.getOrDefault("open below", List.of()).contains(height),
                            byName.getOrDefault("open above", List.of()).contains(height),
                            shapes.get(height)));
        }
        return drawn;
    }

    private static Map<String, Drawn> control(CTPlotArea plot, Figure figure) {
        Map<String, Drawn> drawn = new LinkedHashMap<>();
        for (CTLineSer series : plot.getLineChartArray(0).getSerList()) {
            Shape shape = shape(series.getMarker());
            List<Long> without = series.getDPtList().stream()
                    .filter(point -> shape(point.getMarker()) == null)
                    .map(point -> point.getIdx().getVal())
                    .toList();
            if (shape != null) {
                series.getVal().getNumRef().getNumCache().getPtList().stream()
                        .filter(point -> !without.contains(point.getIdx()))
                        .forEach(point -> assertThat(drawn.put(
                                        key(figure.items().get((int) point.getIdx())),
                                        new Drawn(false, false, false, shape)))
                                .isNull());
            }
        }
        return drawn;
    }

    private static Map<String, Drawn> funnel(CTPlotArea plot, Figure figure) {
        Map<String, Drawn> drawn = new LinkedHashMap<>();
        for (CTScatterSer series : plot.getScatterChartArray(0).getSerList()) {
            Shape shape = shape(series.getMarker());
            for (double up : shape == null ? List.<Double>of() : values(series)) {
                Item item = figure.items().stream()
                        .filter(one -> one.estimate() != null
                                && ChartBuilder.onAxis(figure.unit(), Objects.requireNonNull(one.estimate())) == up)
                        .findFirst()
                        .orElseThrow();
                assertThat(drawn.put(key(item), new Drawn(false, false, false, shape)))
                        .isNull();
            }
        }
        return drawn;
    }

    private static String key(Item item) {
        return item.series().isEmpty() ? item.label() : item.label() + ", " + item.series();
    }

    private static String name(CTSerTx series) {
        return series.getStrRef().getStrCache().getPtArray(0).getV();
    }

    private static List<Double> values(CTScatterSer series) {
        return series.getYVal().getNumRef().getNumCache().getPtList().stream()
                .map(point -> Double.valueOf(point.getV()))
                .toList();
    }

    private static @Nullable Shape shape(CTMarker marker) {
        STMarkerStyle.Enum symbol = marker.getSymbol().getVal();
        return symbol == STMarkerStyle.NONE
                ? null
                : Stream.of(Shape.values())
                        .filter(shape -> shape.name().equalsIgnoreCase(symbol.toString()))
                        .findFirst()
                        .orElseThrow();
    }
}
