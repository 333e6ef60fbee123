package entrapment.registry.meetings;

import entrapment.registry.access.AuditTrail;
import entrapment.registry.access.Revisions;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.IfMatch;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Problem;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;

/** What a meeting agreed, and whether it helped. */
@Component
@Transactional
public class Actions {

    private final MeetingRights rights;
    private final MeetingContents contents;
    private final ActionRows rows;
    private final Revisions revisions;
    private final AuditTrail audit;
    private final Clock clock;

    Actions(
            MeetingRights rights,
            MeetingContents contents,
            ActionRows rows,
            Revisions revisions,
            AuditTrail audit,
            Clock clock) {
        this.rights = rights;
        this.contents = contents;
        this.rows = rows;
        this.revisions = revisions;
        this.audit = audit;
        this.clock = clock;
    }

    @Transactional(readOnly = true)
    public Action find(String id, int number, Viewer viewer) {
        rights.toRead(id, viewer);
        return find(id, number);
    }

    private Action find(String id, int number) {
        return rows.list(id, LocalDate.now(clock)).stream()
                .filter(action -> action.number() == number)
                .findFirst()
                .orElseThrow(() -> Problem.NOT_FOUND.refusal("The meeting has no such action."));
    }

    /** Adds what the meeting agreed. */
    public Action add(String id, JsonNode body, Viewer viewer) {
        StoredMeeting meeting = rights.toChange(id, viewer);
        int number = rows.add(meeting, plan(body, meeting), now());
        audit.done(viewer, meeting.centre(), AuditTrail.Action.CREATE, Meetings.THING);
        return find(id, number);
    }

    /** Changes an action, or says how it stands. */
    public Action change(String id, int number, JsonNode body, IfMatch ifMatch, Viewer viewer) {
        StoredMeeting meeting = rights.toChange(id, viewer);
        Action stored = find(id, number);
        Action.Plan plan = plan(body, meeting);
        MeetingRights.requireVersion(stored.etag(), ifMatch);
        rows.change(meeting, number, plan, now());
        audit.done(viewer, meeting.centre(), AuditTrail.Action.CHANGE, Meetings.THING);
        return find(id, number);
    }

    private static Action.Plan plan(JsonNode body, StoredMeeting meeting) {
        return Fields.read(
                        body, fields -> Action.Plan.read(fields, meeting.plan().span()))
                .orRefuse();
    }

    /** Whether an action helped, as of a revision; null for the newest. */
    @Transactional(readOnly = true)
    public Effect effect(String id, int number, @Nullable Long asOf, Viewer viewer) {
        StoredMeeting meeting = rights.toRead(id, viewer);
        return contents.effect(meeting, find(id, number), revisions.cut(asOf), LocalDate.now(clock), viewer);
    }

    /** The due days of a meeting's actions as iCalendar. */
    @Transactional(readOnly = true)
    public String calendar(String id, Viewer viewer) {
        rights.toRead(id, viewer);
        return Calendar.of(rows.list(id, LocalDate.now(clock)));
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MILLIS);
    }
}
