package entrapment.registry.meetings.web;

import entrapment.registry.access.Centres;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.IfMatch;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.FigureView;
import entrapment.registry.exports.Limits;
import entrapment.registry.exports.NumberMarks;
import entrapment.registry.exports.ResponseFormat;
import entrapment.registry.exports.slides.Deck;
import entrapment.registry.exports.slides.SlideCsv;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import entrapment.registry.intake.Settings;
import entrapment.registry.meetings.ActionStatus;
import entrapment.registry.meetings.Changes;
import entrapment.registry.meetings.ChoiceRule;
import entrapment.registry.meetings.Effect;
import entrapment.registry.meetings.FactorType;
import entrapment.registry.meetings.Measure;
import entrapment.registry.meetings.MeetingKind;
import entrapment.registry.meetings.MeetingView;
import entrapment.registry.meetings.Meetings;
import entrapment.registry.meetings.OwnerRole;
import entrapment.registry.meetings.Preventability;
import entrapment.registry.reports.Reports;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Harm;
import entrapment.registry.vocabulary.Period;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseBody;
import org.springframework.web.servlet.HandlerMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Meetings on pages: prepared, frozen, shown, printed, and followed up. */
@Controller
@RequestMapping(MeetingPages.PATH)
class MeetingPages {

    static final String PATH = "/meetings";

    private static final String PLAN = "/{meeting}/plan";
    private static final String CUT = "/{meeting}/cut";
    private static final String REVIEW = "/{meeting}/review/{caseKey}";
    private static final String RATING = "/{meeting}/review/{caseKey}/rating";
    private static final String ACTIONS = "/{meeting}/actions";
    private static final String ACTION = "/{meeting}/actions/{action}";

    private static final int PERIODS_SUGGESTED = 16;
    private static final String SAID = "said";

    private final Meetings meetings;
    private final Centres centres;
    private final Settings settings;
    private final Clock clock;

    MeetingPages(Meetings meetings, Centres centres, Settings settings, Clock clock) {
        this.meetings = meetings;
        this.centres = centres;
        this.settings = settings;
        this.clock = clock;
    }

    @GetMapping
    String list(@AuthenticationPrincipal Viewer viewer, Model model) {
        return listed(viewer, Map.of(), model);
    }

    private String listed(Viewer viewer, Map<String, String> typed, Model model) {
        model.addAttribute("meetings", meetings.list(viewer));
        model.addAttribute("centres", viewer.isSteward() ? centres.list(viewer) : List.of());
        model.addAttribute("viewer", viewer);
        model.addAttribute("typed", typed);
        choices(viewer, model);
        return "meetings/list";
    }

    private void choices(Viewer viewer, Model model) {
        model.addAttribute("prepares", viewer.role() != Role.SUBMITTER);
        model.addAttribute("kinds", MeetingKind.values());
        model.addAttribute("rules", ChoiceRule.values());
        model.addAttribute("devices", DeviceClass.values());
        model.addAttribute("harms", Harm.values());
        model.addAttribute("factorTypes", FactorType.values());
        model.addAttribute("ratings", Preventability.values());
        model.addAttribute("owners", OwnerRole.values());
        model.addAttribute("statuses", ActionStatus.values());
        model.addAttribute("reports", Measure.Reported.values());
        model.addAttribute("cautions", Reports.CAUTIONS);
        model.addAttribute(
                "periods",
                Period.endingAt(
                        LocalDate.now(clock.withZone(ZoneOffset.UTC)), PERIODS_SUGGESTED, settings.periodResolution()));
    }

    @PostMapping
    String create(
            @RequestParam MultiValueMap<String, String> form,
            @AuthenticationPrincipal Viewer viewer,
            HttpServletResponse response,
            Model model) {
        meetings.requirePreparer(viewer);
        try {
            return "redirect:" + PATH + "/"
                    + meetings.create(new MeetingForm(form).plan(), viewer).id();
        } catch (Refusal refusal) {
            refused(refusal, response, model);
            return listed(viewer, form.toSingleValueMap(), model);
        }
    }

    @GetMapping("/{meeting}")
    String show(@PathVariable String meeting, Locale locale, @AuthenticationPrincipal Viewer viewer, Model model) {
        return shown(meeting, viewer, locale, "", null, model);
    }

    /**
     * The page of a meeting.
     *
     * @param at the form that was refused, to be shown with what was typed
     */
    private String shown(
            String meeting,
            Viewer viewer,
            Locale locale,
            String at,
            @Nullable MultiValueMap<String, String> typed,
            Model model) {
        MeetingView view = meetings.find(meeting, viewer);
        model.addAttribute("view", view);
        model.addAttribute("exhibitsBefore", before(view.answers()));
        model.addAttribute("marks", NumberMarks.of(locale));
        model.addAttribute("at", at);
        model.addAttribute("typed", typed == null ? Map.of() : new MeetingForm(typed).typed());
        choices(viewer, model);
        return "meetings/meeting";
    }

    /** How many exhibits stand before those of each answer, so that each is drawn from its own figure. */
    private static List<Integer> before(List<Answer> answers) {
        List<Integer> before = new ArrayList<>();
        int count = 0;
        for (Answer answer : answers) {
            before.add(count);
            count += answer.exhibits().size();
        }
        return before;
    }

    /** A change that worked leads back to its place on the page; one that was refused shows the page with what was typed. */
    @PostMapping({PLAN, CUT, REVIEW, RATING, ACTIONS, ACTION})
    String change(
            @PathVariable Map<String, String> path,
            @RequestParam MultiValueMap<String, String> form,
            @AuthenticationPrincipal Viewer viewer,
            Locale locale,
            HttpServletRequest request,
            HttpServletResponse response,
            RedirectAttributes redirect,
            Model model) {
        String pattern = String.valueOf(request.getAttribute(HandlerMapping.BEST_MATCHING_PATTERN_ATTRIBUTE));
        String meeting = path.getOrDefault("meeting", "");
        String caseKey = path.getOrDefault("caseKey", "");
        String action = path.getOrDefault("action", "");
        meetings.requirePreparer(meeting, viewer);
        MeetingForm sent = new MeetingForm(form);
        String at = "";
        try {
            switch (pattern.substring(PATH.length())) {
                case PLAN -> {
                    at = "plan";
                    meetings.change(meeting, sent.plan(), match(form), viewer);
                }
                case CUT -> {
                    at = "cut";
                    Changes changes = cut(meeting, form.getFirst("do"), viewer).changes();
                    if (changes != null) {
                        redirect.addFlashAttribute("changes", changes);
                    }
                }
                case REVIEW -> {
                    at = "review-" + caseKey;
                    meetings.review(meeting, caseKey, sent.review(), match(form), viewer);
                }
                case RATING -> {
                    at = "rating-" + caseKey;
                    meetings.rate(meeting, caseKey, sent.rating(), viewer);
                }
                case ACTIONS -> {
                    at = "action-new";
                    meetings.addAction(meeting, sent.action(), viewer);
                }
                default -> {
                    at = "action-" + action;
                    meetings.changeAction(
                            meeting, MeetingController.number(action), sent.action(), match(form), viewer);
                }
            }
            redirect.addFlashAttribute(SAID, at.replaceAll("-.*", ""));
            return "redirect:" + PATH + "/" + meeting + "#" + at;
        } catch (Refusal refusal) {
            refused(refusal, response, model);
            boolean tells =
                    refusal.errors().stream().anyMatch(error -> error.code().equals("text-identifying"));
            return shown(meeting, viewer, locale, tells ? "" : at, form, model);
        }
    }

    private MeetingView.CutAnswer cut(String meeting, @Nullable String step, Viewer viewer) {
        return switch (String.valueOf(step)) {
            case "freeze" -> meetings.freeze(meeting, viewer);
            case "recut" -> meetings.recut(meeting, viewer);
            case "thaw" -> meetings.thaw(meeting, viewer);
            default ->
                throw Problem.refused(List.of(new FieldError("/do", "not-a-code", "do must be freeze, recut, thaw")));
        };
    }

    private static void refused(Refusal refusal, HttpServletResponse response, Model model) {
        if (refusal.problem() != Problem.REFUSED && refusal.problem() != Problem.STALE) {
            throw refusal;
        }
        response.setStatus(refusal.problem().status());
        model.addAttribute("refusal", refusal);
    }

    /** Whether an action helped, as the data stand. */
    @GetMapping("/{meeting}/actions/{action}")
    String effect(
            @PathVariable String meeting,
            @PathVariable String action,
            Locale locale,
            @AuthenticationPrincipal Viewer viewer,
            Model model) {
        int number = MeetingController.number(action);
        MeetingView view = meetings.find(meeting, viewer);
        model.addAttribute("view", view);
        model.addAttribute(
                "action",
                view.actions().stream()
                        .filter(each -> each.number() == number)
                        .findFirst()
                        .orElseThrow(() -> Problem.NOT_FOUND.refusal("The meeting has no such action.")));
        Effect effect = meetings.effect(meeting, number, null, viewer);
        model.addAttribute("effect", effect);
        model.addAttribute(
                "unit",
                Column.of(
                        "",
                        effect.measure().report() == Measure.Reported.INCIDENCE
                                ? Column.Kind.PER_THOUSAND
                                : Column.Kind.PERCENT));
        model.addAttribute("counts", Column.of("", Column.Kind.COUNT));
        model.addAttribute("beforeLimits", limits(effect.before()));
        model.addAttribute("afterLimits", limits(effect.after()));
        model.addAttribute("marks", NumberMarks.of(locale));
        return "meetings/effect";
    }

    private static Limits limits(Effect.Share share) {
        return new Limits(share.lower(), share.upper());
    }

    /** What the page's script draws, of every exhibit in its order. */
    @GetMapping(path = "/{meeting}/figures", produces = MediaType.APPLICATION_JSON_VALUE)
    @ResponseBody
    List<@Nullable FigureView> figures(
            @PathVariable String meeting, Locale locale, @AuthenticationPrincipal Viewer viewer) {
        List<Exhibit> exhibits = meetings.find(meeting, viewer).answers().stream()
                .flatMap(answer -> answer.exhibits().stream())
                .toList();
        return FigureView.of(exhibits, NumberMarks.of(locale));
    }

    @GetMapping("/{meeting}/slides")
    ResponseEntity<Object> slides(
            @PathVariable String meeting, HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        ResponseFormat rendition = ResponseFormat.alone(request, ResponseFormat.Form.PPTX, ResponseFormat.Form.CSV);
        Deck deck = meetings.deck(meeting, rendition.dark(), viewer);
        return rendition.download("meeting", deck.title(), () -> SlideCsv.of(deck), () -> deck);
    }

    @GetMapping("/{meeting}/actions.ics")
    ResponseEntity<String> calendar(@PathVariable String meeting, @AuthenticationPrincipal Viewer viewer) {
        return ResponseEntity.ok()
                .contentType(new MediaType("text", "calendar", StandardCharsets.UTF_8))
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment()
                                .filename("actions.ics")
                                .build()
                                .toString())
                .body(meetings.calendar(meeting, viewer));
    }

    /** The version that a form was filled in for; empty for what is new. */
    private static IfMatch match(MultiValueMap<String, String> form) {
        String version = form.getFirst("version");
        return IfMatch.of(version == null || !version.matches("[1-9][0-9]{0,8}") ? null : "\"" + version + "\"");
    }
}
