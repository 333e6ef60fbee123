package entrapment.registry.meetings;

import entrapment.registry.access.AuditTrail;
import entrapment.registry.access.Centres;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Revisions;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.IfMatch;
import entrapment.registry.exports.slides.Deck;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Period;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Base64;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;

/** The meetings of the network's centres: prepared, frozen at a data cut, and shown. */
@Component
@Transactional
public class Meetings {

    /** What the audit trail calls a meeting and all that belongs to it. */
    static final String THING = "meetings";

    private static final int LARGEST_SEED = 1_000_000;

    private final MeetingRights rights;
    private final MeetingRows rows;
    private final MeetingContents contents;
    private final Centres centres;
    private final Revisions revisions;
    private final AuditTrail audit;
    private final Settings settings;
    private final Clock clock;
    private final String program;
    private final SecureRandom random = new SecureRandom();

    Meetings(
            MeetingRights rights,
            MeetingRows rows,
            MeetingContents contents,
            Centres centres,
            Revisions revisions,
            AuditTrail audit,
            Settings settings,
            Clock clock,
            @Value("${info.version}") String program) {
        this.rights = rights;
        this.rows = rows;
        this.contents = contents;
        this.centres = centres;
        this.revisions = revisions;
        this.audit = audit;
        this.settings = settings;
        this.clock = clock;
        this.program = program;
    }

    /** Makes a meeting: of the viewer's centre, or of what the steward names, the network where nothing is named. */
    public MeetingView.Summary create(JsonNode body, Viewer viewer) {
        rights.requirePreparer(viewer);
        record Sent(@Nullable String centre, MeetingPlan plan) {}
        Sent sent = Fields.read(body, fields -> new Sent(fields.text("centre"), plan(fields)))
                .orRefuse();
        String centre = sent.centre() == null ? viewer.centre() : sent.centre();
        return centres.within(
                centre == null ? List.of() : List.of(centre), viewer, () -> add(centre, sent.plan(), viewer));
    }

    private MeetingView.Summary add(@Nullable String centre, MeetingPlan plan, Viewer viewer) {
        refuseCasesOfTheNetwork(centre, plan);
        byte[] id = new byte[9];
        random.nextBytes(id);
        StoredMeeting meeting = new StoredMeeting(
                "mtg-" + Base64.getUrlEncoder().withoutPadding().encodeToString(id),
                centre,
                plan,
                1 + random.nextInt(LARGEST_SEED),
                1,
                null,
                now());
        rows.add(meeting, viewer);
        audit.done(viewer, centre, AuditTrail.Action.CREATE, THING);
        return MeetingView.Summary.of(meeting);
    }

    private MeetingPlan plan(Fields fields) {
        return MeetingPlan.read(fields, Period.of(LocalDate.now(clock), settings.periodResolution()));
    }

    private static void refuseCasesOfTheNetwork(@Nullable String centre, MeetingPlan plan) {
        if (centre == null && plan.cases().rule() != ChoiceRule.NONE) {
            throw Problem.refused(
                    List.of(
                            new FieldError(
                                    "/cases/rule",
                                    "network-without-cases",
                                    "rule must be none: a single case stays with its centre, so the network's meeting shows figures alone")));
        }
    }

    /** The meetings that the viewer may see, newest first. */
    @Transactional(readOnly = true)
    public List<MeetingView.Summary> list(Viewer viewer) {
        rights.open(viewer);
        return rows.list().stream().map(MeetingView.Summary::of).toList();
    }

    @Transactional(readOnly = true)
    public MeetingView.Summary summary(String id, Viewer viewer) {
        return MeetingView.Summary.of(rights.toRead(id, viewer));
    }

    /** A meeting with everything; its figures as it was frozen, its texts as they stand. */
    @Transactional(readOnly = true)
    public MeetingView find(String id, Viewer viewer) {
        StoredMeeting meeting = rights.toRead(id, viewer);
        FrozenMeeting frozen = contents.frozen(meeting);
        if (frozen == null) {
            return MeetingView.of(meeting, null, false, live(meeting, viewer));
        }
        Definition texts = contents.withTextsAsTheyStand(meeting, frozen.definition());
        return MeetingView.of(
                meeting,
                frozen,
                !texts.equals(frozen.definition()),
                contents.content(meeting, texts, frozen.dataCut(), LocalDate.now(clock), viewer));
    }

    /** The slides: of a frozen meeting as it was frozen, otherwise as of now. */
    @Transactional(readOnly = true)
    public Deck deck(String id, boolean dark, Viewer viewer) {
        StoredMeeting meeting = rights.toRead(id, viewer);
        FrozenMeeting frozen = contents.frozen(meeting);
        if (frozen == null) {
            return MeetingDeck.of(live(meeting, viewer), now(), dark);
        }
        LocalDate day = LocalDate.ofInstant(frozen.frozenAt(), ZoneOffset.UTC);
        return MeetingDeck.of(
                contents.content(meeting, frozen.definition(), frozen.dataCut(), day, viewer), frozen.frozenAt(), dark);
    }

    private Content live(StoredMeeting meeting, Viewer viewer) {
        DataCut newest = revisions.cut(null);
        return contents.content(meeting, contents.live(meeting, newest, viewer), newest, LocalDate.now(clock), viewer);
    }

    /** Changes what a meeting is about, unless it is frozen. */
    public MeetingView.Summary change(String id, JsonNode body, IfMatch ifMatch, Viewer viewer) {
        StoredMeeting meeting = rights.toChange(id, viewer);
        MeetingPlan plan = Fields.read(body, this::plan).orRefuse();
        refuseCasesOfTheNetwork(meeting.centre(), plan);
        MeetingRights.requireVersion(meeting.etag(), ifMatch);
        if (meeting.frozenNumber() != null) {
            throw refused("meeting-frozen", "the meeting is frozen; unfreeze it first");
        }
        rows.change(id, plan);
        return changed(meeting, viewer);
    }

    /** Fixes every figure, text and choice of a meeting as of the newest revision. */
    public MeetingView.FreezeAnswer freeze(String id, Viewer viewer) {
        StoredMeeting meeting = rights.toChange(id, viewer);
        if (meeting.frozenNumber() != null) {
            throw refused("meeting-frozen", "the meeting is frozen already; refreeze or unfreeze it");
        }
        return freezeAt(revisions.cut(null), meeting, null, viewer);
    }

    /** Freezes a frozen meeting once more as of the newest revision, and answers what changed since. */
    public MeetingView.FreezeAnswer refreeze(String id, Viewer viewer) {
        StoredMeeting meeting = rights.toChange(id, viewer);
        FrozenMeeting before = requireFrozen(meeting);
        DataCut newest = revisions.cut(null);
        return freezeAt(newest, meeting, contents.changes(meeting, before, newest, viewer), viewer);
    }

    /** Lets a meeting show the newest figures again, and answers what changed since it was frozen. */
    public MeetingView.FreezeAnswer unfreeze(String id, Viewer viewer) {
        StoredMeeting meeting = rights.toChange(id, viewer);
        Changes changes = contents.changes(meeting, requireFrozen(meeting), revisions.cut(null), viewer);
        rights.open(viewer);
        rows.unfreeze(meeting);
        return new MeetingView.FreezeAnswer(changed(meeting, viewer), null, changes);
    }

    private MeetingView.FreezeAnswer freezeAt(
            DataCut cut, StoredMeeting meeting, @Nullable Changes changes, Viewer viewer) {
        Definition definition = contents.live(meeting, cut, viewer).with(changes);
        int number = rows.freeze(meeting, new FrozenMeeting(0, cut, now(), program, definition), viewer);
        return new MeetingView.FreezeAnswer(changed(meeting, viewer), rows.frozen(meeting.id(), number), changes);
    }

    private FrozenMeeting requireFrozen(StoredMeeting meeting) {
        FrozenMeeting frozen = contents.frozen(meeting);
        if (frozen == null) {
            throw refused("meeting-not-frozen", "the meeting is not frozen");
        }
        return frozen;
    }

    private MeetingView.Summary changed(StoredMeeting meeting, Viewer viewer) {
        audit.done(viewer, meeting.centre(), AuditTrail.Action.CHANGE, THING);
        return rows.find(meeting.id()).map(MeetingView.Summary::of).orElseThrow();
    }

    private static RuntimeException refused(String code, String detail) {
        return Problem.refused(List.of(new FieldError("", code, detail)));
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MILLIS);
    }
}
