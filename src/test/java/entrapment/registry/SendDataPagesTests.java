package entrapment.registry;

import static entrapment.registry.TestBrowser.Look.DESK;
import static entrapment.registry.TestBrowser.assertAccessible;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Page;
import entrapment.registry.TestBrowser.Look;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;

/** What a data manager does with files, on pages. */
@BrowserTest
class SendDataPagesTests {

    @Autowired
    private TestNetwork network;

    @Autowired
    private TestBrowser browser;

    @TempDir
    private Path folder;

    /** By keyboard, but for the choice of the file, which is the browser's own window. */
    @Test
    void aDataManagerSendsAFileWithThreeBadLinesMendsItAndSendsIt() throws IOException {
        TestCentre centre = network.centre();
        Path file = folder.resolve("cases.ndjson");
        Page page = browser.signedIn(centre.submitter(), DESK);
        page.navigate("/send-data");

        Files.writeString(
                file,
                CaseSamples.aCase().line("GOOD-KEYA")
                        + CaseSamples.aCase()
                                .with("/lesion/vessel", "somewhere")
                                .line("BAD-KEYAA")
                        + CaseSamples.aCase().without("/outcome/harm").line("BAD-KEYBB")
                        + CaseSamples.aCase().line("1961-03-12"));
        check(page, file);
        assertThat(page.textContent("#result")).contains("4 rows read, 3 of them refused");
        assertThat(page.locator("#result tbody tr").allTextContents().toString())
                .contains("2", "vessel", "Choose one of the list", "harm", "caseKey")
                .doesNotContain("1961-03-12", "somewhere");
        assertAccessible(page);
        Download download = page.waitForDownload(() -> page.click("#result a[download]"));
        assertThat(Files.readAllLines(download.path())).hasSize(4).first().isEqualTo("line,field,what,fix");
        assertThat(page.locator("button[data-send=all]").count()).isZero();
        assertThat(stored(centre)).isZero();

        Files.writeString(
                file,
                CaseSamples.aCase().line("GOOD-KEYA") + CaseSamples.aCase().line("GOOD-KEYB"));
        check(page, file);
        assertThat(page.textContent("#result")).contains("Nothing is wrong with it", "New cases: 2");
        assertThat(stored(centre)).isZero();
        page.focus("button[data-send=all]");
        page.keyboard().press("Enter");
        page.waitForSelector("#result .done");
        assertThat(page.textContent("#result .done")).contains("2 new, 0 changed, 0 as they were, 0 left out");
        assertThat(stored(centre)).isEqualTo(2);
        assertAccessible(page);
    }

    private static void check(Page page, Path file) {
        page.setInputFiles("#file", file);
        page.focus("#check");
        page.keyboard().press("Enter");
        page.waitForFunction("() => document.activeElement.id === 'result'");
    }

    private static long stored(TestCentre centre) {
        return centre.submitter().get(centre.cases()).json().get("total").asLong();
    }

    @Test
    void keepsTheGoodRowsOnlyWhereThatIsChosen() throws IOException {
        TestCentre centre = network.centre();
        Path file = folder.resolve("cases.ndjson");
        Files.writeString(file, CaseSamples.aCase().line("GOOD-KEYA") + "{}\n");
        Page page = browser.signedIn(centre.submitter(), DESK);
        page.navigate("/send-data");
        check(page, file);

        page.click("button[data-send=valid]");
        assertThat(page.evaluate("() => document.activeElement.id")).isEqualTo("keep");
        assertThat(stored(centre)).isZero();
        page.check("#keep");
        page.click("button[data-send=valid]");
        page.waitForSelector("#result .done");
        assertThat(page.textContent("#result .done")).contains("1 new", "1 left out");
        assertThat(stored(centre)).isEqualTo(1);
    }

    @Test
    void sendsAnActivityReturnAndSaysWhatWasReceived() throws IOException {
        TestCentre centre = network.centre();
        Path file = folder.resolve("activity.csv");
        Files.writeString(file, "deviceClass,uses\nballoon,12\n");
        Page page = browser.signedIn(centre.submitter(), DESK);
        page.navigate("/send-data");
        assertThat(page.textContent("main")).contains("no case received, and the activity return is missing");
        page.check("#send-form input[value=activity]");
        check(page, file);
        page.click("button[data-send=all]");
        page.waitForSelector("#result .done");

        page.navigate("/send-data");
        assertThat(page.textContent("main")).contains("the activity return is there", "12 uses (version 1)");
    }

    @Test
    void itsTemplatesAreRightAsTheyAre() {
        TestCentre centre = network.centre();
        for (String name : List.of("cases.csv", "cases.ndjson", "activity.csv")) {
            String body = centre.submitter().get("/send-data/templates/" + name).body();
            if (name.startsWith("activity")) {
                assertThat(centre.submitter()
                                .send("PUT", centre.activity("2026-Q2"), body, "Content-Type", "text/csv")
                                .status())
                        .isEqualTo(201);
            } else {
                String type = name.endsWith(".csv") ? "text/csv" : "application/x-ndjson";
                assertThat(centre.submitter()
                                .post(centre.cases() + "?dryRun=true", type, body)
                                .json()
                                .get("refused")
                                .asLong())
                        .as(name)
                        .isZero();
            }
        }
    }

    @Test
    void worksWithoutScriptsAndDoesNotShowWhatWasPasted() {
        TestCentre centre = network.centre();
        Page page = browser.signedIn(centre.submitter(), DESK.withoutScripts());
        page.navigate("/send-data");
        page.fill("#text", CaseSamples.aCase().line("1961-03-12"));
        page.click("#paste button[value=all]");
        assertThat(page.textContent("#pasted-result")).contains("caseKey", "Make up an opaque key");
        assertThat(page.content()).doesNotContain("1961-03-12");
        page.fill("#text", CaseSamples.aCase().line("GOOD-KEYA"));
        page.click("#paste button[value=all]");

        assertThat(page.textContent("#pasted-result")).contains("1 new");
        assertThat(stored(centre)).isEqualTo(1);
    }

    @Test
    void isAccessibleAndFitsInEveryLook() {
        TestCentre centre = network.centre();
        for (Look look : List.of(DESK, DESK.dark(), DESK.wide(390))) {
            Page page = browser.signedIn(centre.submitter(), look);
            page.navigate("/send-data");
            assertAccessible(page);
            assertThat(page.evaluate("() => document.documentElement.scrollWidth <= innerWidth"))
                    .isEqualTo(true);
        }
        Page reader = browser.signedIn(centre.analyst(), DESK);
        reader.navigate("/send-data");
        assertThat(reader.textContent("main")).contains("analyst");
        assertThat(reader.locator("#send-form").count()).isZero();
    }
}
