package entrapment.registry.meetings;

import entrapment.registry.access.Centres;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.IfMatch;
import entrapment.registry.intake.Problem;
import java.util.List;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * Who reads a meeting and who changes it. An analyst of the centre prepares, a submitter of it reads, the steward may act on
 * all; another centre's meeting is not there.
 */
@Component
public class MeetingRights {

    private final MeetingRows rows;
    private final Centres centres;

    MeetingRights(MeetingRows rows, Centres centres) {
        this.rows = rows;
        this.centres = centres;
    }

    /** Refuses a submitter, who reads a meeting. */
    public void requirePreparer(Viewer viewer) {
        if (viewer.role() == Role.SUBMITTER) {
            throw Problem.NOT_YOUR_ROLE.refusal(
                    "A submitter's key reads a meeting; preparing it needs an analyst's key.");
        }
    }

    /** Refuses whoever may not change this meeting, before what is sent is read. */
    @Transactional(readOnly = true)
    public void requirePreparer(String id, Viewer viewer) {
        toRead(id, viewer);
        requirePreparer(viewer);
    }

    StoredMeeting toRead(String id, Viewer viewer) {
        open(viewer);
        return rows.find(id).orElseThrow(MeetingRights::notThere);
    }

    /** The meeting, for changing it: another centre's is not there, before it is asked who may. */
    StoredMeeting toChange(String id, Viewer viewer) {
        toRead(id, viewer);
        requirePreparer(viewer);
        return rows.lock(id).orElseThrow(MeetingRights::notThere);
    }

    /** Shows this transaction the viewer's meetings; reports and cases that are asked in between show it other rows. */
    void open(Viewer viewer) {
        centres.require(viewer.centre() == null ? List.of() : List.of(viewer.centre()), viewer);
    }

    /** Refuses a change of another version than the one that is stored. */
    static void requireVersion(String etag, IfMatch ifMatch) {
        if (ifMatch.tags().isEmpty()) {
            throw Problem.MATCH_REQUIRED.refusal("This is stored already; say which version you change.");
        }
        if (!ifMatch.tags().contains("*") && !ifMatch.tags().contains(etag)) {
            throw Problem.STALE.refusal("The stored version is not the one that If-Match names.");
        }
    }

    private static RuntimeException notThere() {
        return Problem.NOT_FOUND.refusal("There is no such meeting.");
    }
}
