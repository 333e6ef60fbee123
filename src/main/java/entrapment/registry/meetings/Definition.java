package entrapment.registry.meetings;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a meeting shows besides the registry's figures: its settings and texts. Kept as it was each time the meeting is frozen.
 *
 * @param previous the periods to hold its own against
 * @param ofMeeting whether those are an earlier meeting's
 * @param followUps actions of earlier meetings that are open or whose effect is due
 * @param fitting how many cases the rule is about
 * @param changes since it was frozen before; null for the first time
 */
record Definition(
        MeetingPlan plan,
        PeriodRange previous,
        boolean ofMeeting,
        List<Action> followUps,
        int fitting,
        List<CaseTexts> cases,
        List<Action> actions,
        @Nullable Changes changes) {

    /** What is said of a case. */
    record CaseTexts(String caseKey, Review review, int reviewVersion, PreventabilityRatings preventability) {}

    List<String> keys() {
        return cases.stream().map(CaseTexts::caseKey).toList();
    }

    Definition with(@Nullable Changes since) {
        return new Definition(plan, previous, ofMeeting, followUps, fitting, cases, actions, since);
    }
}
