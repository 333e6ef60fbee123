package entrapment.registry.meetings.web;

import entrapment.registry.access.Centres;
import entrapment.registry.access.Viewer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.FigureView;
import entrapment.registry.exports.NumberMarks;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import entrapment.registry.meetings.Changes;
import entrapment.registry.meetings.MeetingRights;
import entrapment.registry.meetings.MeetingView;
import entrapment.registry.meetings.Meetings;
import entrapment.registry.meetings.Reviews;
import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseBody;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Meetings on pages: prepared, frozen, reviewed, shown and printed. */
@Controller
@RequestMapping(MeetingFormPage.PATH)
class MeetingPages {

    private final Meetings meetings;
    private final Reviews reviews;
    private final MeetingRights rights;
    private final Centres centres;
    private final MeetingFormPage page;
    private final MeetingFiles files;

    MeetingPages(
            Meetings meetings,
            Reviews reviews,
            MeetingRights rights,
            Centres centres,
            MeetingFormPage page,
            MeetingFiles files) {
        this.meetings = meetings;
        this.reviews = reviews;
        this.rights = rights;
        this.centres = centres;
        this.page = page;
        this.files = files;
    }

    @GetMapping
    ModelAndView list(@AuthenticationPrincipal Viewer viewer) {
        return list(viewer, Map.of());
    }

    private ModelAndView list(Viewer viewer, Map<String, String> typed) {
        return new ModelAndView("meetings/list", page.choices(viewer))
                .addObject("meetings", meetings.list(viewer))
                .addObject("centres", viewer.isSteward() ? centres.list(viewer) : List.of())
                .addObject("typed", typed);
    }

    @PostMapping
    ModelAndView create(@RequestParam MultiValueMap<String, String> form, @AuthenticationPrincipal Viewer viewer) {
        rights.requirePreparer(viewer);
        try {
            MeetingView.Summary made = meetings.create(new MeetingForm(form).plan(), viewer);
            return new ModelAndView("redirect:" + MeetingFormPage.PATH + "/" + made.id());
        } catch (Refusal refusal) {
            return MeetingFormPage.refused(refusal, () -> list(viewer, form.toSingleValueMap()));
        }
    }

    @GetMapping("/{meeting}")
    ModelAndView show(@PathVariable String meeting, @AuthenticationPrincipal Viewer viewer) {
        return page.show(meeting, viewer);
    }

    @PostMapping("/{meeting}/plan")
    ModelAndView change(
            @PathVariable String meeting,
            @RequestParam MultiValueMap<String, String> form,
            @AuthenticationPrincipal Viewer viewer,
            RedirectAttributes redirect) {
        return page.store(
                meeting,
                "plan",
                form,
                viewer,
                redirect,
                sent -> meetings.change(meeting, sent.plan(), sent.version(), viewer));
    }

    @PostMapping("/{meeting}/cut")
    ModelAndView freeze(
            @PathVariable String meeting,
            @RequestParam MultiValueMap<String, String> form,
            @AuthenticationPrincipal Viewer viewer,
            RedirectAttributes redirect) {
        return page.store(meeting, "cut", form, viewer, redirect, sent -> {
            Changes changes = freeze(meeting, form.getFirst("do"), viewer).changes();
            if (changes != null) {
                redirect.addFlashAttribute("changes", changes);
            }
        });
    }

    private MeetingView.FreezeAnswer freeze(String meeting, @Nullable String step, Viewer viewer) {
        return switch (String.valueOf(step)) {
            case "freeze" -> meetings.freeze(meeting, viewer);
            case "recut" -> meetings.refreeze(meeting, viewer);
            case "thaw" -> meetings.unfreeze(meeting, viewer);
            default ->
                throw Problem.refused(List.of(new FieldError("/do", "not-a-code", "do must be freeze, recut, thaw")));
        };
    }

    @PostMapping("/{meeting}/review/{caseKey}")
    ModelAndView review(
            @PathVariable String meeting,
            @PathVariable String caseKey,
            @RequestParam MultiValueMap<String, String> form,
            @AuthenticationPrincipal Viewer viewer,
            RedirectAttributes redirect) {
        return page.store(
                meeting,
                "review-" + caseKey,
                form,
                viewer,
                redirect,
                sent -> reviews.put(meeting, caseKey, sent.review(), sent.version(), viewer));
    }

    @PostMapping("/{meeting}/review/{caseKey}/rating")
    ModelAndView rate(
            @PathVariable String meeting,
            @PathVariable String caseKey,
            @RequestParam MultiValueMap<String, String> form,
            @AuthenticationPrincipal Viewer viewer,
            RedirectAttributes redirect) {
        return page.store(
                meeting,
                "rating-" + caseKey,
                form,
                viewer,
                redirect,
                sent -> reviews.rate(meeting, caseKey, sent.rating(), viewer));
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
        return files.slides(meeting, request, viewer);
    }

    @GetMapping("/{meeting}/actions.ics")
    ResponseEntity<String> calendar(@PathVariable String meeting, @AuthenticationPrincipal Viewer viewer) {
        return files.calendar(meeting, viewer);
    }
}
