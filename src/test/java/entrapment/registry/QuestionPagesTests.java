package entrapment.registry;

import static entrapment.registry.TestBrowser.Look.DESK;
import static entrapment.registry.TestBrowser.assertAccessible;
import static entrapment.registry.TestBrowser.awaitFigures;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.ElementHandle;
import com.microsoft.playwright.Page;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import entrapment.registry.exports.Column;
import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.JsonNode;

/** Asking the registry on its pages. */
@BrowserTest
class QuestionPagesTests {

    @Autowired
    private TestNetwork network;

    @Autowired
    private TestBrowser browser;

    /** A centre with a year of uses and a handful of cases. */
    private TestCentre centre() {
        TestCentre centre = network.centre();
        for (String period : List.of("2025-Q3", "2025-Q4", "2026-Q1", "2026-Q2")) {
            centre.submitter()
                    .put(
                            centre.activity(period),
                            "[{\"deviceClass\": \"rotational-burr\", \"calcification\": \"severe\", \"uses\": 120},"
                                    + " {\"deviceClass\": \"rotational-burr\", \"calcification\": \"moderate\","
                                    + " \"uses\": 140}, {\"deviceClass\": \"balloon\", \"uses\": 1300}]");
            for (int number = 1; number <= 3; number++) {
                centre.submitter()
                        .put(
                                centre.cases() + "/asked-" + period + "-" + number,
                                CaseSamples.aCase().json().replaceAll("20\\d\\d-Q\\d", period));
            }
        }
        return centre;
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "incidence",
                "retrieval",
                "risk-factors?factors=calcification,deviceClass",
                "over-time?chart=between-events",
                "between-centres?from=2025-Q3&to=2025-Q3",
                "harm",
                "completeness",
                "similar-cases?deviceClass=rotational-burr",
                "planning",
                "pooled"
            })
    void answersEachQuestionWithAndWithoutScriptsSoThatEverybodyCanReadIt(String question) {
        TestCentre centre = centre();
        List<String> elsewhere = new ArrayList<>();
        List<String> complaints = new ArrayList<>();
        Page page = browser.signedIn(centre.analyst(), DESK);
        String origin = page.url().replaceAll("(https?://[^/]+).*", "$1");
        page.onRequest(request -> {
            if (!request.url().startsWith(origin) && !request.url().startsWith("data:")) {
                elsewhere.add(request.url());
            }
        });
        page.onConsoleMessage(message -> {
            if (message.type().equals("error")) {
                complaints.add(message.text());
            }
        });

        page.navigate("/questions/" + question);
        awaitFigures(page);

        assertThat(page.querySelectorAll("figure[data-drawn=failed]")).isEmpty();
        assertThat(page.content()).doesNotContain("style=\"", "<script>", "<style");
        assertThat(elsewhere).isEmpty();
        assertThat(complaints).isEmpty();
        assertAccessible(page);
        Page plain = browser.signedIn(centre.analyst(), DESK.dark().withoutScripts());
        plain.navigate("/questions/" + question);
        assertThat(plain.textContent(".answer")).isEqualTo(page.textContent(".answer"));
        assertThat(plain.querySelectorAll("table tbody tr")).isNotEmpty();
        assertThat(plain.textContent(".cautions"))
                .contains("Retrospective registry data", "Not advice during a procedure", "Small numbers mislead");
        Page dark = browser.signedIn(centre.analyst(), DESK.dark().wide(390));
        dark.navigate("/questions/" + question);
        awaitFigures(dark);
        assertAccessible(dark);
        assertThat(dark.evaluate("document.documentElement.scrollWidth <= innerWidth"))
                .as("nothing is wider than a phone")
                .isEqualTo(true);
    }

    @Test
    void showsTheNumbersOfTheReportToTheLastDigit() {
        TestCentre centre = centre();
        String query = "by=deviceClass,calcification&centre=" + centre.code();
        Page page = browser.signedIn(centre.analyst(), DESK);
        page.navigate("/questions/incidence?" + query);
        JsonNode report =
                centre.analyst().get("/api/reports/incidence?" + query).json();

        List<ElementHandle> rows = page.querySelectorAll("table tbody tr");
        assertThat(rows).hasSameSizeAs(report.required("groups")).isNotEmpty();
        Column rate = Column.of("", Column.Kind.PER_THOUSAND);
        Column count = Column.of("", Column.Kind.COUNT);
        for (int index = 0; index < rows.size(); index++) {
            JsonNode group = report.required("groups").get(index);
            List<ElementHandle> cells = rows.get(index).querySelectorAll("th, td");
            assertThat(cells.get(2).textContent())
                    .isEqualTo(count.text(group.required("events").asLong()));
            assertThat(cells.get(3).textContent())
                    .isEqualTo(count.text(group.required("uses").asLong()));
            assertThat(cells.get(4).textContent())
                    .isEqualTo(rate.text(group.required("estimate").asDouble()));
            assertThat(cells.get(5).textContent())
                    .isEqualTo(rate.text(group.required("lower").asDouble()) + " to "
                            + rate.text(group.required("upper").asDouble()));
        }
        JsonNode figure = network.nobody()
                .answer(centre.analyst().atPages().get("/questions/incidence/figures?" + query, "Accept", "*/*"))
                .json()
                .get(0);
        for (int index = 0; index < rows.size(); index++) {
            JsonNode item = figure.required("items").get(index);
            JsonNode group = report.required("groups").get(index);
            assertThat(item.required("value").asDouble() / 1000)
                    .isCloseTo(group.required("estimate").asDouble(), org.assertj.core.data.Offset.offset(1e-12));
        }
    }

    @Test
    void writesNumbersWithTheMarksOfTheReadersLanguage() {
        TestCentre centre = centre();
        Page page = browser.signedIn(centre.analyst(), DESK.in("de-DE"));

        page.navigate("/questions/incidence?by=deviceClass&centre=" + centre.code());

        assertThat(page.textContent("table")).contains("5.200", "95 % interval").doesNotContain("5,200");
        assertThat(page.textContent(".answer")).containsPattern("\\d,\\d per 1\\.000");
    }

    @Test
    void anAnalystFiltersReadsAnOddsRatioKeepsItAndMailsTheLink() throws IOException {
        TestCentre centre = centre();
        Page page = browser.signedIn(centre.analyst(), DESK);
        page.navigate("/questions/risk-factors?factors=calcification");

        page.focus("#from");
        page.keyboard().type("2025-Q3");
        page.keyboard().press("Enter");
        page.waitForURL("**from=2025-Q3**");
        page.focus("#centre");
        page.keyboard().press("ArrowDown");
        page.waitForURL("**centre=**");
        awaitFigures(page);
        String sentence = page.textContent(".answer");
        String table = page.textContent("table");
        Download csv = page.waitForDownload(() -> {
            page.focus("text=Table as CSV");
            page.keyboard().press("Enter");
        });
        Download slides = page.waitForDownload(() -> {
            page.focus("text=/^Slides$/");
            page.keyboard().press("Enter");
        });
        String link = page.getAttribute("text=/This page with the numbers/", "href");
        centre.submitter()
                .put(
                        centre.cases() + "/came-later-a",
                        CaseSamples.aCase().json().replaceAll("20\\d\\d-Q\\d", "2026-Q1"));
        Page colleague = browser.signedIn(centre.analyst(), DESK);
        colleague.navigate(link);

        assertThat(table).contains("Odds ratio", "95 % interval");
        assertThat(Files.readString(csv.path())).contains("oddsRatio", "# method:");
        assertThat(slides.suggestedFilename()).endsWith(".pptx");
        try (ZipInputStream deck = new ZipInputStream(Files.newInputStream(slides.path()))) {
            assertThat(deck.getNextEntry()).isNotNull();
        }
        assertThat(colleague.textContent(".answer")).isEqualTo(sentence);
        assertThat(colleague.textContent("table")).isEqualTo(table);
    }

    @Test
    void reachesEachPointOfAFigureByTheArrowKeys() {
        TestCentre centre = centre();
        Page page = browser.signedIn(centre.analyst(), DESK);
        page.navigate("/questions/incidence?by=period&centre=" + centre.code());
        page.waitForSelector("figure[data-drawn=true]");

        page.focus("figure .point[tabindex='0']");
        page.keyboard().press("ArrowDown");

        assertThat(page.textContent("figure .readout")).contains("2025-Q4", "3 of 1,560");
        assertThat(page.evaluate("document.activeElement.getAttribute('aria-label')"))
                .asString()
                .contains("2025-Q4");
    }

    @Test
    void drawsAFigureForPaperWhenThePageIsPrinted() {
        TestCentre centre = centre();
        Page page = browser.signedIn(centre.analyst(), DESK);
        page.navigate("/questions/incidence?by=deviceClass&centre=" + centre.code());
        awaitFigures(page);
        String onScreen = page.getAttribute("figure svg", "width");

        page.evaluate("() => dispatchEvent(new Event('beforeprint'))");
        String onPaper = page.getAttribute("figure svg", "width");
        page.evaluate("() => dispatchEvent(new Event('afterprint'))");
        page.waitForSelector("figure svg[width='" + onScreen + "']");

        assertThat(onPaper).isEqualTo("700").isNotEqualTo(onScreen);
    }

    @Test
    void keepsAFigureWithItsGroundItsSourceAndTheCautions() throws IOException {
        TestCentre centre = centre();
        Page page = browser.signedIn(centre.analyst(), DESK.dark());
        page.navigate("/questions/incidence?by=deviceClass&centre=" + centre.code());
        awaitFigures(page);

        Download kept = page.waitForDownload(() -> page.click("text=Figure as SVG"));

        assertThat(Files.readString(kept.path()))
                .containsPattern("<rect[^>]*fill=\"rgb\\(")
                .contains(
                        "Entrapments per 1,000 uses by device",
                        "data cut revision",
                        "Centre: " + centre.code().replace('-', ' '))
                .contains("12 of 1,040", "Not advice during a procedure", "Small numbers mislead");
    }

    @Test
    void theKeyOfAFigureSaysWhatAnArrowIsAndIsKeptWithIt() throws IOException {
        TestCentre centre = centre();
        Page page = browser.signedIn(centre.analyst(), DESK);
        page.navigate("/questions/risk-factors?factors=deviceClass&centre=" + centre.code());
        awaitFigures(page);

        Download kept = page.waitForDownload(() -> page.click("text=Figure as SVG"));

        assertThat(page.querySelectorAll("figure .arrow")).isNotEmpty();
        assertThat(page.textContent("figure .key")).contains("◄ ► goes on beyond the axis");
        assertThat(Files.readString(kept.path())).contains("◄ ► goes on beyond the axis");
    }

    @Test
    void saysWhatIsWrongWithAQuestionAndKeepsTheForm() {
        Page page = browser.signedIn(network.centre().analyst(), DESK);

        page.navigate("/questions/incidence?from=soon&by=nothing");

        assertThat(page.textContent("[role=alert]")).contains("from must be a period", "by must be of");
        assertThat(page.inputValue("#from")).isEmpty();
        assertAccessible(page);
    }

    @Test
    void theChairFindsOnTheHomePageWhatNeedsAttention() {
        TestCentre centre = centre();
        centre.submitter().put(centre.activity("2024-Q4"), "[{\"deviceClass\": \"balloon\", \"uses\": 40}]");
        Page page = browser.signedIn(centre.analyst(), DESK);

        page.navigate("/");
        assertThat(page.textContent(".headlines")).contains("12 entrapments in 6,240 uses", "95 % CI");
        assertThat(page.textContent(".cautions")).contains("Small numbers mislead");
        assertAccessible(page);
        page.focus(".concerns a:has-text('missing')");
        page.keyboard().press("Enter");
        page.waitForURL("**/questions/completeness**");

        assertThat(page.textContent("main")).contains("Returns that are missing", "2025-Q1", "2025-Q2");
    }

    @Test
    void saysWhenStrataLeaveNoFactorToCompare() {
        Page page = browser.signedIn(network.centre().analyst(), DESK);

        page.navigate("/questions/risk-factors?model=stratified&factors=deviceClass&stratifyBy=deviceClass");

        assertThat(page.textContent(".answer")).isEqualTo("There is nothing to compare here.");
    }

    @Test
    void anEmptyCentreIsToldWhereToBegin() {
        Page page = browser.signedIn(network.centre().submitter(), DESK);

        page.navigate("/questions/incidence");

        assertThat(page.textContent("#results")).contains("start with Report a case or Send data");
    }
}
