package entrapment.registry;

import static entrapment.registry.TestBrowser.Look.DESK;
import static entrapment.registry.TestBrowser.assertAccessible;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.Response;
import com.microsoft.playwright.options.ColorScheme;
import entrapment.registry.TestBrowser.Look;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.JsonNode;

/** What a coordinator does with cases, on pages. */
@BrowserTest
class CasePagesTests {

    private static final String KEY = "QRM-KFHW";

    @Autowired
    private TestNetwork network;

    @Autowired
    private TestBrowser browser;

    /** By keyboard alone: not one click. */
    @Test
    void aCoordinatorReportsACaseWithTwoFailedAttempts() {
        TestCentre centre = network.centre();
        Page page = browser.signedIn(centre.submitter(), DESK);
        page.navigate("/report-a-case");

        assertThat(focused(page)).isEqualTo("deviceClass");
        page.keyboard().type("Rot");
        press(page, "Tab");
        page.keyboard().type("1.25");
        to(page, "vessel");
        page.keyboard().type("Right");
        to(page, "haemodynamics");
        page.keyboard().type("Stable");
        attempt(page, 1, "Steady", "No change", "3");
        add(page, 2);
        attempt(page, 2, "Snare", "No change", "12");
        add(page, 3);
        attempt(page, 3, "Balloon beside", "Released", "21");
        to(page, "release");
        page.keyboard().type("Intact");
        to(page, "harm");
        page.keyboard().type("Mild");
        to(page, "caseKey");
        String key = page.inputValue("#caseKey");
        press(page, "Enter");
        page.waitForSelector("#confirm");
        assertThat(page.textContent(".lead"))
                .contains("Rotational atherectomy burr, 1.25 mm", "Right coronary artery", "3 attempts", "Released");
        assertAccessible(page);
        assertThat(centre.submitter().get(centre.cases() + "/" + key).status()).isEqualTo(404);
        press(page, "Enter");
        page.waitForURL("**/cases/" + centre.code() + "/" + key + "?stored=created");

        assertThat(page.textContent("main")).contains("Stored.", "after 21 min", "Retrospective registry data");
        assertAccessible(page);
        JsonNode stored = centre.submitter().get(centre.cases() + "/" + key).json();
        assertThat(stored.at("/version").asInt()).isEqualTo(1);
        assertThat(stored.at("/device/deviceSizeMm").decimalValue()).isEqualByComparingTo("1.25");
        assertThat(stored.at("/lesion/vessel").asString()).isEqualTo("rca");
        assertThat(stored.at("/attempts")).hasSize(3);
        assertThat(stored.at("/attempts/2/technique").asString()).isEqualTo("parallel-balloon");
        assertThat(stored.at("/attempts/2/minutesFromEntrapment").asInt()).isEqualTo(21);
    }

    private static void attempt(Page page, int number, String technique, String result, String minutes) {
        to(page, "attempt" + number + "Technique");
        page.keyboard().type(technique);
        press(page, "Tab");
        page.keyboard().type(result);
        press(page, "Tab");
        page.keyboard().type(minutes);
    }

    private static void add(Page page, int number) {
        to(page, "add-attempt");
        press(page, "Enter");
        page.waitForFunction("id => document.activeElement.id === id", "attempt" + number + "Technique");
    }

    private static void press(Page page, String key) {
        page.keyboard().press(key);
    }

    private static String focused(Page page) {
        return String.valueOf(page.evaluate("() => document.activeElement.id"));
    }

    /** Goes on by tabulator until the element has the focus; fails where it cannot be come to. */
    private static void to(Page page, String id) {
        for (int steps = 0; steps < 80; steps++) {
            if (focused(page).equals(id)) {
                return;
            }
            press(page, "Tab");
        }
        throw new AssertionError("not come to by keyboard: " + id);
    }

    @Test
    void showsAllErrorsAtOnceBesideTheirFieldsAndKeepsNoKeyThatNamesSomebody() {
        Page page = browser.signedIn(network.centre().submitter(), DESK);
        page.navigate("/report-a-case");
        page.fill("#deviceSizeMm", "9.99");
        page.fill("#caseKey", "1961-03-12");
        page.keyboard().press("Enter");
        page.waitForSelector("#errors");

        assertThat(focused(page)).isEqualTo("errors");
        assertThat(page.textContent("#errors"))
                .contains("Device:", "Device size:", "Haemodynamics:", "Key of the case:");
        assertThat(page.content()).doesNotContain("1961-03-12");
        assertThat(page.inputValue("#caseKey")).isEmpty();
        assertThat(page.inputValue("#deviceSizeMm")).isEqualTo("9.99");
        assertThat(page.getAttribute("#deviceSizeMm", "aria-invalid")).isEqualTo("true");
        assertAccessible(page);
        page.click("#errors a[href='#haemodynamics']");
        assertThat(page.textContent("#haemodynamics-error")).contains("This is needed");
    }

    @Test
    void checksAFieldWhenItIsLeftAndSaysNothingOfThoseNotComeToYet() {
        Page page = browser.signedIn(network.centre().submitter(), DESK);
        page.navigate("/report-a-case");
        page.selectOption("#deviceClass", "guidewire");
        page.fill("#deviceSizeMm", "3");
        page.keyboard().press("Tab");
        page.waitForFunction("() => document.getElementById('deviceSizeMm-error').textContent !== ''");

        assertThat(page.textContent("#deviceSizeMm-error")).contains("No device of this class");
        assertThat(page.textContent("#harm-error")).isEmpty();
        page.fill("#deviceSizeMm", "0.36");
        page.keyboard().press("Tab");
        page.waitForFunction("() => document.getElementById('deviceSizeMm-error').textContent === ''");
    }

    @Test
    void worksWithoutScripts() {
        TestCentre centre = network.centre();
        Page page = browser.signedIn(centre.submitter(), DESK.withoutScripts());
        page.navigate("/report-a-case");
        page.selectOption("#deviceClass", "stent");
        page.selectOption("#haemodynamics", "unstable");
        page.selectOption("#attempt1Technique", "snare");
        page.selectOption("#attempt1Result", "released");
        page.click("#add-attempt");
        page.selectOption("#attempt2Technique", "vasodilator");
        page.selectOption("#attempt2Result", "no-change");
        page.click("button[value=up-2]");
        assertThat(page.inputValue("#attempt1Technique")).isEqualTo("vasodilator");
        assertThat(page.inputValue("#attempt2Technique")).isEqualTo("snare");
        page.selectOption("#release", "intact");
        page.selectOption("#harm", "none");
        page.fill("#caseKey", KEY);
        page.click("button[value=review]:not(.unseen)");
        page.click("button[value=back]");
        assertThat(page.inputValue("#deviceClass")).isEqualTo("stent");
        page.click("button[value=review]:not(.unseen)");
        page.click("button[value=store]");

        assertThat(page.url()).endsWith("/cases/" + centre.code() + "/" + KEY + "?stored=created");
        assertThat(attempts(centre)).containsExactly("vasodilator", "snare");
    }

    private static List<String> attempts(TestCentre centre) {
        return centre.submitter()
                .get(centre.cases() + "/" + KEY)
                .json()
                .get("attempts")
                .valueStream()
                .map(attempt -> attempt.get("technique").asString())
                .toList();
    }

    @Test
    void movesAndRemovesAttemptsAndTheFocusGoesAlong() {
        TestCentre centre = centreWithACase();
        Page page = browser.signedIn(centre.submitter(), DESK);
        page.navigate("/cases/" + centre.code() + "/" + KEY + "/edit");
        page.focus("button[value=up-2]");
        page.keyboard().press("Enter");
        page.waitForFunction("() => document.getElementById('attempt1Technique').value === 'parallel-balloon'");
        page.waitForFunction("() => document.activeElement.id === 'attempt1Technique'");
        assertThat(page.isChecked("#attempt1Enablers-shaft-cut")).isTrue();
        page.focus("button[value=remove-2]");
        page.keyboard().press("Enter");
        page.waitForFunction("() => document.getElementById('attempt2Technique') === null");
        page.waitForFunction("() => document.activeElement.id === 'attempt1Technique'");
        page.focus("#caseKey, #procedureKey");
        page.keyboard().press("Enter");
        page.waitForSelector("#confirm");
        assertThat(page.textContent("main")).contains("Attempt 1, Technique", "Steady traction", "Balloon beside");
        page.keyboard().press("Enter");
        page.waitForURL("**?stored=changed");

        assertThat(attempts(centre)).containsExactly("parallel-balloon");
        assertThat(page.textContent(".steps")).contains("Changed", "First sent", "Submitter");
    }

    private TestCentre centreWithACase() {
        TestCentre centre = network.centre();
        assertThat(centre.submitter()
                        .put(centre.cases() + "/" + KEY, CaseSamples.aCase().json())
                        .status())
                .isEqualTo(201);
        return centre;
    }

    @Test
    void showsWhatSomebodyElseChangedMeanwhileAndKeepsWhatWasTyped() {
        TestCentre centre = centreWithACase();
        Page page = browser.signedIn(centre.submitter(), DESK);
        page.navigate("/cases/" + centre.code() + "/" + KEY + "/edit");
        page.selectOption("#vessel", "lad");
        assertThat(centre.submitter()
                        .put(
                                centre.cases() + "/" + KEY,
                                CaseSamples.aCase().with("/patient/sex", "male").json(),
                                "If-Match",
                                "\"1\"")
                        .status())
                .isEqualTo(200);
        page.focus("#procedureKey");
        page.keyboard().press("Enter");
        page.waitForSelector("#others");

        assertThat(page.textContent("#others"))
                .contains("Sex", "Female", "Male")
                .doesNotContain("Vessel");
        assertThat(page.inputValue("#vessel")).isEqualTo("lad");
        assertAccessible(page);
        page.selectOption("#sex", "male");
        page.focus("#procedureKey");
        page.keyboard().press("Enter");
        page.waitForSelector("#confirm");
        page.keyboard().press("Enter");
        page.waitForURL("**?stored=changed");
        JsonNode stored = centre.submitter().get(centre.cases() + "/" + KEY).json();
        assertThat(stored.at("/version").asInt()).isEqualTo(3);
        assertThat(stored.at("/patient/sex").asString()).isEqualTo("male");
        assertThat(stored.at("/lesion/vessel").asString()).isEqualTo("lad");
    }

    @Test
    void storingTwiceMakesOneCase() {
        TestCentre centre = centreWithACase();
        Page page = browser.signedIn(centre.submitter(), DESK);
        page.navigate("/cases/" + centre.code() + "/" + KEY + "/edit");
        page.focus("#procedureKey");
        page.keyboard().press("Enter");
        page.waitForSelector("#confirm");
        page.keyboard().press("Enter");
        page.waitForURL("**?stored=unchanged");

        assertThat(centre.submitter()
                        .get(centre.cases() + "/" + KEY + "/versions")
                        .json())
                .hasSize(1);
    }

    @Test
    void withdrawsACaseWithAReasonAndKeepsItsHistory() {
        TestCentre centre = centreWithACase();
        Page page = browser.signedIn(centre.submitter(), DESK);
        page.navigate("/cases/" + centre.code() + "/" + KEY + "/withdraw");
        assertAccessible(page);
        page.check("input[value=duplicate]");
        page.click("main button[type=submit]");
        page.waitForURL("**/cases/" + centre.code() + "/" + KEY);

        assertThat(page.textContent("main")).contains("This case was withdrawn: Duplicate", "First sent");
        assertThat(page.isVisible("text=Change it")).isFalse();
        assertThat(centre.submitter().get(centre.cases() + "/" + KEY).status()).isEqualTo(404);
    }

    @Test
    void findsCasesByKeyAndByCodeAndCountsThem() {
        TestCentre centre = centreWithACase();
        centre.submitter()
                .put(
                        centre.cases() + "/ZBT-GGHT",
                        CaseSamples.aCase().with("/lesion/vessel", "lad").json());
        Page page = browser.signedIn(centre.analyst(), DESK);

        page.navigate("/cases");
        assertThat(page.textContent("main")).contains("1 to 2 of 2 cases");
        page.fill("#caseKeyPrefix", "ZBT");
        page.keyboard().press("Enter");
        page.waitForURL("**/cases?caseKeyPrefix=ZBT");
        assertThat(page.textContent("main")).contains("1 to 1 of one case", "ZBT-GGHT");
        page.navigate("/cases?vessel=rca");
        assertThat(page.textContent("table")).contains(KEY).doesNotContain("ZBT-GGHT");
        page.navigate("/cases?size=1&page=2");
        assertThat(page.textContent("main")).contains("2 to 2 of 2 cases");
        page.navigate("/cases?vessel=graft");
        assertThat(page.textContent("main")).contains("No case matches");
        page.navigate("/report-a-case");
        assertThat(page.textContent("main")).contains("analyst").doesNotContain("What stuck");
    }

    @Test
    void everyPageIsAccessibleInLightAndDark() {
        TestCentre centre = centreWithACase();
        for (Look look : List.of(DESK, DESK.dark())) {
            Page page = browser.signedIn(centre.submitter(), look);
            for (String path : List.of(
                    "/report-a-case",
                    "/cases",
                    "/cases?harm=severe",
                    "/cases/" + centre.code() + "/" + KEY,
                    "/cases/" + centre.code() + "/" + KEY + "/edit",
                    "/cases/" + centre.code() + "/" + KEY + "/withdraw")) {
                page.navigate(path);
                assertAccessible(page);
                assertThat(page.evaluate("() => document.documentElement.scrollWidth <= innerWidth"))
                        .as(path + " fits " + look)
                        .isEqualTo(true);
            }
        }
        assertThat(DESK.dark().colours()).isEqualTo(ColorScheme.DARK);
        Page phone = browser.signedIn(network.stewardKey(), DESK.wide(390));
        for (String path : List.of("/report-a-case", "/cases", "/cases/" + centre.code() + "/" + KEY)) {
            phone.navigate(path);
            assertThat(phone.evaluate("() => document.documentElement.scrollWidth <= innerWidth"))
                    .as(path)
                    .isEqualTo(true);
        }
    }

    @Test
    void answersWhatNobodyShouldSendWithoutFailing() {
        TestCentre centre = centreWithACase();
        Page page = browser.signedIn(centre.submitter(), DESK);
        for (String path : List.of(
                "/cases?vessel=somewhere",
                "/cases?page=0",
                "/cases?caseKeyPrefix=1961-03-12",
                "/cases?centre=no-such",
                "/cases/" + centre.code() + "/no-such-key",
                "/cases/" + centre.code() + "/" + KEY + "?stored=<b>",
                "/cases/%22/%3Cb%3E",
                "/report-a-case?centre=%00",
                "/report-a-case?centre=other")) {
            Response response = page.navigate(path);
            assertThat(response.status()).as(path).isLessThan(500);
            assertThat(page.content()).as(path).doesNotContain("1961-03-12", "<b>");
        }
    }
}
