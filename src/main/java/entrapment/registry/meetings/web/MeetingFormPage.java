package entrapment.registry.meetings.web;

import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberMarks;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import entrapment.registry.intake.Settings;
import entrapment.registry.meetings.ActionStatus;
import entrapment.registry.meetings.ChoiceRule;
import entrapment.registry.meetings.FactorType;
import entrapment.registry.meetings.Measure;
import entrapment.registry.meetings.MeetingKind;
import entrapment.registry.meetings.MeetingRights;
import entrapment.registry.meetings.MeetingView;
import entrapment.registry.meetings.Meetings;
import entrapment.registry.meetings.OwnerRole;
import entrapment.registry.meetings.Preventability;
import entrapment.registry.reports.Reports;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Harm;
import entrapment.registry.vocabulary.Period;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.http.HttpStatusCode;
import org.springframework.stereotype.Component;
import org.springframework.ui.ModelMap;
import org.springframework.util.MultiValueMap;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** The page of a meeting with its forms: what they offer, and where each of them leads. */
@Component
class MeetingFormPage {

    static final String PATH = "/meetings";

    private static final int PERIODS_SUGGESTED = 16;

    private final Meetings meetings;
    private final MeetingRights rights;
    private final Settings settings;
    private final Clock clock;

    MeetingFormPage(Meetings meetings, MeetingRights rights, Settings settings, Clock clock) {
        this.meetings = meetings;
        this.rights = rights;
        this.settings = settings;
        this.clock = clock;
    }

    ModelAndView show(String meeting, Viewer viewer) {
        return show(meeting, viewer, "", Map.of());
    }

    /**
     * The page.
     *
     * @param at the form that was refused; empty for none
     * @param typed what was typed in it
     */
    private ModelAndView show(String meeting, Viewer viewer, String at, Map<String, List<String>> typed) {
        MeetingView view = meetings.find(meeting, viewer);
        return new ModelAndView("meetings/meeting", choices(viewer))
                .addObject("view", view)
                .addObject("exhibitsBefore", before(view.answers()))
                .addObject("marks", NumberMarks.of(LocaleContextHolder.getLocale()))
                .addObject("at", at)
                .addObject("typed", typed);
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

    ModelMap choices(Viewer viewer) {
        return new ModelMap()
                .addAttribute("prepares", viewer.role() != Role.SUBMITTER)
                .addAttribute("kinds", MeetingKind.values())
                .addAttribute("rules", ChoiceRule.values())
                .addAttribute("devices", DeviceClass.values())
                .addAttribute("harms", Harm.values())
                .addAttribute("factorTypes", FactorType.values())
                .addAttribute("ratings", Preventability.values())
                .addAttribute("owners", OwnerRole.values())
                .addAttribute("statuses", ActionStatus.values())
                .addAttribute("reports", Measure.Reported.values())
                .addAttribute("cautions", Reports.CAUTIONS)
                .addAttribute(
                        "periods",
                        Period.endingAt(LocalDate.now(clock), PERIODS_SUGGESTED, settings.periodResolution()));
    }

    /**
     * Stores a change, and leads back to its form; where it is refused, shows the page with what was typed.
     *
     * @param at the form, by the id of its place on the page
     */
    ModelAndView store(
            String meeting,
            String at,
            MultiValueMap<String, String> form,
            Viewer viewer,
            RedirectAttributes redirect,
            Consumer<MeetingForm> change) {
        rights.requirePreparer(meeting, viewer);
        MeetingForm sent = new MeetingForm(form);
        try {
            change.accept(sent);
        } catch (Refusal refusal) {
            boolean tells =
                    refusal.errors().stream().anyMatch(error -> error.code().equals("text-identifying"));
            return refused(refusal, () -> show(meeting, viewer, tells ? "" : at, sent.typed()));
        }
        redirect.addFlashAttribute("saved", true);
        return new ModelAndView("redirect:" + PATH + "/" + meeting + "#" + at);
    }

    /** A page that says why something was refused, if whoever typed it can do something about it. */
    static ModelAndView refused(Refusal refusal, Supplier<ModelAndView> page) {
        if (refusal.problem() != Problem.REFUSED && refusal.problem() != Problem.STALE) {
            throw refusal;
        }
        ModelAndView refused = page.get().addObject("refusal", refusal);
        refused.setStatus(HttpStatusCode.valueOf(refusal.problem().status()));
        return refused;
    }
}
