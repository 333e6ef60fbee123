package entrapment.registry.meetings;

import entrapment.registry.access.AuditTrail;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.IfMatch;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Problem;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;

/** What a meeting says of each of its cases, and how reviewers judged them. */
@Component
@Transactional
public class Reviews {

    private final MeetingRights rights;
    private final MeetingContents contents;
    private final ReviewRows rows;
    private final AuditTrail audit;
    private final Clock clock;

    Reviews(MeetingRights rights, MeetingContents contents, ReviewRows rows, AuditTrail audit, Clock clock) {
        this.rights = rights;
        this.contents = contents;
        this.rows = rows;
        this.audit = audit;
        this.clock = clock;
    }

    /** What a meeting says of one of its cases. */
    @Transactional(readOnly = true)
    public MeetingView.ReviewView find(String id, String caseKey, Viewer viewer) {
        requireCase(rights.toRead(id, viewer), caseKey, viewer);
        return view(id, caseKey);
    }

    /** Replaces what a meeting says of one of its cases. */
    public MeetingView.ReviewView put(String id, String caseKey, JsonNode body, IfMatch ifMatch, Viewer viewer) {
        StoredMeeting meeting = rights.toChange(id, viewer);
        requireCase(meeting, caseKey, viewer);
        Review review = Fields.read(body, Review::read).orRefuse();
        MeetingView.ReviewView stored = view(id, caseKey);
        if (stored.version() > 0) {
            MeetingRights.requireVersion(stored.etag(), ifMatch);
        } else if (!ifMatch.tags().isEmpty()) {
            throw Problem.STALE.refusal(
                    "There is no review of this case yet, so none of the version that If-Match names.");
        }
        rows.put(meeting, caseKey, review);
        audit.done(viewer, meeting.centre(), AuditTrail.Action.CHANGE, Meetings.THING);
        return view(id, caseKey);
    }

    /** Takes one reviewer's judgement, once; only the spread of several is ever shown. */
    public PreventabilityRatings rate(String id, String caseKey, JsonNode body, Viewer viewer) {
        StoredMeeting meeting = rights.toChange(id, viewer);
        requireCase(meeting, caseKey, viewer);
        Preventability rating = Fields.read(body, fields -> fields.requiredCode("rating", Preventability.class))
                .orRefuse();
        if (!rows.rate(meeting, caseKey, rating, clock.instant().truncatedTo(ChronoUnit.MILLIS), viewer)) {
            throw Problem.refused(List.of(new FieldError(
                    "", "rated-already", "a reviewer rates a case once, or two looks would tell what was changed")));
        }
        audit.done(viewer, meeting.centre(), AuditTrail.Action.CHANGE, Meetings.THING);
        return rows.ratings(id, caseKey);
    }

    /** Refuses a case that is not among those of the meeting; afterwards the meetings are in view again. */
    private void requireCase(StoredMeeting meeting, String caseKey, Viewer viewer) {
        boolean known = contents.caseKeys(meeting, viewer).contains(caseKey);
        rights.open(viewer);
        if (!known) {
            throw Problem.NOT_FOUND.refusal("There is no such case among those of the meeting.");
        }
    }

    private MeetingView.ReviewView view(String id, String caseKey) {
        return MeetingView.ReviewView.of(rows.texts(id, caseKey));
    }
}
