package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.deque.html.axecore.results.Rule;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.WaitForSelectorState;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.test.context.TestConfiguration;
import org.springframework.context.annotation.Lazy;
import org.springframework.core.env.Environment;

/** One Chromium for all browser tests; each test opens windows of its own, that share nothing. */
@Lazy
@TestConfiguration(proxyBeanMethods = false)
public class TestBrowser implements AutoCloseable {

    private final Environment environment;
    private final List<BrowserContext> windows = new ArrayList<>();

    /** The cookies of those who have signed in, by their key. */
    private final Map<String, String> signedIn = new HashMap<>();

    private @Nullable Playwright playwright;
    private @Nullable Browser browser;

    TestBrowser(Environment environment) {
        this.environment = environment;
    }

    /** Where Chromium is on this machine; a test never downloads one. */
    static Optional<Path> chromium() {
        // The first of these starts without the frame of a browser, so its windows open in a tenth of the time.
        return Stream.of(
                        System.getenv().getOrDefault("CHROMIUM", "/usr/bin/chromium-headless-shell"),
                        "/usr/bin/chromium",
                        "/usr/bin/chromium-browser",
                        "/usr/bin/google-chrome")
                .map(Path::of)
                .filter(Files::isExecutable)
                .findFirst();
    }

    /** How a window is to be. */
    public record Look(int width, int height, ColorScheme colours, boolean scripts, String language) {

        public static final Look DESK = new Look(1280, 900, ColorScheme.LIGHT, true, "en-GB");

        public Look dark() {
            return new Look(width, height, ColorScheme.DARK, scripts, language);
        }

        public Look withoutScripts() {
            return new Look(width, height, colours, false, language);
        }

        public Look wide(int pixels) {
            return new Look(pixels, height, colours, scripts, language);
        }

        public Look in(String other) {
            return new Look(width, height, colours, scripts, other);
        }
    }

    /** A window in which nobody is signed in. */
    public Page window(Look look) {
        return window(look, null);
    }

    private Page window(Look look, @Nullable String cookies) {
        BrowserContext context = browser()
                .newContext(new Browser.NewContextOptions()
                        .setBaseURL("http://localhost:" + environment.getRequiredProperty("local.server.port"))
                        .setViewportSize(look.width(), look.height())
                        .setColorScheme(look.colours())
                        .setJavaScriptEnabled(look.scripts())
                        .setLocale(look.language())
                        .setAcceptDownloads(true)
                        .setStorageState(cookies));
        context.setDefaultTimeout(30_000);
        windows.add(context);
        return context.newPage();
    }

    /** A window in which the holder of a key has signed in; in a further one the holder is so already. */
    public Page signedIn(String key, Look look) {
        String cookies = signedIn.get(key);
        Page page = window(look, cookies);
        if (cookies == null) {
            page.navigate("/sign-in?next=/methods");
            page.fill("#key", key);
            page.press("#key", "Enter");
            page.waitForURL(url -> !url.contains("/sign-in"));
            signedIn.put(key, page.context().storageState());
        } else {
            page.navigate("/methods");
        }
        return page;
    }

    /** Closes what is open; a window left behind costs memory and time. */
    void closeWindows() {
        windows.forEach(BrowserContext::close);
        windows.clear();
    }

    /** The same for a client of the API. */
    public Page signedIn(RegistryClient client, Look look) {
        return signedIn(client.key(), look);
    }

    /** Asserts that axe (Deque) finds nothing that a person with a disability would stumble over. */
    public static void assertAccessible(Page page) {
        // Axe judges no contrast above a gradient, such as the shades at the edges of a table that scrolls.
        page.evaluate("() => document.querySelectorAll('.scroll').forEach(one => one.style.background = 'none')");
        // What "legacy" leaves out is a second window that puts together the results of frames. There are none here,
        // and it takes four fifths of the time.
        List<Rule> violations =
                new AxeBuilder(page).setLegacyMode(true).analyze().getViolations();

        assertThat(violations.stream()
                        .map(rule -> rule.getId() + ": " + rule.getHelp() + " at "
                                + rule.getNodes().stream()
                                        .map(node -> String.valueOf(node.getTarget()))
                                        .toList())
                        .toList())
                .as("axe on %s", page.url())
                .isEmpty();
    }

    /** Waits until every figure of a page is drawn, or has said that it could not be. */
    public static void awaitFigures(Page page) {
        page.waitForSelector(
                "figure[data-figures]:not([data-drawn])",
                new Page.WaitForSelectorOptions().setState(WaitForSelectorState.DETACHED));
    }

    private Browser browser() {
        if (browser == null) {
            playwright = Playwright.create(
                    new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
            browser = playwright
                    .chromium()
                    .launch(new BrowserType.LaunchOptions()
                            .setExecutablePath(chromium().orElseThrow())
                            .setArgs(List.of(
                                    "--disable-background-networking",
                                    "--disable-component-update",
                                    "--disable-sync")));
        }
        return browser;
    }

    @Override
    public void close() {
        if (playwright != null) {
            playwright.close();
        }
    }
}
