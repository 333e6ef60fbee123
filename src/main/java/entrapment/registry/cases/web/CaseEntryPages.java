package entrapment.registry.cases.web;

import entrapment.registry.access.Centres;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.CaseChange;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.IfMatch;
import entrapment.registry.cases.KeyedCase;
import entrapment.registry.cases.StoredCase;
import entrapment.registry.cases.Submission;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Period;
import jakarta.servlet.http.HttpServletResponse;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.util.UriUtils;
import tools.jackson.databind.json.JsonMapper;

/**
 * Reporting a case, and changing one: a form, a summary to confirm, and the same door as for programs. Whatever is asked of
 * the form comes back with all that was typed, so that it works without scripts; nothing is kept between two requests.
 */
@Controller
class CaseEntryPages {

    private static final String FORM = "cases/report";
    private static final int YEARS = 5;

    /** No vowels and no figures: neither a word nor a number. */
    private static final String LETTERS = "BCDFGHJKLMNPQRSTVWXZ";

    private final Cases cases;
    private final Centres centres;
    private final CaseWords words;
    private final Settings settings;
    private final Clock clock;
    private final JsonMapper json;
    private final SecureRandom random = new SecureRandom();

    CaseEntryPages(Cases cases, Centres centres, CaseWords words, Settings settings, Clock clock, JsonMapper json) {
        this.cases = cases;
        this.centres = centres;
        this.words = words;
        this.settings = settings;
        this.clock = clock;
        this.json = json;
    }

    /**
     * What one form is about.
     *
     * @param centre empty where the steward has not chosen yet
     * @param stored the case that is changed; null for a new one
     */
    private record Sending(
            Viewer viewer, String centre, @Nullable StoredCase stored) {

        String path() {
            return stored == null ? "/report-a-case" : path(stored.caseKey()) + "/edit";
        }

        String path(String caseKey) {
            return "/cases/" + UriUtils.encode(centre, "UTF-8") + "/" + UriUtils.encode(caseKey, "UTF-8");
        }
    }

    /** One column that is carried along while the summary is shown. */
    public record Carried(String name, String value) {}

    @GetMapping("/report-a-case")
    String show(@RequestParam(defaultValue = "") String centre, @AuthenticationPrincipal Viewer viewer, Model model) {
        if (viewer.role() == Role.ANALYST) {
            return "cases/reads-only";
        }
        CaseForm blank = new CaseForm(Map.of("period", periods().get(0), "caseKey", proposedKey()), 1);
        return form(sending(viewer, centre, null), blank, List.of(), "", "deviceClass", model);
    }

    @PostMapping("/report-a-case")
    String send(
            @RequestParam MultiValueMap<String, String> sent,
            @AuthenticationPrincipal Viewer viewer,
            HttpServletResponse response,
            Model model) {
        viewer.requireSubmitter();
        return answer(sending(viewer, first(sent, "centre"), null), CaseForm.of(sent), sent, response, model);
    }

    @GetMapping("/cases/{centre}/{caseKey}/edit")
    String edit(
            @PathVariable String centre,
            @PathVariable String caseKey,
            @AuthenticationPrincipal Viewer viewer,
            Model model) {
        viewer.requireOwn(centre);
        viewer.requireSubmitter();
        StoredCase stored = cases.find(centre, caseKey, viewer).orElseThrow(CaseEntryPages::notThere);
        return form(sending(viewer, centre, stored), formOf(stored), List.of(), stored.etag(), "deviceClass", model);
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
            return "redirect:" + sending(viewer, centre, null).path(caseKey);
        }
        return answer(
                sending(viewer, centre, stored.orElseThrow(CaseEntryPages::notThere)),
                CaseForm.of(sent).with("caseKey", caseKey),
                sent,
                response,
                model);
    }

    private Sending sending(Viewer viewer, String asked, @Nullable StoredCase stored) {
        String own = viewer.centre();
        String centre = asked.isEmpty() && own != null ? own : asked;
        if (!centre.isEmpty()) {
            viewer.requireOwn(centre);
        }
        return new Sending(viewer, centre, stored);
    }

    private String answer(
            Sending sending,
            CaseForm form,
            MultiValueMap<String, String> sent,
            HttpServletResponse response,
            Model model) {
        String action = first(sent, "action");
        String version = first(sent, "version");
        if (action.equals("back")) {
            return form(sending, form, List.of(), version, "deviceClass", model);
        }
        if (action.equals("add-attempt") || action.matches("(remove|up|down)-[0-9]{1,2}")) {
            return form(sending, form.after(action), List.of(), version, form.next(action), model);
        }
        Reading<KeyedCase> reading = cases.read(form.tree(), form.caseKey());
        List<FieldError> errors = errors(sending, reading);
        if (action.equals("check")) {
            model.addAttribute("form", view(sending, form, errors, ""));
            return FORM + " :: checks";
        }
        StoredCase stored = sending.stored();
        if (stored != null && !version.equals(stored.etag())) {
            return stale(sending, form, version, response, model);
        }
        if (!errors.isEmpty() || !(reading instanceof Reading.Valid<KeyedCase> valid)) {
            response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
            return form(sending, form, errors, version, "", model);
        }
        return action.equals("store")
                ? store(sending, form, valid.value(), version, response, model)
                : summary(sending, form, valid.value(), version, model);
    }

    private static List<FieldError> errors(Sending sending, Reading<KeyedCase> reading) {
        List<FieldError> errors = new ArrayList<>();
        if (sending.centre().isEmpty()) {
            errors.add(new FieldError("/centre", "missing", "centre is required"));
        }
        if (reading instanceof Reading.Refused<KeyedCase> refused) {
            errors.addAll(refused.errors());
        }
        return errors;
    }

    private String store(
            Sending sending,
            CaseForm form,
            KeyedCase keyed,
            String version,
            HttpServletResponse response,
            Model model) {
        Submission submission = cases.submit(
                sending.centre(), keyed, IfMatch.of(sending.stored() == null ? null : version), sending.viewer());
        String stored = "redirect:" + sending.path(keyed.caseKey()) + "?stored=";
        if (submission instanceof Submission.Created) {
            return stored + "created";
        }
        if (submission instanceof Submission.Changed) {
            return stored + "changed";
        }
        if (submission instanceof Submission.Unchanged) {
            return stored + "unchanged";
        }
        if (submission instanceof Submission.Stale && sending.stored() != null) {
            return stale(sending, form, version, response, model);
        }
        boolean consent = submission instanceof Submission.ConsentWithdrawn;
        response.setStatus(consent ? HttpStatus.UNPROCESSABLE_CONTENT.value() : HttpStatus.CONFLICT.value());
        return form(
                sending,
                form,
                List.of(new FieldError("/caseKey", consent ? "consent-withdrawn" : "key-taken", "caseKey is taken")),
                version,
                "",
                model);
    }

    /** Somebody else changed the case: what they changed is shown, and what was typed is kept. */
    private String stale(Sending sending, CaseForm form, String version, HttpServletResponse response, Model model) {
        StoredCase began = sending.stored();
        if (began == null) {
            throw notThere();
        }
        List<CaseChange> history = cases.history(sending.centre(), began.caseKey(), sending.viewer());
        CaseChange newest = history.get(history.size() - 1);
        List<CaseWords.Change> changes = history.stream()
                .filter(change -> change.stored().etag().equals(version))
                .findFirst()
                .map(change -> words.changes(formOf(change.stored()), formOf(newest.stored())))
                .orElse(List.of());
        model.addAttribute("changedBy", newest.by().label());
        model.addAttribute("changedAt", words.at(newest.at()));
        model.addAttribute("changesOfOthers", changes);
        response.setStatus(HttpStatus.PRECONDITION_FAILED.value());
        return form(sending, form, List.of(), newest.stored().etag(), "", model);
    }

    private String form(
            Sending sending, CaseForm form, List<FieldError> errors, String version, String focus, Model model) {
        model.addAttribute("form", view(sending, form, errors, focus));
        model.addAttribute("version", version);
        common(sending, model);
        if (sending.viewer().isSteward()) {
            model.addAttribute("centres", centres.list(sending.viewer()));
        }
        model.addAttribute("centreMissing", errors.stream().anyMatch(error -> error.pointer()
                .equals("/centre")));
        return FORM;
    }

    private void common(Sending sending, Model model) {
        model.addAttribute("path", sending.path());
        model.addAttribute("centre", sending.centre());
        model.addAttribute(
                "edited", sending.stored() == null ? null : sending.stored().caseKey());
    }

    private FormView view(Sending sending, CaseForm form, List<FieldError> errors, String focus) {
        return FormView.of(
                form,
                CaseForm.byColumn(errors),
                new FormView.Setting(periods(), settings.deviceIdentifier(), sending.stored() != null, focus),
                words);
    }

    private String summary(Sending sending, CaseForm form, KeyedCase keyed, String version, Model model) {
        StoredCase stored = sending.stored();
        common(sending, model);
        model.addAttribute("version", version);
        model.addAttribute("caseKey", keyed.caseKey());
        model.addAttribute("sentence", words.sentence(form));
        model.addAttribute("parts", words.parts(form));
        model.addAttribute("tried", words.tried(form));
        model.addAttribute("queries", keyed.queries().stream().map(words::query).toList());
        model.addAttribute("changes", stored == null ? null : words.changes(formOf(stored), form));
        model.addAttribute("attempts", form.attempts());
        model.addAttribute(
                "carried",
                form.values().entrySet().stream()
                        .sorted(Map.Entry.comparingByKey())
                        .map(value -> new Carried(value.getKey(), value.getValue()))
                        .toList());
        return "cases/summary";
    }

    private CaseForm formOf(StoredCase stored) {
        return CaseForm.of(stored.caseKey(), json.valueToTree(stored.content()));
    }

    /** The current period and those before it, newest first. */
    private List<String> periods() {
        Period latest = Period.of(LocalDate.now(clock), settings.periodResolution());
        List<String> periods = new ArrayList<>();
        Period period = new Period(latest.year() - YEARS, latest.quarter());
        while (period.compareTo(latest) <= 0) {
            periods.add(0, period.toString());
            period = period.next();
        }
        return periods;
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

    private static RuntimeException notThere() {
        return Problem.NOT_FOUND.refusal("There is no such case, or it was withdrawn.");
    }
}
