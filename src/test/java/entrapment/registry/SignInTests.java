package entrapment.registry;

import static entrapment.registry.TestBrowser.Look.DESK;
import static entrapment.registry.TestBrowser.assertAccessible;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.Response;
import entrapment.registry.TestNetwork.TestCentre;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** Coming in and going out. */
@BrowserTest
class SignInTests {

    @Autowired
    private TestNetwork network;

    @Autowired
    private TestBrowser browser;

    @Test
    void leadsBackToThePageThatWasAskedFor() {
        TestCentre centre = network.centre();
        Page page = browser.window(DESK);

        page.navigate("/questions/incidence?by=deviceClass");
        assertThat(page.title()).startsWith("Sign in");
        assertAccessible(page);
        page.fill("#key", centre.analyst().key());
        page.press("#key", "Enter");
        page.waitForURL("**/questions/incidence?by=deviceClass");

        assertThat(page.textContent("header")).contains("analyst", "A centre of the tests");
    }

    @Test
    void saysWhatToDoAboutAKeyThatIsNotGood() {
        Page page = browser.window(DESK.dark());

        page.navigate("/sign-in?next=//elsewhere.example/");
        page.fill("#key", "no-such-key");
        page.press("#key", "Enter");
        page.waitForSelector("[role=alert]");

        assertThat(page.textContent("[role=alert]")).contains("ask the network's steward");
        assertThat(page.inputValue("#key")).isEmpty();
        assertThat(page.getAttribute("input[name=next]", "value")).isEqualTo("/");
        assertAccessible(page);
    }

    @Test
    void leavesNothingBehindAfterSigningOut() {
        Page page = browser.signedIn(network.centre().submitter(), DESK);

        page.click("text=Sign out");
        page.waitForSelector("text=You have signed out");
        Response response = page.navigate("/");

        assertThat(response.url()).contains("/sign-in");
    }

    @Test
    void answersAnUnknownAddressWithAPageThatSaysWhereToGo() {
        Page page = browser.signedIn(network.centre().submitter(), DESK);

        Response response = page.navigate("/no/such/page");

        assertThat(response.status()).isEqualTo(404);
        assertThat(page.textContent("main")).contains("Start from the menu");
        assertAccessible(page);
    }
}
