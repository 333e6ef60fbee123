package entrapment.registry.reports.web;

import entrapment.registry.access.Centres;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.FigureView;
import entrapment.registry.exports.NumberMarks;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.ResponseFormat;
import entrapment.registry.exports.slides.Deck;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import entrapment.registry.intake.Settings;
import entrapment.registry.reports.Reports;
import entrapment.registry.reports.question.Question;
import entrapment.registry.reports.question.Report;
import entrapment.registry.vocabulary.Period;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseBody;
import org.springframework.web.util.UriComponentsBuilder;

/** A page for each question: the answer in a sentence, the figure, the table, and how it was computed. */
@Controller
@RequestMapping("/questions/{name}")
class QuestionPages {

    private static final int PERIODS_SUGGESTED = 24;

    private final Reports reports;
    private final Centres centres;
    private final Settings settings;
    private final Clock clock;

    QuestionPages(Reports reports, Centres centres, Settings settings, Clock clock) {
        this.reports = reports;
        this.centres = centres;
        this.settings = settings;
        this.clock = clock;
    }

    @GetMapping(produces = MediaType.TEXT_HTML_VALUE)
    String page(
            @PathVariable String name,
            HttpServletRequest request,
            HttpServletResponse response,
            Locale locale,
            @AuthenticationPrincipal Viewer viewer,
            Model model) {
        Question<?, ?, ?> question = reports.question(name);
        Map<String, List<String>> given = request.getParameterMap().isEmpty() ? question.atFirst() : given(request);
        boolean part = request.getHeader("HX-Request") != null;
        response.setHeader(HttpHeaders.VARY, "HX-Request, Accept-Language");
        if (part) {
            response.setHeader("HX-Push-Url", address("/questions/" + name, given));
        }
        model.addAttribute("name", name);
        model.addAttribute("marks", NumberMarks.of(locale));
        model.addAttribute(
                "form",
                QuestionForm.of(
                        question,
                        given,
                        viewer,
                        viewer.role() == Role.SUBMITTER ? List.of() : centres.list(viewer),
                        periods()));
        try {
            show(name, reports.ask(name, given, viewer).answer(), given, model);
        } catch (Refusal refusal) {
            if (refusal.problem() != Problem.REFUSED) {
                throw refusal;
            }
            response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
            model.addAttribute(
                    "errors", refusal.errors().stream().map(FieldError::detail).toList());
        }
        return part ? "reports/question :: results" : "reports/question";
    }

    private static void show(String name, Answer answer, Map<String, List<String>> given, Model model) {
        Map<String, List<String>> pinned = new LinkedHashMap<>(given);
        pinned.put("asOf", List.of(Long.toString(answer.basis().revision())));
        model.addAttribute("answer", answer);
        model.addAttribute("level", NumberText.level(answer.basis().confidence()) + " %");
        model.addAttribute("pinned", address("/questions/" + name, pinned));
        model.addAttribute("figures", address("/questions/" + name + "/figures", pinned));
        model.addAttribute("table", address("/questions/" + name + "/table", pinned));
        model.addAttribute("slides", address("/questions/" + name + "/slides", pinned));
        model.addAttribute("request", address("/api/reports/" + name, pinned));
    }

    /** What the page's script draws, one entry for each exhibit; null where a table says it all. */
    @GetMapping(path = "/figures", produces = MediaType.APPLICATION_JSON_VALUE)
    @ResponseBody
    List<@Nullable FigureView> figures(
            @PathVariable String name,
            HttpServletRequest request,
            Locale locale,
            @AuthenticationPrincipal Viewer viewer) {
        return FigureView.of(reports.ask(name, given(request), viewer).answer().exhibits(), NumberMarks.of(locale));
    }

    @GetMapping("/table")
    ResponseEntity<Object> table(
            @PathVariable String name, HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        return download(name, given(request), viewer, new ResponseFormat(ResponseFormat.Form.CSV, true, false));
    }

    @GetMapping("/slides")
    ResponseEntity<Object> slides(
            @PathVariable String name, HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        Map<String, List<String>> given = new LinkedHashMap<>(given(request));
        boolean dark = given.remove("dark") != null;
        return download(name, given, viewer, new ResponseFormat(ResponseFormat.Form.PPTX, false, dark));
    }

    private ResponseEntity<Object> download(
            String name, Map<String, List<String>> given, Viewer viewer, ResponseFormat format) {
        Report report = reports.ask(name, given, viewer);
        return format.download(
                name + "-revision-" + report.heading().dataCut().revision(),
                report,
                report::table,
                () -> Deck.of(report.answer(), format.dark()));
    }

    private List<Period> periods() {
        LocalDate today = LocalDate.now(clock.withZone(ZoneOffset.UTC));
        return Period.endingAt(today, PERIODS_SUGGESTED, settings.periodResolution());
    }

    /** The parameters that say something; a form sends its empty fields too. */
    private static Map<String, List<String>> given(HttpServletRequest request) {
        Map<String, List<String>> given = new LinkedHashMap<>();
        request.getParameterMap().forEach((parameter, values) -> {
            List<String> said =
                    List.of(values).stream().filter(value -> !value.isBlank()).toList();
            if (!said.isEmpty()) {
                given.put(parameter, said);
            }
        });
        return given;
    }

    private static String address(String path, Map<String, List<String>> given) {
        UriComponentsBuilder address = UriComponentsBuilder.fromPath(path);
        Map<String, Object> values = new LinkedHashMap<>();
        given.forEach((name, said) -> {
            List<String> places = new ArrayList<>();
            for (int index = 0; index < said.size(); index++) {
                String place = "v" + values.size();
                values.put(place, said.get(index));
                places.add("{" + place + "}");
            }
            address.queryParam(name, places.toArray());
        });
        return address.encode().buildAndExpand(values).toUriString();
    }
}
