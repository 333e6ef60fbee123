package entrapment.registry.meetings.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Limits;
import entrapment.registry.exports.NumberMarks;
import entrapment.registry.meetings.Actions;
import entrapment.registry.meetings.Effect;
import entrapment.registry.meetings.Measure;
import entrapment.registry.meetings.Meetings;
import entrapment.registry.stats.ProportionEstimate;
import java.util.Locale;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What a meeting agreed, as its page sends it, and a page that says whether it helped. */
@Controller
@RequestMapping(MeetingFormPage.PATH + "/{meeting}/actions")
class ActionPages {

    private final Meetings meetings;
    private final Actions actions;
    private final MeetingFormPage page;

    ActionPages(Meetings meetings, Actions actions, MeetingFormPage page) {
        this.meetings = meetings;
        this.actions = actions;
        this.page = page;
    }

    @PostMapping
    ModelAndView add(
            @PathVariable String meeting,
            @RequestParam MultiValueMap<String, String> form,
            @AuthenticationPrincipal Viewer viewer,
            RedirectAttributes redirect) {
        return page.store(
                meeting, "action-new", form, viewer, redirect, sent -> actions.add(meeting, sent.action(), viewer));
    }

    @PostMapping("/{action}")
    ModelAndView change(
            @PathVariable String meeting,
            @PathVariable String action,
            @RequestParam MultiValueMap<String, String> form,
            @AuthenticationPrincipal Viewer viewer,
            RedirectAttributes redirect) {
        return page.store(
                meeting,
                "action-" + action,
                form,
                viewer,
                redirect,
                sent -> actions.change(
                        meeting, MeetingController.number(action), sent.action(), sent.version(), viewer));
    }

    /** Whether an action helped, as the data stand. */
    @GetMapping("/{action}")
    String effect(
            @PathVariable String meeting,
            @PathVariable String action,
            Locale locale,
            @AuthenticationPrincipal Viewer viewer,
            Model model) {
        int number = MeetingController.number(action);
        Effect effect = actions.effect(meeting, number, null, viewer);
        model.addAttribute("meeting", meetings.summary(meeting, viewer));
        model.addAttribute("action", actions.find(meeting, number, viewer));
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

    private static Limits limits(ProportionEstimate share) {
        return new Limits(share.lower(), share.upper());
    }
}
