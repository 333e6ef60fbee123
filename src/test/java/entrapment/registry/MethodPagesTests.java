package entrapment.registry;

import static entrapment.registry.TestBrowser.Look.DESK;
import static entrapment.registry.TestBrowser.assertAccessible;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.exports.Figure;
import entrapment.registry.stats.Calculation;
import entrapment.registry.vocabulary.Field;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.MessageSource;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** The pages on which a reader looks up what a word, a number or a figure means. */
@BrowserTest
class MethodPagesTests {

    private static final List<String> PAGES = List.of(
            "/methods",
            "/methods/vocabulary",
            "/methods/statistics",
            "/methods/figures",
            "/methods/rules",
            "/methods/format",
            "/methods/privacy");

    @Autowired
    private TestNetwork network;

    @Autowired
    private TestBrowser browser;

    @Autowired
    private MessageSource messages;

    @ParameterizedTest
    @EnumSource(Calculation.class)
    void everyCalculationIsDescribedInASentenceOrMore(Calculation calculation) {
        String formula = messages.getMessage("method." + calculation.code(), null, Locale.ENGLISH);

        assertThat(formula).endsWith(".").hasSizeBetween(120, 800).doesNotContain("''", "{");
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void everyPageIsAccessibleToEveryRoleAndSaysAllItsTexts(boolean dark) {
        TestCentre centre = network.centre();
        Page page = browser.signedIn(dark ? centre.analyst() : centre.submitter(), dark ? DESK.dark() : DESK.wide(390));
        for (String path : PAGES) {
            assertThat(page.navigate(path).status()).as(path).isEqualTo(200);
            assertAccessible(page);
            assertThat(page.content()).as(path).doesNotContain("??");
            assertThat((Boolean) page.evaluate(
                            "document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                    .as("%s does not scroll sideways", path)
                    .isTrue();
        }
    }

    @Test
    void everyCalculationAndFieldAndKindOfFigureHasItsPlaceToLinkTo() {
        Page page = browser.signedIn(network.centre().analyst(), DESK);

        page.navigate("/methods/statistics");
        for (Calculation calculation : Calculation.values()) {
            assertThat(page.textContent("section:has(#" + calculation.code() + ")"))
                    .contains(calculation.method().citation())
                    .contains("reference result");
        }
        page.navigate("/methods/vocabulary");
        for (Field field : Field.coded()) {
            assertThat(page.locator("h2#" + field.code()).count())
                    .as(field.code())
                    .isEqualTo(1);
        }
        page.navigate("/methods/figures");
        for (String kind :
                List.of("intervals", "forest", "control", "p-chart", "g-chart", "cusum", "funnel", "shares", "flow")) {
            assertThat(page.locator("h2#" + kind).count()).as(kind).isEqualTo(1);
        }
    }

    @Test
    void everyShapeOfAPointAndTheEndsOfAnAxisAreExplained() {
        Page page = browser.signedIn(network.centre().analyst(), DESK);

        page.navigate("/methods/figures");

        String points = page.textContent("section:has(#points)");
        for (Figure.Mark mark : Figure.Mark.values()) {
            assertThat(points).contains(mark.shape().sign());
        }
        assertThat(points).contains("An axis of ratios ends at 0.01 and 100");
    }

    @Test
    void numbersHaveTheMarksOfTheReadersLanguage() {
        Page page = browser.signedIn(network.centre().analyst(), DESK.in("de"));

        page.navigate("/methods/statistics");

        assertThat(page.textContent("section:has(#trend)")).doesNotContain("??");
        assertThat(page.textContent("section:has(#p-chart)")).contains("0,00135");
    }

    @Test
    void whatTheFormatPageShowsIsTakenAsItStands() {
        TestCentre centre = network.centre();
        Page page = browser.signedIn(centre.submitter(), DESK);
        page.navigate("/methods/format");
        String period = "2025-Q2";
        ObjectNode shown = (ObjectNode) JsonMapper.shared().readTree(page.textContent("#case-json"));

        Answer one = centre.submitter()
                .put(centre.cases() + "/as-shown", shown.put("period", period).toString());
        Answer columns = centre.submitter()
                .post(centre.cases() + "?dryRun=true", "text/csv", page.textContent("#case-csv") + "\r\n");
        Answer uses = centre.submitter()
                .send("PUT", centre.activity(period), page.textContent("#activity-csv"), "Content-Type", "text/csv");

        assertThat(one.status()).as(one.body()).isEqualTo(201);
        assertThat(columns.status()).as(columns.body()).isEqualTo(200);
        assertThat(uses.status()).as(uses.body()).isEqualTo(201);
    }
}
