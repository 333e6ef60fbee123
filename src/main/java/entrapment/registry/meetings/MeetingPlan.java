package entrapment.registry.meetings;

import entrapment.registry.intake.Fields;
import entrapment.registry.vocabulary.Period;

/** What a meeting is about, as whoever prepares it sends it. */
public record MeetingPlan(MeetingKind kind, PeriodRange span, CaseChoice cases) {

    static MeetingPlan read(Fields fields, Period latest) {
        return new MeetingPlan(
                fields.requiredCode("kind", MeetingKind.class),
                PeriodRange.read(fields, latest),
                fields.object("cases", CaseChoice::read));
    }
}
