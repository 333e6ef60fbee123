package entrapment.registry;

import static entrapment.registry.TestBrowser.Look.DESK;
import static entrapment.registry.TestBrowser.assertAccessible;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Response;
import entrapment.registry.TestNetwork.TestCentre;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The steward at work on pages. */
@BrowserTest
class NetworkPagesTests {

    private static final AtomicInteger NEXT = new AtomicInteger();

    private static final List<String> PAGES = List.of(
            "/network",
            "/network/centres",
            "/network/keys",
            "/network/keys/new",
            "/network/settings",
            "/network/audit",
            "/network/audit/verification",
            "/network/releases",
            "/network/releases/proposal",
            "/network/archive");

    @Autowired
    private TestNetwork network;

    @Autowired
    private TestBrowser browser;

    @Test
    void aStewardAddsACentreAndAKeyByKeyboardAlone() {
        String name = "Keyboard Infirmary " + letter();
        Page page = browser.window(DESK);
        page.navigate("/sign-in");
        typeInto(page, "#key", network.stewardKey());
        page.keyboard().press("Enter");
        page.waitForURL(url -> !url.contains("/sign-in"));

        follow(page, "a[href='/network']");
        follow(page, "a[href='/network/centres']");
        typeInto(page, "#centre", "keyboard-" + letter());
        typeInto(page, "#name", name);
        page.keyboard().press("Enter");
        page.waitForSelector("[role=status]");
        assertThat(page.textContent("main")).contains("The centre is in the network", name);
        NEXT.incrementAndGet();

        follow(page, "a[href='/network/keys']");
        follow(page, "a[href='/network/keys/new']");
        typeInto(page, "#role", "analyst");
        typeInto(page, "#centre", name);
        typeInto(page, "#label", "reading room");
        Response answer =
                page.waitForResponse(response -> response.request().method().equals("POST"), () -> page.keyboard()
                        .press("Enter"));
        page.waitForSelector("#shown");
        tabTo(page, "#shown");
        String key = page.inputValue("#shown");

        assertThat(answer.headerValue("Cache-Control")).contains("no-store");
        assertThat(page.textContent("main")).contains("shown this once", "Copy it now");
        assertAccessible(page);
        tabTo(page, "main a[href='/network/keys']");
        page.keyboard().press("Enter");
        page.waitForSelector("text=Every key ever made");
        assertThat(page.content()).contains("reading room").doesNotContain(key);
        assertThat(browser.signedIn(key, DESK).textContent("header")).contains("analyst", name);
    }

    @Test
    void aKeyEndsOnlyOnceThatIsConfirmed() {
        TestCentre centre = network.centre();
        Page page = browser.signedIn(network.steward(), DESK);
        String id = network.steward()
                .post("/api/centres/" + centre.code() + "/keys", "{\"role\": \"analyst\", \"label\": \"to end\"}")
                .json()
                .required("id")
                .asString();

        page.navigate("/network/keys");
        page.click("a[href='/network/keys/" + id + "/revocation']");
        page.waitForSelector("text=cannot be brought back");
        assertThat(isRevoked(id)).isFalse();
        assertAccessible(page);
        page.click("text=Revoke this key");
        page.waitForSelector("[role=status]");

        assertThat(isRevoked(id)).isTrue();
        page.navigate("/network/keys/" + id + "/revocation");
        assertThat(page.textContent("main")).contains("ended already");
        assertThat(page.navigate("/network/keys/" + id + "/rotation").status()).isEqualTo(404);
    }

    private boolean isRevoked(String id) {
        return network.steward()
                .get("/api/keys")
                .json()
                .valueStream()
                .anyMatch(key -> key.required("id").asString().equals(id)
                        && !key.required("revokedAt").isNull());
    }

    @Test
    void aKeyIsReplacedWithTimeToChangeOver() {
        TestCentre centre = network.centre();
        Page page = browser.signedIn(network.steward(), DESK);
        String id = network.steward()
                .post("/api/centres/" + centre.code() + "/keys", "{\"role\": \"submitter\", \"label\": \"export\"}")
                .json()
                .required("id")
                .asString();

        page.navigate("/network/keys/" + id + "/rotation");
        assertAccessible(page);
        page.fill("#overlapDays", "3");
        page.press("#overlapDays", "Enter");
        page.waitForSelector("#shown");

        assertThat(page.textContent("main")).contains("stays good for 3 days more");
        assertThat(centre.submitter()
                        .with(page.inputValue("#shown"))
                        .get(centre.cases())
                        .status())
                .isEqualTo(200);
    }

    @Test
    void whatIsRefusedIsSaidBesideTheFormAndChangesNothing() {
        Page page = browser.signedIn(network.steward(), DESK);

        page.navigate("/network/keys/new");
        page.fill("#label", "born 12.03.1951");
        page.fill("#validDays", "30");
        page.selectOption("#role", "steward");
        page.click("main button[type=submit]");
        page.waitForSelector("[role=alert]");

        assertThat(page.textContent("[role=alert]")).contains("Label").contains("shape of a date");
        assertThat(page.content()).doesNotContain("1951");
        assertAccessible(page);
    }

    @Test
    void aCentreIsRenamedAndACodeThatIsTakenIsNotOverwritten() {
        TestCentre centre = network.centre();
        Page page = browser.signedIn(network.steward(), DESK);

        page.navigate("/network/centres/" + centre.code());
        assertAccessible(page);
        page.fill("#name", "Renamed Infirmary");
        page.press("#name", "Enter");
        page.waitForSelector("[role=status]");
        page.fill("#centre", centre.code());
        page.fill("#name", "Somebody else");
        page.press("#name", "Enter");
        page.waitForSelector("[role=alert]");

        assertThat(page.textContent("[role=alert]")).contains("this code already");
        assertThat(network.steward().get("/api/centres").body())
                .contains("Renamed Infirmary")
                .doesNotContain("Somebody else");
    }

    @Test
    void theTrailIsVerifiedInWords() {
        network.centre();
        Page page = browser.signedIn(network.steward(), DESK);
        page.navigate("/network/audit");
        page.click("text=Verify the trail");
        page.waitForSelector("text=Intact");
        JdbcClient owner = network.database();
        long number = network.steward()
                .get("/api/audit?size=1")
                .json()
                .at("/0/number")
                .longValue();
        String outcome = owner.sql("select outcome from audit_entry where number = :number")
                .param("number", number)
                .query(String.class)
                .single();
        try {
            alter(owner, number, "refused");
            page.navigate("/network/audit/verification");
            assertThat(page.textContent("main")).contains("Broken at entry", "not what was written");
            assertAccessible(page);
        } finally {
            alter(owner, number, outcome);
        }
        page.navigate("/network/audit/verification");
        assertThat(page.textContent("main")).contains("Intact");
    }

    private static void alter(JdbcClient owner, long number, String outcome) {
        owner.sql(
                        "alter table audit_entry disable trigger user; update audit_entry set outcome = '%s' where number = %d;"
                                        .formatted(outcome, number)
                                + " alter table audit_entry enable trigger user")
                .update();
    }

    @Test
    void theTrailIsReadOfOneCentreAndPageByPage() {
        TestCentre centre = network.centre();
        for (int index = 0; index < 60; index++) {
            centre.analyst().get(centre.cases());
        }
        Page page = browser.signedIn(network.steward(), DESK);

        page.navigate("/network/audit");
        page.selectOption("#centre", centre.code());
        page.click("text=Show");
        page.waitForURL("**/network/audit?centre=" + centre.code());
        List<String> newest = page.locator("tbody tr td:first-child").allTextContents();
        page.click("a[rel=next]");
        page.waitForURL("**before=*");
        List<String> older = page.locator("tbody tr td:first-child").allTextContents();

        assertThat(newest).hasSize(50);
        assertThat(older).isNotEmpty().doesNotContainAnyElementsOf(newest);
        assertThat(page.locator("tbody tr td:nth-child(4)").allTextContents()).containsOnly(centre.code());
    }

    @Test
    void aReleaseIsLookedAtThenKeptAndDownloaded() throws IOException {
        TestCentre centre = network.centre();
        centre.submitter().put(centre.activity("2025-Q1"), "[{\"deviceClass\": \"stent\", \"uses\": 40}]");
        Page page = browser.signedIn(network.steward(), DESK);
        int before = releases();

        page.navigate("/network/releases");
        page.click("text=Show the proposal");
        page.waitForSelector("text=nothing is kept yet");
        assertThat(releases()).isEqualTo(before);
        page.click("text=Make this release");
        page.waitForSelector("[role=status]");

        assertThat(releases()).isEqualTo(before + 1);
        assertThat(page.textContent("main")).contains("Protected: from everything", "Stent or its delivery system");
        assertAccessible(page);
        Download download = page.waitForDownload(() -> page.click("text=with notes and cautions"));
        assertThat(Files.readString(download.path(), StandardCharsets.UTF_8))
                .contains("# caution: Small numbers mislead", "measure,deviceClass,harm,firstYear")
                .doesNotContain("hiddenComplementary");
    }

    private int releases() {
        return network.steward().get("/api/releases").json().size();
    }

    @Test
    void saysWhyThereIsNothingToRelease() {
        Page page = browser.signedIn(network.steward(), DESK);

        Response response = page.navigate("/network/releases/proposal?throughYear=2099");

        assertThat(response.status()).isEqualTo(422);
        assertThat(page.textContent("[role=alert]")).contains("complete calendar year");
    }

    @Test
    void theArchiveIsOneFile() throws IOException {
        Page page = browser.signedIn(network.steward(), DESK);
        page.navigate("/network/archive");

        Download download = page.waitForDownload(() -> page.click("text=Download the archive"));

        assertThat(Files.readAllBytes(download.path())).startsWith('P', 'K');
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void everyPageIsAccessibleAndSaysAllItsTexts(boolean dark) {
        TestCentre centre = network.centre();
        centre.submitter().put(centre.activity("2025-Q1"), "[{\"deviceClass\": \"stent\", \"uses\": 40}]");
        Page page = browser.signedIn(network.steward(), dark ? DESK.dark() : DESK.wide(390));
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
    void nobodyButTheStewardIsLetIn() {
        TestCentre centre = network.centre();
        for (RegistryClient client : List.of(centre.submitter(), centre.analyst())) {
            Page page = browser.signedIn(client, DESK);
            for (String path : PAGES) {
                assertThat(page.navigate(path).status()).as(path).isEqualTo(403);
            }
            assertThat(page.textContent("main")).contains("Your role does not open this");
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/network/audit?centre=no-such&before=0",
                "/network/audit?before=99999999999999999999",
                "/network/audit?page=2",
                "/network/centres/no-such",
                "/network/keys/no-such/rotation",
                "/network/releases/0",
                "/network/releases/99999999999/figures.csv",
                "/network/releases/proposal?throughYear=-1"
            })
    void whatIsNotThereIsAnsweredWithAPage(String path) {
        Page page = browser.signedIn(network.steward(), DESK);

        assertThat(page.navigate(path).status()).isIn(404, 422);
    }

    private static String letter() {
        return Character.toString('a' + NEXT.get() % 26);
    }

    private static void follow(Page page, String link) {
        tabTo(page, link);
        String from = page.url();
        page.keyboard().press("Enter");
        page.waitForURL(url -> !url.equals(from));
    }

    private static void typeInto(Page page, String field, String text) {
        tabTo(page, field);
        page.keyboard().type(text);
    }

    /** Goes on with the tab key until the place has the focus, as somebody without a mouse does. */
    private static void tabTo(Page page, String place) {
        for (int pressed = 0; pressed < 80; pressed++) {
            if ((Boolean) page.evaluate("place => document.activeElement.matches(place)", place)) {
                return;
            }
            page.keyboard().press("Tab");
        }
        throw new AssertionError(place + " cannot be reached by keyboard on " + page.url());
    }
}
