package entrapment.registry.meetings.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.meetings.Reviews;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** The review of a meeting's cases, as the page of the meeting sends it. */
@Controller
@RequestMapping(MeetingFormPage.PATH + "/{meeting}/review/{caseKey}")
class ReviewPages {

    private final Reviews reviews;
    private final MeetingFormPage page;

    ReviewPages(Reviews reviews, MeetingFormPage page) {
        this.reviews = reviews;
        this.page = page;
    }

    @PostMapping
    ModelAndView put(
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

    @PostMapping("/rating")
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
}
