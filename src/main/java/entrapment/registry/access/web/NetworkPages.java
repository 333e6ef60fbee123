package entrapment.registry.access.web;

import entrapment.registry.access.AccessKeys;
import entrapment.registry.access.Centre;
import entrapment.registry.access.Centres;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Settings;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Where the steward runs the network: its centres, and what it has settled. */
@Controller
@RequestMapping("/network")
class NetworkPages {

    /** A key that ends within so many days is shown on the first page, in time to be replaced. */
    private static final long SOON_DAYS = 30;

    private final Centres centres;
    private final AccessKeys keys;
    private final Settings settings;
    private final SingleSignOnSettings signOn;
    private final Clock clock;

    NetworkPages(Centres centres, AccessKeys keys, Settings settings, SingleSignOnSettings signOn, Clock clock) {
        this.centres = centres;
        this.keys = keys;
        this.settings = settings;
        this.signOn = signOn;
        this.clock = clock;
    }

    @GetMapping
    String overview(@AuthenticationPrincipal Viewer viewer, Model model) {
        viewer.requireSteward();
        Instant now = clock.instant();
        List<KeyPages.Row> good = keys.list(viewer).stream()
                .map(key -> KeyPages.Row.of(key, now))
                .filter(KeyPages.Row::good)
                .toList();
        model.addAttribute("centres", centres.list(viewer).size());
        model.addAttribute("keys", good.size());
        model.addAttribute(
                "ending",
                good.stream()
                        .map(KeyPages.Row::key)
                        .filter(key -> key.expiresAt().isBefore(now.plus(SOON_DAYS, ChronoUnit.DAYS)))
                        .toList());
        return "access/network";
    }

    @GetMapping("/settings")
    String settings(@AuthenticationPrincipal Viewer viewer, Model model) {
        viewer.requireSteward();
        model.addAttribute("settings", settings);
        model.addAttribute("signOn", signOn);
        return "access/settings";
    }

    @GetMapping("/centres")
    String centres(@AuthenticationPrincipal Viewer viewer, Model model) {
        viewer.requireSteward();
        return centres(List.of(), viewer, model);
    }

    private String centres(List<FieldError> errors, Viewer viewer, Model model) {
        Instant now = clock.instant();
        Map<String, Long> good = keys.list(viewer).stream()
                .filter(key -> key.centre() != null && KeyPages.Row.of(key, now).good())
                .collect(Collectors.groupingBy(key -> String.valueOf(key.centre()), Collectors.counting()));
        model.addAttribute("centres", centres.list(viewer));
        model.addAttribute("good", good);
        model.addAttribute("errors", errors);
        return "access/centres";
    }

    @PostMapping("/centres")
    String add(
            @RequestParam MultiValueMap<String, String> sent,
            @AuthenticationPrincipal Viewer viewer,
            RedirectAttributes redirect,
            HttpServletResponse response,
            Model model) {
        viewer.requireSteward();
        String code = Form.of(sent, "centre").path("centre").asString("");
        Reading<String> name = CentreController.name(Form.of(sent, "name"));
        List<FieldError> errors = Form.errors(name);
        errors.addAll(0, CentreController.wrongWith(code));
        boolean known =
                centres.list(viewer).stream().anyMatch(centre -> centre.code().equals(code));
        if (known || !(name instanceof Reading.Valid<String> valid) || !errors.isEmpty()) {
            response.setStatus(Problem.REFUSED.status());
            model.addAttribute("known", known);
            return centres(errors, viewer, model);
        }
        centres.put(code, valid.value(), viewer);
        redirect.addFlashAttribute("done", "network.done.centre-added");
        return "redirect:/network/centres";
    }

    @GetMapping("/centres/{centre}")
    String centre(@PathVariable String centre, @AuthenticationPrincipal Viewer viewer, Model model) {
        viewer.requireSteward();
        model.addAttribute("centre", find(centre, viewer));
        model.addAttribute("errors", List.of());
        return "access/centre";
    }

    @PostMapping("/centres/{centre}")
    String rename(
            @PathVariable String centre,
            @RequestParam MultiValueMap<String, String> sent,
            @AuthenticationPrincipal Viewer viewer,
            RedirectAttributes redirect,
            HttpServletResponse response,
            Model model) {
        viewer.requireSteward();
        Centre stored = find(centre, viewer);
        Reading<String> name = CentreController.name(Form.of(sent, "name"));
        if (!(name instanceof Reading.Valid<String> valid)) {
            response.setStatus(Problem.REFUSED.status());
            model.addAttribute("centre", stored);
            model.addAttribute("errors", Form.errors(name));
            return "access/centre";
        }
        centres.put(stored.code(), valid.value(), viewer);
        redirect.addFlashAttribute("done", "network.done.centre-renamed");
        return "redirect:/network/centres";
    }

    private Centre find(String code, Viewer viewer) {
        return centres.list(viewer).stream()
                .filter(centre -> centre.code().equals(code))
                .findFirst()
                .orElseThrow(() -> Problem.NOT_FOUND.refusal("There is no such centre in the network."));
    }
}
