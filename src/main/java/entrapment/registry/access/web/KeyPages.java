package entrapment.registry.access.web;

import entrapment.registry.access.AccessKeys;
import entrapment.registry.access.Centres;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Reading;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
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

/** Keys on pages. A new key stands in the answer to the form that made it, and nowhere after. */
@Controller
@RequestMapping("/network/keys")
class KeyPages {

    private final AccessKeys keys;
    private final Centres centres;
    private final Clock clock;

    KeyPages(AccessKeys keys, Centres centres, Clock clock) {
        this.keys = keys;
        this.centres = centres;
        this.clock = clock;
    }

    /**
     * A key in the list.
     *
     * @param state {@code good}, {@code revoked} or {@code expired}
     * @param signedIn whether it stands for somebody whom the network's issuer vouches for, and there is no key
     */
    record Row(AccessKeys.Known key, String state, boolean signedIn) {

        static Row of(AccessKeys.Known key, Instant now) {
            String state = key.revokedAt() != null ? "revoked" : now.isBefore(key.expiresAt()) ? "good" : "expired";
            return new Row(key, state, key.id().startsWith("sso-"));
        }

        public boolean good() {
            return state.equals("good");
        }
    }

    @GetMapping
    String list(@AuthenticationPrincipal Viewer viewer, Model model) {
        List<Row> rows = rows(viewer);
        model.addAttribute("own", viewer.keyId());
        model.addAttribute("signedIn", rows.stream().anyMatch(Row::signedIn));
        model.addAttribute(
                "keys",
                rows.stream()
                        .sorted(Comparator.comparing((Row row) -> !row.good())
                                .thenComparing(row -> row.key().createdAt(), Comparator.reverseOrder()))
                        .toList());
        return "access/keys";
    }

    @GetMapping("/new")
    String form(@AuthenticationPrincipal Viewer viewer, Model model) {
        viewer.requireSteward();
        return form(List.of(), viewer, model);
    }

    private String form(List<FieldError> errors, Viewer viewer, Model model) {
        model.addAttribute("roles", Role.values());
        model.addAttribute("centres", centres.list(viewer));
        model.addAttribute("days", AccessKeys.DEFAULT_DAYS);
        model.addAttribute("longest", CentreController.LONGEST_DAYS);
        model.addAttribute("errors", errors);
        return "access/key-new";
    }

    @PostMapping
    String make(
            @RequestParam MultiValueMap<String, String> sent,
            @AuthenticationPrincipal Viewer viewer,
            HttpServletResponse response,
            Model model) {
        viewer.requireSteward();
        String centre = Form.of(sent, "centre").path("centre").asString("");
        Reading<CentreController.Wanted> reading = CentreController.wanted(Form.of(sent, "role", "label", "validDays"));
        List<FieldError> errors = Form.errors(reading);
        if (!(reading instanceof Reading.Valid<CentreController.Wanted> valid)) {
            return refused(errors, viewer, response, model);
        }
        CentreController.Wanted wanted = valid.value();
        boolean forNetwork = wanted.role() == Role.STEWARD;
        if (forNetwork && !centre.isEmpty()) {
            errors.add(
                    new FieldError("/centre", "not-a-code", "a steward's key is for the whole network, not a centre"));
        } else if (!forNetwork && centre.isEmpty()) {
            errors.add(new FieldError("/centre", "missing", "centre is required for this role"));
        }
        if (!errors.isEmpty()) {
            return refused(errors, viewer, response, model);
        }
        return shown(
                forNetwork
                        ? keys.issueSteward(wanted.label(), wanted.days(), viewer)
                        : keys.issue(centre, wanted.role(), wanted.label(), wanted.days(), viewer),
                response,
                model);
    }

    private String refused(List<FieldError> errors, Viewer viewer, HttpServletResponse response, Model model) {
        response.setStatus(Problem.REFUSED.status());
        return form(errors, viewer, model);
    }

    /** The only time: no redirect, for it would have to keep the key somewhere on the way. */
    private static String shown(AccessKeys.Issued issued, HttpServletResponse response, Model model) {
        response.setHeader(HttpHeaders.CACHE_CONTROL, CacheControl.noStore().getHeaderValue());
        model.addAttribute("issued", issued);
        return "access/key-shown";
    }

    @GetMapping("/{id}/rotation")
    String rotation(@PathVariable String id, @AuthenticationPrincipal Viewer viewer, Model model) {
        return rotation(id, List.of(), viewer, model);
    }

    private String rotation(String id, List<FieldError> errors, Viewer viewer, Model model) {
        Row row = find(id, viewer);
        if (!row.good() || row.signedIn()) {
            throw Problem.NOT_FOUND.refusal("That key has ended, or is none; make a new one.");
        }
        model.addAttribute("row", row);
        model.addAttribute("days", AccessKeys.DEFAULT_DAYS);
        model.addAttribute("longest", CentreController.LONGEST_DAYS);
        model.addAttribute("overlap", CentreController.DEFAULT_OVERLAP_DAYS);
        model.addAttribute("longestOverlap", CentreController.LONGEST_OVERLAP_DAYS);
        model.addAttribute("errors", errors);
        return "access/key-rotation";
    }

    @PostMapping("/{id}/rotation")
    String rotate(
            @PathVariable String id,
            @RequestParam MultiValueMap<String, String> sent,
            @AuthenticationPrincipal Viewer viewer,
            HttpServletResponse response,
            Model model) {
        viewer.requireSteward();
        Reading<CentreController.Overlap> reading = CentreController.overlap(Form.of(sent, "validDays", "overlapDays"));
        if (!(reading instanceof Reading.Valid<CentreController.Overlap> valid)) {
            response.setStatus(Problem.REFUSED.status());
            return rotation(id, Form.errors(reading), viewer, model);
        }
        model.addAttribute("overlap", valid.value().overlapDays());
        return shown(keys.rotate(id, valid.value().validDays(), valid.value().overlapDays(), viewer), response, model);
    }

    @GetMapping("/{id}/revocation")
    String confirm(@PathVariable String id, @AuthenticationPrincipal Viewer viewer, Model model) {
        Row row = find(id, viewer);
        model.addAttribute("row", row);
        model.addAttribute("own", id.equals(viewer.keyId()));
        model.addAttribute("last", isLastStewardKey(row, viewer));
        return "access/key-revocation";
    }

    @PostMapping("/{id}/revocation")
    String revoke(@PathVariable String id, @AuthenticationPrincipal Viewer viewer, RedirectAttributes redirect) {
        keys.revoke(id, viewer);
        redirect.addFlashAttribute("done", "network.done.key-revoked");
        return "redirect:/network/keys";
    }

    private boolean isLastStewardKey(Row row, Viewer viewer) {
        return row.key().role() == Role.STEWARD
                && !row.signedIn()
                && rows(viewer).stream()
                        .noneMatch(other -> other.good()
                                && !other.signedIn()
                                && other.key().role() == Role.STEWARD
                                && !other.key().id().equals(row.key().id()));
    }

    private List<Row> rows(Viewer viewer) {
        Instant now = clock.instant();
        return keys.list(viewer).stream().map(key -> Row.of(key, now)).toList();
    }

    private Row find(String id, Viewer viewer) {
        return rows(viewer).stream()
                .filter(row -> row.key().id().equals(id))
                .findFirst()
                .orElseThrow(() -> Problem.NOT_FOUND.refusal("There is no such key."));
    }
}
