package entrapment.registry.pages;

import entrapment.registry.access.Centres;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.activity.Activity;
import entrapment.registry.activity.CsvReading;
import entrapment.registry.activity.StoredReturn;
import entrapment.registry.cases.BulkOutcome;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.CasesOfPeriod;
import entrapment.registry.intake.Bodies;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import entrapment.registry.intake.Rows.Row;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Period;
import jakarta.servlet.http.HttpServletResponse;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;

/**
 * Files of cases and returns, sent by people: first checked, then sent. A file arrives as the body of a request, as a
 * program would send it; without scripts, rows are pasted into a form.
 */
@Controller
@RequestMapping("/send-data")
class SendDataPages {

    private static final String PAGE = "send-data";
    private static final String PART = "send-data :: result";
    private static final String CSV = "text/csv";
    private static final String NDJSON = "application/x-ndjson";
    private static final long LARGEST_CASES = 512L * 1_024 * 1_024;
    private static final long LARGEST_RETURN = 8L * 1_024 * 1_024;

    /** How often a page is told how far its file has been read. */
    private static final int ROWS_BETWEEN_NEWS = 100;

    private static final int YEARS = 2;

    private final Cases cases;
    private final Activity activity;
    private final Centres centres;
    private final Settings settings;
    private final SentFile.Explainer explainer;
    private final Clock clock;

    SendDataPages(
            Cases cases,
            Activity activity,
            Centres centres,
            Settings settings,
            SentFile.Explainer explainer,
            Clock clock) {
        this.cases = cases;
        this.activity = activity;
        this.centres = centres;
        this.settings = settings;
        this.explainer = explainer;
        this.clock = clock;
    }

    /** What the registry holds of one period of a centre. */
    public record Received(
            Period period, CasesOfPeriod cases, @Nullable StoredReturn activity, boolean running) {}

    @GetMapping
    String show(@RequestParam(defaultValue = "") String centre, @AuthenticationPrincipal Viewer viewer, Model model) {
        return page(own(centre, viewer), viewer, model);
    }

    private static String own(String centre, Viewer viewer) {
        String own = viewer.centre();
        String asked = centre.isEmpty() && own != null ? own : centre;
        if (!asked.isEmpty()) {
            viewer.requireOwn(asked);
        }
        return asked;
    }

    private String page(String centre, Viewer viewer, Model model) {
        model.addAttribute("centre", centre);
        model.addAttribute("centres", viewer.isSteward() ? centres.list(viewer) : List.of());
        model.addAttribute("sends", viewer.role() != Role.ANALYST);
        List<Period> periods = periods();
        model.addAttribute("periods", periods);
        model.addAttribute("last", periods.get(1));
        model.addAttribute("received", centre.isEmpty() ? List.of() : received(centre, periods, viewer));
        return PAGE;
    }

    private List<Received> received(String centre, List<Period> periods, Viewer viewer) {
        Map<Period, CasesOfPeriod> held = cases.received(centre, viewer).stream()
                .collect(Collectors.toMap(CasesOfPeriod::period, Function.identity()));
        Map<Period, StoredReturn> returns = activity.list(centre, viewer).stream()
                .collect(Collectors.toMap(StoredReturn::period, Function.identity()));
        return periods.stream()
                .map(period -> new Received(
                        period,
                        held.getOrDefault(period, new CasesOfPeriod(period, 0, 0, 0)),
                        returns.get(period),
                        period.equals(periods.get(0))))
                .toList();
    }

    /** The current period and those before it, newest first. */
    private List<Period> periods() {
        return Period.endingAt(
                LocalDate.now(clock), YEARS * settings.periodResolution().perYear() + 1, settings.periodResolution());
    }

    @GetMapping("/templates/{name}")
    ResponseEntity<byte[]> template(@PathVariable String name) {
        String text = DataTemplates.find(name, periods().get(1))
                .orElseThrow(() -> Problem.NOT_FOUND.refusal("There is no such template."));
        return ResponseEntity.ok()
                .header(HttpHeaders.CONTENT_DISPOSITION, "attachment; filename=\"" + name + "\"")
                .contentType(MediaType.parseMediaType((name.endsWith("ndjson") ? NDJSON : CSV) + ";charset=UTF-8"))
                .body(text.getBytes(StandardCharsets.UTF_8));
    }

    @PostMapping(
            path = "/cases",
            consumes = {CSV, NDJSON})
    String cases(
            @RequestParam(defaultValue = "") String centre,
            @RequestParam(defaultValue = "check") String mode,
            @RequestHeader(HttpHeaders.CONTENT_TYPE) MediaType type,
            InputStream body,
            @AuthenticationPrincipal Viewer viewer,
            HttpServletResponse response,
            Model model)
            throws IOException {
        String own = sender(centre, viewer);
        Consumer<Long> news = news(response);
        boolean json = MediaType.valueOf(NDJSON).includes(type);
        many(own, mode, Cases.rows(json, Bodies.limited(body, LARGEST_CASES)), news, viewer, model);
        return PART;
    }

    @PostMapping(path = "/activity", consumes = CSV)
    String activityAsCsv(
            @RequestParam(defaultValue = "") String centre,
            @RequestParam(defaultValue = "") String period,
            @RequestParam(defaultValue = "check") String mode,
            InputStream body,
            @AuthenticationPrincipal Viewer viewer,
            Model model) {
        oneReturn(sender(centre, viewer), period, mode, body, viewer, model);
        return PART;
    }

    @PostMapping(consumes = MediaType.APPLICATION_FORM_URLENCODED_VALUE)
    String pasted(
            @RequestParam(defaultValue = "") String centre,
            @RequestParam(defaultValue = "cases") String kind,
            @RequestParam(defaultValue = "") String period,
            @RequestParam(defaultValue = "check") String mode,
            @RequestParam(defaultValue = "") String text,
            @AuthenticationPrincipal Viewer viewer,
            Model model) {
        String own = sender(centre, viewer);
        InputStream body = new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8));
        if (kind.equals("activity")) {
            oneReturn(own, period, mode, body, viewer, model);
        } else {
            boolean json = text.stripLeading().startsWith("{");
            many(own, mode, Cases.rows(json, body), number -> {}, viewer, model);
        }
        model.addAttribute("pasted", true);
        return page(own, viewer, model);
    }

    private String sender(String centre, Viewer viewer) {
        String own = own(centre, viewer);
        viewer.requireSubmitter();
        if (own.isEmpty()) {
            throw Problem.NOT_FOUND.refusal("Choose the centre whose data these are.");
        }
        return own;
    }

    /** Writes how many rows have been read, a number a line, before the part of the page that shows the result. */
    private static Consumer<Long> news(HttpServletResponse response) throws IOException {
        response.setContentType("text/html;charset=UTF-8");
        PrintWriter writer = response.getWriter();
        return number -> {
            writer.println(number);
            writer.flush();
        };
    }

    private void many(
            String centre, String mode, Consumer<Consumer<Row>> body, Consumer<Long> news, Viewer viewer, Model model) {
        AtomicLong read = new AtomicLong();
        Consumer<Consumer<Row>> told = each -> body.accept(row -> {
            each.accept(row);
            if (read.incrementAndGet() % ROWS_BETWEEN_NEWS == 0) {
                news.accept(read.get());
            }
        });
        try {
            BulkOutcome outcome = cases.submitMany(
                    centre,
                    told,
                    new Cases.BulkMode(
                            mode.equals("valid"), !List.of("all", "valid").contains(mode)),
                    viewer);
            model.addAttribute("result", explainer.of(outcome));
        } catch (Refusal refusal) {
            model.addAttribute("result", explainer.of("cases", refusal));
        }
        model.addAttribute("mode", mode);
    }

    private void oneReturn(String centre, String period, String mode, InputStream body, Viewer viewer, Model model) {
        try {
            CsvReading reading = activity.readCsv(Bodies.limited(body, LARGEST_RETURN), period);
            boolean store = mode.equals("all") && reading.value().isPresent();
            if (store) {
                activity.submit(centre, reading.value().orElseThrow(), viewer);
            }
            model.addAttribute("result", explainer.of(reading, store));
        } catch (Refusal refusal) {
            model.addAttribute("result", explainer.of("activity", refusal));
        }
        model.addAttribute("mode", mode);
    }
}
