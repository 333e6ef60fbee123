package entrapment.registry.meetings;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.access.AccessKeys;
import entrapment.registry.cases.CaseSamples;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Limits;
import entrapment.registry.exports.NumberText;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.poi.xslf.usermodel.XMLSlideShow;
import org.apache.poi.xslf.usermodel.XSLFSlide;
import org.apache.poi.xslf.usermodel.XSLFTable;
import org.apache.poi.xslf.usermodel.XSLFTableCell;
import org.apache.poi.xslf.usermodel.XSLFTableRow;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.JsonNode;

/** The same number everywhere: in the meeting's JSON, the reports' CSV, on the page, in the deck's CSV and on the slides. */
@RegistryTest
class SameNumberTests {

    private static final Pattern TABLE = Pattern.compile("<table>.*?</table>", Pattern.DOTALL);
    private static final Pattern ROW = Pattern.compile("<tr>(.*?)</tr>", Pattern.DOTALL);
    private static final Pattern CELL = Pattern.compile("<t[hd][^>]*>(.*?)</t[hd]>", Pattern.DOTALL);

    @Autowired
    private TestNetwork network;

    @Autowired
    private Meetings meetings;

    @Autowired
    private AccessKeys keys;

    private TestCentre centre;
    private String meeting = "";

    @BeforeEach
    void aFrozenMeeting() {
        centre = network.centre();
        List<String> periods =
                List.of("2024-Q3", "2024-Q4", "2025-Q1", "2025-Q2", "2025-Q3", "2025-Q4", "2026-Q1", "2026-Q2");
        for (int at = 0; at < periods.size(); at++) {
            String period = periods.get(at);
            centre.submitter()
                    .put(
                            centre.activity(period),
                            ("[{\"deviceClass\": \"rotational-burr\", \"calcification\": \"severe\", \"uses\": %d},"
                                            + " {\"deviceClass\": \"rotational-burr\", \"calcification\": \"moderate\","
                                            + " \"uses\": %d}, {\"deviceClass\": \"balloon\", \"uses\": 1234}]")
                                    .formatted(101 + at, 139 + at));
            for (int number = 1; number <= 6; number++) {
                CaseSamples one = CaseSamples.aCase().with("/period", period);
                if (number % 2 == 0) {
                    one.with("/lesion/calcification", "moderate").with("/outcome/harm", "severe");
                }
                centre.submitter().put(centre.cases() + "/same-" + period + "-" + number, one.json());
            }
        }
        JsonNode made = centre.analyst()
                .post(
                        "/api/meetings",
                        "{\"kind\": \"quality\", \"from\": \"2026-Q1\", \"to\": \"2026-Q2\", \"cases\": {\"rule\": \"none\"}}")
                .json();
        meeting = made.required("id").stringValue();
        centre.analyst().send("POST", "/api/meetings/" + meeting + "/freeze", null);
    }

    @Test
    void standsInEveryForm(@TempDir Path folder) throws IOException {
        List<Answer> answers =
                meetings.find(meeting, keys.steward().orElseThrow()).answers();
        List<Exhibit> exhibits =
                answers.stream().flatMap(answer -> answer.exhibits().stream()).toList();
        JsonNode json = centre.analyst().get("/api/meetings/" + meeting).json();
        String page = centre.analyst().atPages().get("/meetings/" + meeting).body();
        String deckCsv = centre.analyst()
                .get("/api/meetings/" + meeting + "/slides?format=csv")
                .body();
        Path file = folder.resolve("deck.pptx");
        centre.analyst().download("/api/meetings/" + meeting + "/slides", file);

        assertThat(answers).extracting(Answer::name).contains("incidence", "risk-factors", "over-time");
        assertJson(answers, json);
        assertPage(exhibits, page);
        assertDeckCsv(exhibits, deckCsv);
        assertReports(answers);
        assertSlides(exhibits, file);
    }

    private static void assertJson(List<Answer> answers, JsonNode json) {
        for (int at = 0; at < answers.size(); at++) {
            JsonNode item = json.required("agenda").get(at);
            for (int place = 0; place < answers.get(at).exhibits().size(); place++) {
                Exhibit exhibit = answers.get(at).exhibits().get(place);
                for (int row = 0; row < exhibit.rows().size(); row++) {
                    for (int column = 0; column < exhibit.columns().size(); column++) {
                        JsonNode cell = item.required("exhibits")
                                .get(place)
                                .required("rows")
                                .get(row)
                                .get(column);
                        assertThat(written(cell))
                                .as(
                                        "%s, %s",
                                        exhibit.title(),
                                        exhibit.columns().get(column).title())
                                .isEqualTo(written(exhibit.rows().get(row).get(column)));
                    }
                }
            }
        }
    }

    private static String written(JsonNode cell) {
        return cell.isObject()
                ? written(cell.required("lower")) + " to " + written(cell.required("upper"))
                : cell.isNull()
                        ? ""
                        : cell.isFloatingPointNumber() ? NumberText.exact(cell.asDouble()) : cell.asString();
    }

    private static String written(@Nullable Object cell) {
        if (cell instanceof Limits limits) {
            return written(limits.lower()) + " to " + written(limits.upper());
        }
        return cell == null ? "" : cell instanceof Double number ? NumberText.exact(number) : cell.toString();
    }

    private static void assertPage(List<Exhibit> exhibits, String page) {
        List<List<List<String>>> tables = new ArrayList<>();
        Matcher table = TABLE.matcher(page);
        while (table.find()) {
            tables.add(rows(table.group()));
        }
        for (Exhibit exhibit : exhibits) {
            if (!exhibit.rows().isEmpty()) {
                assertThat(tables).as("%s on the page", exhibit.title()).contains(shown(exhibit, false));
            }
        }
    }

    private static List<List<String>> rows(String table) {
        List<List<String>> rows = new ArrayList<>();
        Matcher row = ROW.matcher(table);
        while (row.find()) {
            List<String> cells = new ArrayList<>();
            Matcher cell = CELL.matcher(row.group(1));
            while (cell.find()) {
                cells.add(cell.group(1)
                        .replace("&#39;", "'")
                        .replace("&amp;", "&")
                        .replace("&lt;", "<")
                        .strip());
            }
            rows.add(cells);
        }
        return rows;
    }

    /** The table as people read it, its heading first. */
    private static List<List<String>> shown(Exhibit exhibit, boolean onSlide) {
        List<List<String>> rows = new ArrayList<>();
        rows.add(exhibit.columns().stream()
                .filter(column -> !onSlide || column.onSlide())
                .map(Column::heading)
                .toList());
        for (List<@Nullable Object> row : exhibit.rows()) {
            List<String> cells = new ArrayList<>();
            for (int column = 0; column < row.size(); column++) {
                if (!onSlide || exhibit.columns().get(column).onSlide()) {
                    cells.add(exhibit.columns().get(column).text(row.get(column)));
                }
            }
            rows.add(cells);
        }
        return rows;
    }

    private static void assertDeckCsv(List<Exhibit> exhibits, String csv) {
        for (Figure.Item item : items(exhibits)) {
            String numbers = List.of(
                            written(item.events()),
                            written(item.of()),
                            written(item.estimate()),
                            written(item.lower()),
                            written(item.upper()))
                    .toString()
                    .replaceAll("[\\[\\] ]", "");
            assertThat(csv).as(item.label()).contains("," + numbers + ",");
        }
    }

    private static List<Figure.Item> items(List<Exhibit> exhibits) {
        return exhibits.stream()
                .map(Exhibit::figure)
                .filter(Objects::nonNull)
                .flatMap(figure -> figure.items().stream())
                .toList();
    }

    /** Each answer but the meeting's own comparison is a report's; its CSV as of the same revision has its numbers. */
    private void assertReports(List<Answer> answers) {
        for (Answer answer : answers) {
            if (answer.name().equals("comparison")) {
                continue;
            }
            StringBuilder query =
                    new StringBuilder("?format=csv&asOf=" + answer.basis().revision());
            answer.basis().filters().byName().forEach((name, value) -> query.append('&')
                    .append(name)
                    .append('=')
                    .append(String.valueOf(value).replaceAll("[\\[\\] ]", "")));
            if (answer.name().equals("incidence")) {
                query.append("&by=deviceClass");
            }
            String csv = centre.analyst()
                    .get("/api/reports/" + answer.name() + query)
                    .body();
            Set<String> numbers = new HashSet<>(List.of(csv.split("[,\r\n]")));
            Exhibit first = answer.exhibits().get(0);
            for (Figure.Item item : items(List.of(first))) {
                if (item.estimate() != null) {
                    assertThat(numbers)
                            .as("%s, %s", answer.name(), item.label())
                            .contains(written(item.estimate()), written(item.lower()), written(item.upper()));
                }
            }
        }
    }

    private static void assertSlides(List<Exhibit> exhibits, Path file) throws IOException {
        List<List<List<String>>> tables = new ArrayList<>();
        Set<String> charted = new HashSet<>();
        try (XMLSlideShow deck = new XMLSlideShow(new ByteArrayInputStream(Files.readAllBytes(file)))) {
            for (XSLFSlide slide : deck.getSlides()) {
                slide.getShapes().stream()
                        .filter(XSLFTable.class::isInstance)
                        .map(XSLFTable.class::cast)
                        .forEach(table -> tables.add(table.getRows().stream()
                                .map(XSLFTableRow::getCells)
                                .map(cells -> cells.stream()
                                        .map(XSLFTableCell::getText)
                                        .toList())
                                .toList()));
            }
            deck.getCharts().forEach(chart -> {
                String xml = chart.getCTChartSpace().xmlText();
                Matcher value = Pattern.compile("<c:v>([^<]*)</c:v>").matcher(xml);
                while (value.find()) {
                    charted.add(rounded(value.group(1)));
                }
            });
        }
        for (Exhibit exhibit : exhibits) {
            boolean hasSlide = exhibit.figure() != null;
            List<List<String>> shown = shown(exhibit, true);
            if (hasSlide && !exhibit.rows().isEmpty()) {
                assertThat(tables).as("%s on a slide", exhibit.title()).anySatisfy(table -> {
                    assertThat(table.size()).isBetween(2, shown.size());
                    assertThat(table).isEqualTo(shown.subList(0, table.size()));
                });
            }
        }
        Figure.Item first = items(exhibits).get(0);
        assertThat(charted).contains(rounded(Double.toString(Objects.requireNonNull(first.estimate()) * 1000)));
    }

    private static String rounded(String number) {
        try {
            return String.format(Locale.ROOT, "%.6g", Double.parseDouble(number));
        } catch (NumberFormatException text) {
            return number;
        }
    }
}
