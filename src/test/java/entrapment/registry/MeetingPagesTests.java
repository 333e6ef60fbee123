package entrapment.registry;

import static entrapment.registry.TestBrowser.Look.DESK;
import static entrapment.registry.TestBrowser.assertAccessible;
import static entrapment.registry.TestBrowser.awaitFigures;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Page;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** A meeting from preparing it to following up, on its pages. */
@BrowserTest
class MeetingPagesTests {

    @Autowired
    private TestNetwork network;

    @Autowired
    private TestBrowser browser;

    private TestCentre centre() {
        TestCentre centre = network.centre();
        for (String period : new String[] {"2025-Q4", "2026-Q1", "2026-Q2"}) {
            centre.submitter().put(centre.activity(period), "[{\"deviceClass\": \"rotational-burr\", \"uses\": 210}]");
            for (int number = 1; number <= 2; number++) {
                centre.submitter()
                        .put(
                                centre.cases() + "/meet-" + period + "-" + number,
                                CaseSamples.aCase().with("/period", period).json());
            }
        }
        return centre;
    }

    /** Moves to a field and types or chooses there, as one does without a mouse. */
    private static void put(Page page, String field, String text) {
        page.focus(field);
        if (page.evalOnSelector(field, "f => f.tagName").equals("SELECT")) {
            page.keyboard().type(text);
        } else {
            page.keyboard().press("Control+A");
            page.keyboard().type(text);
        }
    }

    @Test
    void isPreparedReviewedFrozenAndShownByKeyboardAlone() {
        TestCentre centre = centre();
        Page page = browser.signedIn(centre.analyst(), DESK);
        page.navigate("/meetings");
        assertThat(page.textContent("main")).contains("There is no meeting yet");
        assertAccessible(page);

        put(page, "#from", "2026-Q1");
        put(page, "#to", "2026-Q2");
        put(page, "#rule", "Random");
        put(page, "#size", "2");
        page.keyboard().press("Enter");
        page.waitForURL("**/meetings/mtg-*");
        assertThat(page.textContent("main")).contains("A random sample of 2 from all 4 cases (seed");
        page.focus("article.case details summary");
        page.keyboard().press("Enter");
        put(page, "article.case input[name=statement]", "The snare was in the other lab");
        put(page, "article.case textarea[name=wentWell]", "Help was called early");
        page.focus("article.case button:has-text('Save the review')");
        page.keyboard().press("Enter");
        page.waitForSelector("[role=status]:has-text('Stored')");
        page.focus("#action-new summary");
        page.keyboard().press("Enter");
        put(page, "#new-what", "A bail-out set in each lab");
        page.fill("#new-due", "2026-12-31");
        page.focus("#action-new button");
        page.keyboard().press("Enter");
        page.waitForSelector("text=Did it help?");
        assertAccessible(page);
        page.focus("button[value=freeze]");
        page.keyboard().press("Enter");
        page.waitForSelector("text=Frozen at revision");
        Download slides = page.waitForDownload(() -> {
            page.focus("text=/^Slides$/");
            page.keyboard().press("Enter");
        });
        centre.submitter()
                .put(
                        centre.cases() + "/came-later-b",
                        CaseSamples.aCase().with("/period", "2026-Q1").json());
        page.focus("button[value=recut]");
        page.keyboard().press("Enter");
        page.waitForSelector("text=What changed since the cut before");

        assertThat(slides.suggestedFilename()).isEqualTo("meeting.pptx");
        assertThat(page.textContent("main"))
                .contains("1 new cases", "The snare was in the other lab", "Help was called early")
                .contains("Retrospective registry data", "Small numbers mislead");
        page.focus("a:has-text('Did it help?')");
        page.keyboard().press("Enter");
        page.waitForURL("**/actions/1");
        assertThat(page.textContent("main")).contains("The due day has not come", "Before", "After");
        assertAccessible(page);
    }

    @Test
    void keepsWhatWasTypedWhereItIsRefusedAndWorksWithoutScripts() {
        TestCentre centre = centre();
        Page page = browser.signedIn(centre.analyst(), DESK.dark().withoutScripts());
        page.navigate("/meetings");
        page.selectOption("#from", "2026-Q2");
        page.selectOption("#to", "2026-Q1");
        page.click("button:has-text('Prepare')");

        assertThat(page.textContent("[role=alert]")).contains("to must not be before from");
        assertThat(page.inputValue("#from")).isEqualTo("2026-Q2");
    }

    @Test
    void isReadByASubmitterWithoutAFormToChangeIt() {
        TestCentre centre = centre();
        String id = centre.analyst()
                .post(
                        "/api/meetings",
                        "{\"kind\": \"quality\", \"from\": \"2026-Q1\", \"to\": \"2026-Q2\", \"cases\": {\"rule\": \"none\"}}")
                .json()
                .required("id")
                .stringValue();
        Page page = browser.signedIn(centre.submitter(), DESK.dark().wide(390));

        page.navigate("/meetings/" + id);
        awaitFigures(page);

        assertThat(page.querySelectorAll("main form")).isEmpty();
        assertThat(page.evaluate("document.documentElement.scrollWidth <= innerWidth"))
                .isEqualTo(true);
        assertAccessible(page);
    }
}
