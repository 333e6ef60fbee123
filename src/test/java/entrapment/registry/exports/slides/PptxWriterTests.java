package entrapment.registry.exports.slides;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.exports.Column;
import entrapment.registry.exports.Column.Kind;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Figure.Item;
import entrapment.registry.exports.Figure.Mark;
import entrapment.registry.exports.Unit;
import java.awt.geom.Rectangle2D;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.poi.openxml4j.opc.PackagePart;
import org.apache.poi.ss.SpreadsheetVersion;
import org.apache.poi.ss.util.AreaReference;
import org.apache.poi.xslf.usermodel.XMLSlideShow;
import org.apache.poi.xslf.usermodel.XSLFChart;
import org.apache.poi.xslf.usermodel.XSLFSlide;
import org.apache.poi.xslf.usermodel.XSLFTable;
import org.apache.poi.xslf.usermodel.XSLFTextShape;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.xmlbeans.XmlError;
import org.apache.xmlbeans.XmlOptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTAxDataSource;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTNumDataSource;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTPlotArea;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTScatterSer;
import org.openxmlformats.schemas.presentationml.x2006.main.CTGraphicalObjectFrame;

/** The file is read back by Apache POI and, where a rule is Office's own, held against the schemas of ECMA-376. */
class PptxWriterTests {

    /** One slide of each kind, written once. */
    private static final byte[] ALL = PptxWriter.write(DeckSamples.all(false));

    @Test
    void theSameDeckGivesTheSameBytes() {
        assertThat(PptxWriter.write(DeckSamples.all(false))).isEqualTo(ALL);
    }

    @Test
    void saysWhenItWasMadeAndByNobody() throws IOException {
        try (XMLSlideShow show = read(DeckSamples.deck(false, DeckSamples.incidence()))) {
            var about = show.getProperties().getCoreProperties();

            assertThat(about.getCreated().toInstant()).isEqualTo(DeckSamples.MADE);
            assertThat(about.getModified().toInstant()).isEqualTo(DeckSamples.MADE);
            assertThat(about.getTitle()).isEqualTo("Entrapment meeting, second quarter of 2031");
            assertThat(about.getLastModifiedByUser()).isNull();
        }
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void everyPartKeepsToTheSchemasOfOffice(boolean dark) throws IOException {
        List<XmlError> errors = new ArrayList<>();
        XmlOptions options = new XmlOptions().setErrorListener(errors);
        try (XMLSlideShow show = dark ? read(DeckSamples.all(true)) : read(ALL)) {
            for (XSLFSlide slide : show.getSlides()) {
                slide.getXmlObject().validate(options);
                slide.getNotes().getXmlObject().validate(options);
                charts(slide).forEach(chart -> chart.getCTChartSpace().validate(options));
            }
            show.getSlideMasters().get(0).getXmlObject().validate(options);
            show.getSlideMasters().get(0).getTheme().getXmlObject().validate(options);
        }

        assertThat(errors).isEmpty();
    }

    @Test
    void drawsNoPictureAndGivesEveryChartItsWorkbook() throws Exception {
        try (XMLSlideShow show = read(ALL)) {
            for (PackagePart part : show.getPackage().getParts()) {
                assertThat(part.getContentType())
                        .as(part.getPartName().getName())
                        .doesNotStartWith("image/");
            }
            assertThat(charts(show)).hasSize(13);
            for (XSLFChart chart : charts(show)) {
                assertThat(chart.getWorkbook().getSheet("Figure").getPhysicalNumberOfRows())
                        .isGreaterThan(1);
            }
        }
    }

    /** What an editor sees in the workbook is what the chart shows without opening it. */
    @Test
    void theWorkbookHasTheNumbersOfTheChart() throws Exception {
        try (XMLSlideShow show = read(ALL)) {
            for (XSLFChart chart : charts(show)) {
                XSSFSheet sheet = chart.getWorkbook().getSheet("Figure");
                for (CTNumDataSource source : sources(chart.getCTChart().getPlotArea())) {
                    String cells = source.getNumRef().getF();
                    int column = new AreaReference(cells, SpreadsheetVersion.EXCEL2007)
                            .getFirstCell()
                            .getCol();
                    for (var point : source.getNumRef().getNumCache().getPtList()) {
                        assertThat(sheet.getRow((int) point.getIdx() + 1)
                                        .getCell(column)
                                        .getNumericCellValue())
                                .as(cells)
                                .isEqualTo(Double.parseDouble(point.getV()));
                    }
                }
            }
        }
    }

    @Test
    void describesEveryChartAndTable() throws IOException {
        try (XMLSlideShow show = read(ALL)) {
            for (XSLFSlide slide : show.getSlides()) {
                for (CTGraphicalObjectFrame frame : frames(slide)) {
                    String description = frame.getNvGraphicFramePr().getCNvPr().getDescr();
                    assertThat(description).as(slide.getTitle()).hasSizeGreaterThan(30);
                }
            }
            assertThat(frames(show.getSlides().get(0))
                            .get(0)
                            .getNvGraphicFramePr()
                            .getCNvPr()
                            .getDescr())
                    .startsWith("Chart: Entrapment by kind of device. Across the network 54 of 13,230 uses")
                    .endsWith("8 points.");
        }
    }

    @Test
    void aTableHasTheTextOfItsColumns() throws IOException {
        Exhibit exhibit = Objects.requireNonNull(DeckSamples.forest().exhibit());
        try (XMLSlideShow show = read(DeckSamples.deck(false, DeckSamples.forest()))) {
            XSLFTable table = tables(show.getSlides().get(0)).get(0);

            assertThat(table.getNumberOfColumns()).isEqualTo(5);
            assertThat(table.getNumberOfRows()).isEqualTo(exhibit.rows().size() + 1);
            for (int column = 0; column < 5; column++) {
                assertThat(table.getCell(0, column).getText())
                        .isEqualTo(exhibit.columns().get(column).heading());
                for (int row = 0; row < exhibit.rows().size(); row++) {
                    assertThat(table.getCell(row + 1, column).getText())
                            .isEqualTo(exhibit.columns()
                                    .get(column)
                                    .text(exhibit.rows().get(row).get(column)));
                }
            }
            assertThat(table.getCell(10, 4).getText()).isEqualTo("9.00 to no upper limit");
        }
    }

    @Test
    void drawsEveryEstimateAndIntervalAsItsAxisShowsThem() throws IOException {
        Figure figure = figure(DeckSamples.incidence());
        try (XMLSlideShow show = read(DeckSamples.deck(false, DeckSamples.incidence()))) {
            CTPlotArea plot = plot(show);

            assertThat(values(scatter(plot, "estimate").getXVal()))
                    .containsExactlyElementsOf(onAxis(figure, Mark.NONE));
            assertThat(values(scatter(plot, "high").getXVal())).containsExactlyElementsOf(onAxis(figure, Mark.HIGH));
            assertThat(values(scatter(plot, "intervals").getXVal()))
                    .containsExactlyElementsOf(figure.items().stream()
                            .filter(item -> item.lower() != null)
                            .flatMap(item -> Stream.of(item.lower(), item.upper()))
                            .map(value -> ChartBuilder.onAxis(figure.unit(), Objects.requireNonNull(value)))
                            .toList());
            assertThat(plot.xmlText())
                    .contains(
                            "hydrophilic tip (12/4,031)", "ruptured (10/1,863), high", "not estimable", "network 4.1");
        }
    }

    @Test
    void anOpenIntervalRunsToTheEndOfItsAxisAndOnByAnArrow() throws IOException {
        try (XMLSlideShow show = read(DeckSamples.deck(false, DeckSamples.forest()))) {
            CTPlotArea plot = plot(show);
            List<Double> ends = values(scatter(plot, "intervals").getXVal());
            CTScatterSer arrow = scatter(plot, "open above");

            assertThat(plot.getValAxArray(0).getScaling().getLogBase().getVal()).isEqualTo(10);
            assertThat(plot.getValAxArray(0).getScaling().getMin().getVal()).isEqualTo(1 / Figure.FARTHEST_RATIO);
            assertThat(plot.getValAxArray(0).getScaling().getMax().getVal()).isEqualTo(Figure.FARTHEST_RATIO);
            assertThat(ends.get(ends.size() - 1)).isCloseTo(Figure.FARTHEST_RATIO, within(0.01));
            assertThat(values(arrow.getYVal()))
                    .hasSize(2)
                    .isSubsetOf(values(scatter(plot, "intervals").getYVal()));
            assertThat(scatter(plot, "open below").xmlText()).contains("◄");
            assertThat(arrow.xmlText()).contains("►");
            assertThat(values(scatter(plot, "no difference").getXVal())).containsExactly(1.0, 1.0);
        }
    }

    @Test
    void seriesHaveTheirOwnMarkerAndTheLegendNamesThemOnly() throws IOException {
        try (XMLSlideShow show = read(DeckSamples.deck(false, DeckSamples.series()))) {
            CTPlotArea plot = plot(show);
            var legend = charts(show).get(0).getCTChart().getLegend();
            long drawn = plot.getScatterChartArray(0).getSerList().size();

            assertThat(scatter(plot, "calcified lesions")
                            .getMarker()
                            .getSymbol()
                            .getVal())
                    .isNotEqualTo(scatter(plot, "other lesions")
                            .getMarker()
                            .getSymbol()
                            .getVal());
            assertThat(legend.getLegendEntryList()).hasSize((int) drawn - 2);
        }
    }

    @Test
    void aControlChartMarksSignalsByShapeAndWord() throws IOException {
        Figure figure = figure(DeckSamples.control());
        try (XMLSlideShow show = read(DeckSamples.deck(false, DeckSamples.control()))) {
            var series = plot(show).getLineChartArray(0).getSerList();
            var names = series.stream()
                    .map(one ->
                            one.getTx().getStrRef().getStrCache().getPtArray(0).getV())
                    .toList();

            assertThat(names).containsSubsequence("mean 4.4", "upper limit", "lower limit", "estimate", "high", "low");
            assertThat(values(series.get(names.indexOf("estimate")).getVal()))
                    .containsExactlyElementsOf(figure.items().stream()
                            .map(item -> ChartBuilder.onAxis(figure.unit(), Objects.requireNonNull(item.estimate())))
                            .toList());
            assertThat(values(series.get(names.indexOf("high")).getVal())).hasSize(1);
            assertThat(series.get(names.indexOf("high")).xmlText()).contains("<a:t>high</a:t>");
            assertThat(series.get(names.indexOf("high")).getMarker().getSymbol().getVal())
                    .isNotEqualTo(series.get(names.indexOf("estimate"))
                            .getMarker()
                            .getSymbol()
                            .getVal());
        }
    }

    @Test
    void aFunnelPutsEveryCentreAtItsUses() throws IOException {
        try (XMLSlideShow show = read(DeckSamples.deck(false, DeckSamples.funnel()))) {
            CTPlotArea plot = plot(show);

            assertThat(values(scatter(plot, "own centre").getXVal())).containsExactly(3_100.0);
            assertThat(values(scatter(plot, "own centre").getYVal())).containsExactly(4.193548387);
            assertThat(values(scatter(plot, "estimate").getXVal())).containsExactly(320.0, 900.0, 2_300.0, 5_160.0);
            assertThat(values(scatter(plot, "upper 95 % limit").getXVal())).hasSize(60);
            assertThat(plot.xmlText()).contains("Centre E, own centre", "Centre C, high", "network 4.6");
        }
    }

    @Test
    void aBarOfSharesIsNotStretchedWhereOneIsHidden() throws IOException {
        List<Item> items = List.of(
                DeckSamples.item("Burr", "whole", 5L, 10L, 0.5, null, null, Mark.NONE),
                DeckSamples.item("Burr", "in part", null, 10L, null, null, null, Mark.NONE));
        Figure figure = new Figure(Figure.Kind.SHARES, Unit.PERCENT, "%", "", items, List.of(), List.of());
        try (XMLSlideShow show =
                read(DeckSamples.deck(false, DeckSamples.slide("A", "B.", DeckSamples.exhibit("C", figure))))) {
            var bars = plot(show).getBarChartArray(0);

            assertThat(bars.getGrouping().getVal().toString()).isEqualTo("stacked");
            assertThat(plot(show).getValAxArray(0).getScaling().getMax().getVal())
                    .isEqualTo(100);
            assertThat(values(bars.getSerArray(0).getVal())).containsExactly(50.0);
            assertThat(values(bars.getSerArray(1).getVal())).isEmpty();
        }
    }

    @Test
    void anOrderOfTechniquesIsATable() throws IOException {
        try (XMLSlideShow show = read(DeckSamples.deck(false, DeckSamples.flow()))) {
            XSLFTable flow = tables(show.getSlides().get(0)).get(0);

            assertThat(charts(show)).isEmpty();
            assertThat(IntStream.range(0, 3)
                            .mapToObj(column -> flow.getCell(2, column).getText()))
                    .containsExactly("Twin-wire twist → Microcatheter exchange", "part left in the vessel", "38");
            assertThat(text(show.getSlides().get(0))).contains("Orders: the first 12 orders, and 3 more, in the CSV.");
        }
    }

    @ParameterizedTest
    @EnumSource(Figure.Kind.class)
    void saysThatThereIsNothingToDraw(Figure.Kind kind) throws IOException {
        try (XMLSlideShow show = read(DeckSamples.deck(true, DeckSamples.empty(kind)))) {
            assertThat(charts(show)).isEmpty();
            assertThat(text(show.getSlides().get(0))).contains("There is nothing to draw");
        }
    }

    @ParameterizedTest
    @EnumSource(value = Figure.Kind.class, mode = EnumSource.Mode.EXCLUDE, names = "FLOW")
    void drawsNothingWhereNoEstimateIsKnownButListsTheCounts(Figure.Kind kind) throws IOException {
        Figure figure = new Figure(
                kind,
                Unit.PERCENT,
                "%",
                "",
                List.of(DeckSamples.item("Coil", "", 0L, 0L, null, null, null, Mark.NONE)),
                List.of(),
                List.of());
        try (XMLSlideShow show =
                read(DeckSamples.deck(false, DeckSamples.slide("A", "", DeckSamples.exhibit("B", figure))))) {
            assertThat(charts(show)).isEmpty();
            assertThat(tables(show.getSlides().get(0)).get(0).getCell(1, 0).getText())
                    .isEqualTo("Coil");
        }
    }

    @ParameterizedTest
    @EnumSource(value = Figure.Kind.class, mode = EnumSource.Mode.EXCLUDE, names = "FLOW")
    void drawsOneItem(Figure.Kind kind) throws IOException {
        try (XMLSlideShow show = read(DeckSamples.deck(false, DeckSamples.many(kind, 1)))) {
            assertThat(charts(show)).hasSize(1);
            assertThat(text(show.getSlides().get(0))).doesNotContain("in the CSV");
        }
    }

    @Test
    void showsTheFirstOfManyAndSaysHowManyMoreThereAre() throws IOException {
        try (XMLSlideShow show = read(DeckSamples.deck(false, DeckSamples.many(Figure.Kind.INTERVALS, 200)))) {
            int drawn = values(scatter(plot(show), "estimate").getXVal()).size();

            assertThat(drawn).isBetween(15, 30);
            assertThat(tables(show.getSlides().get(0)).get(0).getNumberOfRows()).isEqualTo(13);
            assertThat(text(show.getSlides().get(0)))
                    .contains("Chart: the first " + drawn + " points, and " + (200 - drawn) + " more, in the CSV.")
                    .contains("Table: the first 12 rows, and 188 more, in the CSV.");
        }
    }

    @Test
    void anExhibitWithoutRowsSaysSo() throws IOException {
        Exhibit none = new Exhibit("Returns", "", null, List.of(Column.of("Centre", Kind.TEXT)), List.of());
        try (XMLSlideShow show = read(DeckSamples.deck(false, DeckSamples.slide("Which are missing?", "", none)))) {
            assertThat(text(show.getSlides().get(0))).contains("There is nothing to list");
            assertThat(frames(show.getSlides().get(0))).isEmpty();
        }
    }

    @Test
    void textThatDoesNotFitGoesOnOnAFurtherSlideAndNoneIsLost() throws IOException {
        try (XMLSlideShow show = read(DeckSamples.deck(false, DeckSamples.text(40)))) {
            String all = String.join(
                    "\n", show.getSlides().stream().map(PptxWriterTests::text).toList());

            assertThat(show.getSlides()).hasSizeGreaterThan(2);
            assertThat(show.getSlides().get(0).getTitle()).isEqualTo("What was agreed last time");
            assertThat(show.getSlides().get(1).getTitle()).isEqualTo("What was agreed last time (continued)");
            assertThat(all).contains(DeckSamples.text(40).lines());
        }
    }

    @Test
    void aLineLongerThanASlideIsDivided() throws IOException {
        String word = "retrieval ";
        Slide slide = DeckSamples.slide("Minutes", "", null, word.repeat(600).strip());
        try (XMLSlideShow show = read(DeckSamples.deck(false, slide))) {
            assertThat(show.getSlides().stream()
                            .mapToInt(one -> text(one).split("retrieval", -1).length - 1)
                            .sum())
                    .isEqualTo(600);
        }
    }

    @Test
    void everySlideHasItsDataCutTheCautionANumberAndNotes() throws IOException {
        try (XMLSlideShow show = read(ALL)) {
            for (XSLFSlide slide : show.getSlides()) {
                assertThat(text(slide))
                        .contains("data cut: revision 812, 2031-07-01")
                        .contains("Retrospective registry data; small numbers mislead; not advice during a procedure.");
                assertThat(slide.getXmlObject().xmlText()).contains("type=\"slidenum\"");
                assertThat(notes(slide))
                        .contains("associations in recorded cases, not proof of cause")
                        .contains("data cut: revision 812, 2031-07-01")
                        .contains(SlideFrame.CAUTION);
            }
            assertThat(notes(show.getSlides().get(0)))
                    .startsWith("Across the network 54 of 13,230 uses")
                    .contains("Method: Wilson score interval (Wilson 1927)");
        }
    }

    /** Nothing stands outside the slide, and no chart, table or text box on another. */
    @Test
    void nothingOverlaps() throws IOException {
        try (XMLSlideShow show = read(ALL)) {
            for (XSLFSlide slide : show.getSlides()) {
                List<Rectangle2D> places = slide.getShapes().stream()
                        .map(shape -> shape.getAnchor())
                        .toList();
                for (int one = 0; one < places.size(); one++) {
                    assertThat(places.get(one).getMaxX()).isLessThanOrEqualTo(960);
                    assertThat(places.get(one).getMaxY()).isLessThanOrEqualTo(540);
                    for (int other = 0; other < one; other++) {
                        assertThat(places.get(one).intersects(places.get(other)))
                                .as("%s: shapes %d and %d", slide.getTitle(), other, one)
                                .isFalse();
                    }
                }
            }
        }
    }

    /** WCAG 2.2, success criterion 1.4.3: 4.5:1. The formula is checked against the extremes that WCAG gives. */
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void everyInkIsReadOnItsGround(boolean dark) {
        assertThat(Palette.contrast("FFFFFF", "000000")).isCloseTo(21, within(1e-9));
        Palette palette = Palette.of(dark);
        assertThat(List.of(palette.text(), palette.muted(), palette.first(), palette.second(), palette.third()))
                .allSatisfy(ink ->
                        assertThat(Palette.contrast(ink, palette.ground())).isGreaterThan(4.5));
        assertThat(IntStream.range(0, 15).mapToObj(step -> palette.step(step / 5, step % 5, 5)))
                .allSatisfy(fill ->
                        assertThat(Palette.contrast(Palette.on(fill), fill)).isGreaterThan(4.5));
    }

    /** Adobe's font metrics of Helvetica: "Hamburg" is 722 + 556 + 833 + 556 + 556 + 333 + 556 thousandths wide. */
    @Test
    void textIsAsWideAsItsFontSays() {
        assertThat(TextWidth.of("Hamburg", 10)).isCloseTo(41.12, within(1e-9));
        assertThat(TextWidth.lines("one two-three four", 10, 45)).containsExactly("one two-", "three four");
        assertThat(TextWidth.cut("polymer-jacketed", 10, 40)).isEqualTo("polyme…");
    }

    private static XMLSlideShow read(Deck deck) throws IOException {
        return read(PptxWriter.write(deck));
    }

    private static XMLSlideShow read(byte[] file) throws IOException {
        return new XMLSlideShow(new ByteArrayInputStream(file));
    }

    private static Figure figure(Slide slide) {
        return Objects.requireNonNull(Objects.requireNonNull(slide.exhibit()).figure());
    }

    private static List<Double> onAxis(Figure figure, Mark mark) {
        return figure.items().stream()
                .filter(item -> item.mark() == mark && item.estimate() != null)
                .map(item -> ChartBuilder.onAxis(figure.unit(), Objects.requireNonNull(item.estimate())))
                .toList();
    }

    private static CTPlotArea plot(XMLSlideShow show) {
        return charts(show).get(0).getCTChart().getPlotArea();
    }

    private static CTScatterSer scatter(CTPlotArea plot, String name) {
        return plot.getScatterChartArray(0).getSerList().stream()
                .filter(series -> series.getTx()
                        .getStrRef()
                        .getStrCache()
                        .getPtArray(0)
                        .getV()
                        .equals(name))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no series " + name));
    }

    private static List<Double> values(CTAxDataSource source) {
        return source.getNumRef().getNumCache().getPtList().stream()
                .map(point -> Double.valueOf(point.getV()))
                .toList();
    }

    private static List<Double> values(CTNumDataSource source) {
        return source.getNumRef().getNumCache().getPtList().stream()
                .map(point -> Double.valueOf(point.getV()))
                .toList();
    }

    private static List<CTNumDataSource> sources(CTPlotArea plot) {
        return Stream.of(
                        Arrays.stream(plot.getScatterChartArray())
                                .flatMap(chart -> chart.getSerList().stream())
                                .map(CTScatterSer::getYVal),
                        Arrays.stream(plot.getLineChartArray())
                                .flatMap(chart -> chart.getSerList().stream())
                                .map(series -> series.getVal()),
                        Arrays.stream(plot.getBarChartArray())
                                .flatMap(chart -> chart.getSerList().stream())
                                .map(series -> series.getVal()))
                .flatMap(sources -> sources)
                .toList();
    }

    private static List<XSLFChart> charts(XMLSlideShow show) {
        return show.getSlides().stream()
                .flatMap(slide -> charts(slide).stream())
                .toList();
    }

    private static List<XSLFChart> charts(XSLFSlide slide) {
        return slide.getRelations().stream()
                .filter(XSLFChart.class::isInstance)
                .map(XSLFChart.class::cast)
                .toList();
    }

    private static List<CTGraphicalObjectFrame> frames(XSLFSlide slide) {
        return slide.getXmlObject().getCSld().getSpTree().getGraphicFrameList();
    }

    private static List<XSLFTable> tables(XSLFSlide slide) {
        return slide.getShapes().stream()
                .filter(XSLFTable.class::isInstance)
                .map(XSLFTable.class::cast)
                .toList();
    }

    private static String text(XSLFSlide slide) {
        return String.join(
                "\n",
                slide.getShapes().stream()
                        .filter(XSLFTextShape.class::isInstance)
                        .map(shape -> ((XSLFTextShape) shape).getText())
                        .toList());
    }

    private static String notes(XSLFSlide slide) {
        return String.join(
                        "\n",
                        slide.getNotes().getTextParagraphs().stream()
                                .flatMap(List::stream)
                                .map(paragraph -> paragraph.getText())
                                .toList())
                .strip();
    }
}
