package entrapment.registry.cases.web;

import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.KeyedCase;
import entrapment.registry.cases.StoredCase;
import entrapment.registry.cases.Submission;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Reading;
import entrapment.registry.vocabulary.Field;
import jakarta.servlet.http.HttpServletResponse;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.springframework.http.HttpStatus;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;

/**
 * Entering a case, and changing one: a form, a summary to confirm, and the same door as for programs. Whatever is asked of
 * the form comes back with all that was typed, so that it works without scripts; nothing is kept between two requests.
 */
@Controller
class CaseEntryPages {

    /** No vowels and no figures: neither a word nor a number. */
    private static final String LETTERS = "BCDFGHJKLMNPQRSTVWXZ";

    /** Where one begins. */
    private static final String FIRST = Field.DEVICE_CLASS.code();

    private final Cases cases;
    private final CaseEntryView view;
    private final SecureRandom random = new SecureRandom();

    CaseEntryPages(Cases cases, CaseEntryView view) {
        this.cases = cases;
        this.view = view;
    }

    @GetMapping("/report-a-case")
    String show(@RequestParam(defaultValue = "") String centre, @AuthenticationPrincipal Viewer viewer, Model model) {
        if (viewer.role() == Role.ANALYST) {
            return "cases/reads-only";
        }
        CaseForm blank = new CaseForm(
                Map.of(Field.PERIOD.code(), view.periods().get(0).toString(), Field.CASE_KEY.code(), proposedKey()), 1);
        return view.form(CaseEntry.of(viewer, centre, null, blank, ""), List.of(), FIRST, model);
    }

    @PostMapping("/report-a-case")
    String send(
            @RequestParam MultiValueMap<String, String> sent,
            @AuthenticationPrincipal Viewer viewer,
            HttpServletResponse response,
            Model model) {
        viewer.requireSubmitter();
        return answer(
                CaseEntry.of(viewer, first(sent, "centre"), null, CaseForm.of(sent), first(sent, "version")),
                first(sent, "action"),
                response,
                model);
    }

    @GetMapping("/cases/{centre}/{caseKey}/edit")
    String edit(
            @PathVariable String centre,
            @PathVariable String caseKey,
            @AuthenticationPrincipal Viewer viewer,
            Model model) {
        viewer.requireOwn(centre);
        viewer.requireSubmitter();
        StoredCase stored = cases.find(centre, caseKey, viewer).orElseThrow(Cases::notThere);
        CaseForm form = CaseForm.of(stored.keyed());
        return view.form(CaseEntry.of(viewer, centre, stored, form, stored.etag()), List.of(), FIRST, model);
    }

    @PostMapping("/cases/{centre}/{caseKey}/edit")
    String change(
            @PathVariable String centre,
            @PathVariable String caseKey,
            @RequestParam MultiValueMap<String, String> sent,
            @AuthenticationPrincipal Viewer viewer,
            HttpServletResponse response,
            Model model) {
        viewer.requireOwn(centre);
        viewer.requireSubmitter();
        Optional<StoredCase> stored = cases.find(centre, caseKey, viewer);
        if (stored.isEmpty() && !cases.versions(centre, caseKey, viewer).isEmpty()) {
            return "redirect:" + CaseEntry.path(centre, caseKey);
        }
        return answer(
                CaseEntry.of(
                        viewer,
                        centre,
                        stored.orElseThrow(Cases::notThere),
                        CaseForm.of(sent).with(Field.CASE_KEY.code(), caseKey),
                        first(sent, "version")),
                first(sent, "action"),
                response,
                model);
    }

    private String answer(CaseEntry entry, String action, HttpServletResponse response, Model model) {
        CaseForm form = entry.form();
        if (action.equals("back")) {
            return view.form(entry, List.of(), FIRST, model);
        }
        if (action.equals("add-attempt") || action.matches("(remove|up|down)-[0-9]{1,2}")) {
            return view.form(entry.with(form.after(action)), List.of(), form.next(action), model);
        }
        Reading<KeyedCase> reading = cases.read(form.tree(), form.caseKey());
        List<FieldError> errors = errors(entry, reading);
        if (action.equals("check")) {
            return view.checks(entry, errors, model);
        }
        if (entry.overtaken()) {
            return overtaken(entry, response, model);
        }
        if (!errors.isEmpty() || !(reading instanceof Reading.Valid<KeyedCase> valid)) {
            response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
            return view.form(entry, errors, "", model);
        }
        return action.equals("store")
                ? store(entry, valid.value(), response, model)
                : view.summary(entry, valid.value(), model);
    }

    private static List<FieldError> errors(CaseEntry entry, Reading<KeyedCase> reading) {
        List<FieldError> errors = new ArrayList<>();
        if (entry.centre().isEmpty()) {
            errors.add(new FieldError("/centre", "missing", "centre is required"));
        }
        if (reading instanceof Reading.Refused<KeyedCase> refused) {
            errors.addAll(refused.errors());
        }
        return errors;
    }

    private String store(CaseEntry entry, KeyedCase keyed, HttpServletResponse response, Model model) {
        Submission submission = cases.submit(entry.centre(), keyed, entry.ifMatch(), entry.viewer());
        if (submission instanceof Submission.Stored done) {
            return "redirect:" + CaseEntry.path(entry.centre(), keyed.caseKey()) + "?stored="
                    + done.how().name().toLowerCase(Locale.ROOT);
        }
        if (submission == Submission.Refused.STALE && entry.stored() != null) {
            return overtaken(entry, response, model);
        }
        boolean consent = submission == Submission.Refused.CONSENT_WITHDRAWN;
        response.setStatus(consent ? HttpStatus.UNPROCESSABLE_CONTENT.value() : HttpStatus.CONFLICT.value());
        return view.form(
                entry,
                List.of(new FieldError("/caseKey", consent ? "consent-withdrawn" : "key-taken", "caseKey is taken")),
                "",
                model);
    }

    private String overtaken(CaseEntry entry, HttpServletResponse response, Model model) {
        response.setStatus(HttpStatus.PRECONDITION_FAILED.value());
        return view.overtaken(entry, cases.history(entry.centre(), entry.form().caseKey(), entry.viewer()), model);
    }

    private String proposedKey() {
        return IntStream.range(0, 9)
                .mapToObj(place -> place == 4 ? "-" : String.valueOf(LETTERS.charAt(random.nextInt(LETTERS.length()))))
                .collect(Collectors.joining());
    }

    private static String first(MultiValueMap<String, String> sent, String name) {
        String value = sent.getFirst(name);
        return value == null ? "" : value.strip();
    }
}
