package entrapment.registry;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.LoadState;
import com.microsoft.playwright.options.Media;
import com.microsoft.playwright.options.ReducedMotion;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;

/**
 * Pictures of pages of a running registry, for looking at: at 390, 1280 and 1920 pixels, dark, and printed. Not a test;
 * DEVELOPERS.md says how to run it.
 */
final class Screenshots {

    private Screenshots() {}

    /**
     * Takes the pictures.
     *
     * @param arguments address, key, folder for the pictures, then paths; {@code looks=390,dark} first of them if not all
     */
    public static void main(String[] arguments) throws Exception {
        Path folder = Files.createDirectories(Path.of(arguments[2]));
        List<String> paths = List.of(Arrays.copyOfRange(arguments, 3, arguments.length));
        List<String> looks = List.of("390", "1280", "1920", "dark", "print");
        if (paths.get(0).startsWith("looks=")) {
            looks = List.of(paths.get(0).substring("looks=".length()).split(",", -1));
            paths = paths.subList(1, paths.size());
        }
        try (Playwright playwright = Playwright.create(
                        new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
                Browser browser = playwright
                        .chromium()
                        .launch(new BrowserType.LaunchOptions()
                                .setExecutablePath(TestBrowser.chromium().orElseThrow()))) {
            Page page = browser.newContext(new Browser.NewContextOptions()
                            .setBaseURL(arguments[0])
                            .setReducedMotion(ReducedMotion.REDUCE))
                    .newPage();
            page.onConsoleMessage(message -> System.out.println("console: " + message.text()));
            page.onPageError(error -> System.out.println("error: " + error));
            page.navigate("/sign-in");
            if (!arguments[1].isEmpty()) {
                page.fill("#key", arguments[1]);
                page.press("#key", "Enter");
                page.waitForURL(url -> !url.contains("/sign-in"));
            }
            for (String path : paths) {
                String name = path.replaceAll("[^A-Za-z0-9]+", "-").replaceAll("^-|-$", "");
                for (String look : looks) {
                    take(page, path, folder.resolve((name.isEmpty() ? "home" : name) + "-" + look), look);
                }
            }
        }
    }

    private static void take(Page page, String path, Path file, String look) {
        boolean print = look.equals("print");
        boolean dark = look.equals("dark");
        page.emulateMedia(new Page.EmulateMediaOptions()
                .setMedia(print ? Media.PRINT : Media.SCREEN)
                .setColorScheme(dark ? ColorScheme.DARK : ColorScheme.LIGHT));
        page.setViewportSize(print || dark ? 1280 : Integer.parseInt(look), 900);
        page.navigate(path);
        page.waitForLoadState(LoadState.NETWORKIDLE);
        if (print) {
            page.pdf(new Page.PdfOptions().setPath(Path.of(file + ".pdf")).setFormat("A4"));
        } else {
            page.screenshot(
                    new Page.ScreenshotOptions().setPath(Path.of(file + ".png")).setFullPage(true));
        }
        System.out.println(file);
    }
}
