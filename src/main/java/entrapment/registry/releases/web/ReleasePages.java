package entrapment.registry.releases.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.exports.ResponseFormat;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import entrapment.registry.intake.Settings;
import entrapment.registry.releases.ReleaseView;
import entrapment.registry.releases.Releases;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What leaves the network, looked at before it is kept. */
@Controller
@RequestMapping("/network")
class ReleasePages {

    private final Releases releases;
    private final Settings settings;

    ReleasePages(Releases releases, Settings settings) {
        this.releases = releases;
        this.settings = settings;
    }

    @GetMapping("/releases")
    String list(@AuthenticationPrincipal Viewer viewer, Model model) {
        model.addAttribute("releases", releases.list(viewer));
        model.addAttribute("smallestCount", settings.smallestCount());
        return "releases/releases";
    }

    /** Computes what would be released, and keeps nothing. */
    @GetMapping("/releases/proposal")
    String propose(
            @RequestParam(defaultValue = "") String throughYear,
            @AuthenticationPrincipal Viewer viewer,
            HttpServletResponse response,
            Model model) {
        viewer.requireSteward();
        ReleaseView proposed = orSaid(() -> releases.propose(year(throughYear), viewer), response, model);
        if (proposed == null) {
            return list(viewer, model);
        }
        model.addAttribute("proposed", true);
        return show(proposed, model);
    }

    @PostMapping("/releases")
    String make(
            @RequestParam(defaultValue = "") String throughYear,
            @AuthenticationPrincipal Viewer viewer,
            RedirectAttributes redirect,
            HttpServletResponse response,
            Model model) {
        viewer.requireSteward();
        ReleaseView made = orSaid(() -> releases.make(year(throughYear), viewer), response, model);
        if (made == null) {
            return list(viewer, model);
        }
        redirect.addFlashAttribute("done", "network.done.release-made");
        return "redirect:/network/releases/" + made.number();
    }

    @GetMapping("/releases/{number}")
    String find(@PathVariable String number, @AuthenticationPrincipal Viewer viewer, Model model) {
        model.addAttribute("proposed", false);
        return show(ReleaseController.find(releases, number, viewer), model);
    }

    /** The figures without the audit, which is not for the outside. */
    @GetMapping("/releases/{number}/figures.csv")
    ResponseEntity<Object> csv(
            @PathVariable String number,
            @RequestParam(defaultValue = "true") String comments,
            @AuthenticationPrincipal Viewer viewer) {
        ReleaseView release = ReleaseController.find(releases, number, viewer);
        return new ResponseFormat(ResponseFormat.Form.CSV, !comments.equals("false"), false)
                .download("release-" + release.number(), release, release::table, ReleaseController.NO_SLIDES);
    }

    private static String show(ReleaseView release, Model model) {
        model.addAttribute("release", release);
        model.addAttribute("tables", ReleaseTables.of(release));
        return "releases/release";
    }

    /** A text that is no year counts as one that is not complete, which the door refuses with the bounds. */
    private static @Nullable Integer year(String text) {
        String year = text.strip();
        return year.isEmpty() ? null : year.matches("[0-9]{4}") ? Integer.valueOf(year) : Integer.valueOf(9999);
    }

    /** The release; or null, with what stands in its way said on the page. */
    private static @Nullable ReleaseView orSaid(
            Supplier<ReleaseView> asked, HttpServletResponse response, Model model) {
        try {
            return asked.get();
        } catch (Refusal refusal) {
            if (refusal.problem() != Problem.REFUSED) {
                throw refusal;
            }
            response.setStatus(refusal.problem().status());
            model.addAttribute("refusal", refusal);
            model.addAttribute("inTheWay", refusal.members().getOrDefault("inTheWay", List.of()));
            return null;
        }
    }
}
