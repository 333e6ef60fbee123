package entrapment.registry.meetings;

import entrapment.registry.access.AuditTrail;
import entrapment.registry.access.Centres;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Revisions;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.EntrapmentCase;
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
import java.util.ArrayList;
import java.util.Base64;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;

/**
 * The meetings of the network's centres: prepared, frozen at a data cut, shown, and followed up. An analyst of the centre
 * prepares, a submitter of it reads, the steward may act on all; another centre's meeting is not there.
 */
@Component
@Transactional
public class Meetings {

    private static final String THING = "meetings";
    private static final int LARGEST_SEED = 1_000_000;

    private final MeetingRows rows;
    private final MeetingFigures figures;
    private final MeetingCases cases;
    private final Centres centres;
    private final Revisions revisions;
    private final AuditTrail audit;
    private final Settings settings;
    private final Clock clock;
    private final String program;
    private final SecureRandom random = new SecureRandom();

    Meetings(
            MeetingRows rows,
            MeetingFigures figures,
            MeetingCases cases,
            Centres centres,
            Revisions revisions,
            AuditTrail audit,
            Settings settings,
            Clock clock,
            @Value("${info.version}") String program) {
        this.rows = rows;
        this.figures = figures;
        this.cases = cases;
        this.centres = centres;
        this.revisions = revisions;
        this.audit = audit;
        this.settings = settings;
        this.clock = clock;
        this.program = program;
    }

    /** Makes a meeting: of the viewer's centre, or of what the steward names, the network where nothing is named. */
    public MeetingView.Summary create(JsonNode body, Viewer viewer) {
        requirePreparer(viewer);
        record Sent(@Nullable String centre, MeetingPlan plan) {}
        Sent sent = Fields.read(body, fields -> new Sent(fields.text("centre"), plan(fields)))
                .orRefuse();
        String centre = sent.centre() == null ? viewer.centre() : sent.centre();
        centres.require(centre == null ? List.of() : List.of(centre), viewer);
        refuseCasesOfTheNetwork(centre, sent.plan());
        byte[] id = new byte[9];
        random.nextBytes(id);
        MeetingRows.Stored meeting = new MeetingRows.Stored(
                "mtg-" + Base64.getUrlEncoder().withoutPadding().encodeToString(id),
                centre,
                sent.plan(),
                1 + random.nextInt(LARGEST_SEED),
                1,
                null,
                now());
        rows.add(meeting, viewer);
        audit.done(viewer, centre, AuditTrail.Action.CREATE, THING);
        return MeetingView.Summary.of(meeting);
    }

    private MeetingPlan plan(Fields fields) {
        return MeetingPlan.read(fields, Period.of(today(), settings.periodResolution()));
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
        open(viewer);
        return rows.list().stream().map(MeetingView.Summary::of).toList();
    }

    /** A meeting with everything; its figures as of its cut, its texts as they stand. */
    @Transactional(readOnly = true)
    public MeetingView find(String id, Viewer viewer) {
        MeetingRows.Stored meeting = require(id, viewer);
        Cut cut = cut(meeting);
        if (cut == null) {
            DataCut newest = revisions.cut(null);
            return MeetingView.of(
                    meeting, null, false, content(meeting, live(meeting, newest, viewer), newest, today(), viewer));
        }
        Definition texts = texts(meeting, cut.definition());
        return MeetingView.of(
                meeting, cut, !texts.equals(cut.definition()), content(meeting, texts, cut.dataCut(), today(), viewer));
    }

    /** Changes what a meeting is about, unless it is frozen. */
    public MeetingView.Summary change(String id, JsonNode body, IfMatch ifMatch, Viewer viewer) {
        MeetingRows.Stored meeting = prepare(id, viewer);
        MeetingPlan plan = Fields.read(body, this::plan).orRefuse();
        refuseCasesOfTheNetwork(meeting.centre(), plan);
        guard(ifMatch, meeting.etag());
        if (meeting.cut() != null) {
            throw refused("meeting-frozen", "the meeting is frozen; thaw it first");
        }
        rows.change(id, plan);
        audit.done(viewer, meeting.centre(), AuditTrail.Action.CHANGE, THING);
        return summary(id);
    }

    /** Fixes every figure, text and choice of a meeting as of the newest revision. */
    public MeetingView.CutAnswer freeze(String id, Viewer viewer) {
        MeetingRows.Stored meeting = prepare(id, viewer);
        if (meeting.cut() != null) {
            throw refused("meeting-frozen", "the meeting is frozen already; cut it anew, or thaw it");
        }
        return cutAt(meeting, revisions.cut(null), null, viewer);
    }

    /** Freezes a frozen meeting anew as of the newest revision, and answers what changed since. */
    public MeetingView.CutAnswer recut(String id, Viewer viewer) {
        MeetingRows.Stored meeting = prepare(id, viewer);
        Cut before = frozen(meeting);
        DataCut newest = revisions.cut(null);
        return cutAt(meeting, newest, changes(meeting, before, newest, viewer), viewer);
    }

    /** Takes a meeting out of its cut, and answers what changed since; the cut itself is kept. */
    public MeetingView.CutAnswer thaw(String id, Viewer viewer) {
        MeetingRows.Stored meeting = prepare(id, viewer);
        Changes changes = changes(meeting, frozen(meeting), revisions.cut(null), viewer);
        open(viewer);
        rows.setCut(id, null);
        audit.done(viewer, meeting.centre(), AuditTrail.Action.CHANGE, THING);
        return new MeetingView.CutAnswer(summary(id), null, changes);
    }

    private MeetingView.CutAnswer cutAt(
            MeetingRows.Stored meeting, DataCut at, @Nullable Changes changes, Viewer viewer) {
        Definition live = live(meeting, at, viewer);
        Definition definition = new Definition(
                live.plan(),
                live.previous(),
                live.ofMeeting(),
                live.followUps(),
                live.fitting(),
                live.cases(),
                live.actions(),
                changes);
        open(viewer);
        int number = rows.addCut(meeting, new Cut(0, at, now(), program, definition), viewer);
        rows.setCut(meeting.id(), number);
        audit.done(viewer, meeting.centre(), AuditTrail.Action.CHANGE, THING);
        return new MeetingView.CutAnswer(summary(meeting.id()), rows.cut(meeting.id(), number), changes);
    }

    private Cut frozen(MeetingRows.Stored meeting) {
        Cut cut = cut(meeting);
        if (cut == null) {
            throw refused("meeting-not-frozen", "the meeting is not frozen");
        }
        return cut;
    }

    private Changes changes(MeetingRows.Stored meeting, Cut before, DataCut newest, Viewer viewer) {
        Definition definition = before.definition();
        Scope then = scope(meeting, definition, before.dataCut(), viewer);
        Scope now = scope(meeting, definition, newest, viewer);
        return Changes.of(
                before.dataCut(), newest, cases.reasons(then, now), figures.answers(then), figures.answers(now));
    }

    /** Replaces what a meeting says of one of its cases. */
    public MeetingView.ReviewView review(String id, String caseKey, JsonNode body, IfMatch ifMatch, Viewer viewer) {
        MeetingRows.Stored meeting = prepare(id, viewer);
        requireCase(meeting, caseKey, viewer);
        Review review = Fields.read(body, Review::read).orRefuse();
        open(viewer);
        int version = rows.reviewVersion(id, caseKey);
        if (version > 0) {
            guard(ifMatch, "\"" + version + "\"");
        } else if (!ifMatch.tags().isEmpty()) {
            throw Problem.STALE.refusal(
                    "There is no review of this case yet, so none of the version that If-Match names.");
        }
        rows.keep(meeting, caseKey, review);
        audit.done(viewer, meeting.centre(), AuditTrail.Action.CHANGE, THING);
        return reviewView(id, caseKey);
    }

    /** What a meeting says of one of its cases. */
    @Transactional(readOnly = true)
    public MeetingView.ReviewView review(String id, String caseKey, Viewer viewer) {
        requireCase(require(id, viewer), caseKey, viewer);
        open(viewer);
        return reviewView(id, caseKey);
    }

    /** Takes one reviewer's judgement, once; only the spread of several is ever shown. */
    public PreventabilityRatings rate(String id, String caseKey, JsonNode body, Viewer viewer) {
        MeetingRows.Stored meeting = prepare(id, viewer);
        requireCase(meeting, caseKey, viewer);
        Preventability rating = Fields.read(body, fields -> fields.requiredCode("rating", Preventability.class))
                .orRefuse();
        open(viewer);
        if (!rows.rate(meeting, caseKey, rating, now(), viewer)) {
            throw refused("rated-already", "a reviewer rates a case once, or two looks would tell what was changed");
        }
        audit.done(viewer, meeting.centre(), AuditTrail.Action.CHANGE, THING);
        return rows.spread(id, caseKey);
    }

    private MeetingView.ReviewView reviewView(String id, String caseKey) {
        return new MeetingView.ReviewView(
                caseKey, rows.reviewVersion(id, caseKey), rows.review(id, caseKey), rows.spread(id, caseKey));
    }

    /** Refuses a case that is not among those of the meeting. */
    private void requireCase(MeetingRows.Stored meeting, String caseKey, Viewer viewer) {
        Cut cut = cut(meeting);
        List<String> keys;
        if (cut == null) {
            keys = live(meeting, revisions.cut(null), viewer).keys();
        } else {
            keys = cut.definition().keys();
        }
        if (!keys.contains(caseKey)) {
            throw Problem.NOT_FOUND.refusal("There is no such case among those of the meeting.");
        }
    }

    /** Adds what the meeting agreed. */
    public Action addAction(String id, JsonNode body, Viewer viewer) {
        MeetingRows.Stored meeting = prepare(id, viewer);
        Action.Plan plan = Fields.read(
                        body, fields -> Action.Plan.read(fields, meeting.plan().span()))
                .orRefuse();
        int number = rows.addAction(meeting, plan, now());
        audit.done(viewer, meeting.centre(), AuditTrail.Action.CREATE, THING);
        return action(id, number);
    }

    /** Changes an action, or says how it stands. */
    public Action changeAction(String id, int number, JsonNode body, IfMatch ifMatch, Viewer viewer) {
        MeetingRows.Stored meeting = prepare(id, viewer);
        Action stored = action(id, number);
        Action.Plan plan = Fields.read(
                        body, fields -> Action.Plan.read(fields, meeting.plan().span()))
                .orRefuse();
        guard(ifMatch, stored.etag());
        rows.changeAction(meeting, number, plan, now());
        audit.done(viewer, meeting.centre(), AuditTrail.Action.CHANGE, THING);
        return action(id, number);
    }

    /** Whether an action helped, as of a revision; null for the newest. */
    @Transactional(readOnly = true)
    public Effect effect(String id, int number, @Nullable Long asOf, Viewer viewer) {
        MeetingRows.Stored meeting = require(id, viewer);
        Action action = action(id, number);
        return effect(meeting, action, revisions.cut(asOf), today(), viewer);
    }

    private Effect effect(MeetingRows.Stored meeting, Action action, DataCut cut, LocalDate day, Viewer viewer) {
        return figures.effect(
                meeting.centre(),
                action.plan().measure(),
                !day.isBefore(action.plan().dueOn()),
                cut,
                Scope.asker(meeting.centre(), viewer));
    }

    private Action action(String id, int number) {
        return rows.actions(id, today()).stream()
                .filter(action -> action.number() == number)
                .findFirst()
                .orElseThrow(() -> Problem.NOT_FOUND.refusal("The meeting has no such action."));
    }

    /** The due days of a meeting's actions as iCalendar. */
    @Transactional(readOnly = true)
    public String calendar(String id, Viewer viewer) {
        require(id, viewer);
        return Calendar.of(rows.actions(id, today()));
    }

    /** The slides: of a frozen meeting as it was frozen, otherwise as of now. */
    @Transactional(readOnly = true)
    public Deck deck(String id, boolean dark, Viewer viewer) {
        MeetingRows.Stored meeting = require(id, viewer);
        Cut cut = cut(meeting);
        if (cut == null) {
            DataCut newest = revisions.cut(null);
            return MeetingDeck.of(
                    content(meeting, live(meeting, newest, viewer), newest, today(), viewer), now(), dark);
        }
        LocalDate day = LocalDate.ofInstant(cut.frozenAt(), ZoneOffset.UTC);
        return MeetingDeck.of(content(meeting, cut.definition(), cut.dataCut(), day, viewer), cut.frozenAt(), dark);
    }

    /** What a meeting shows besides figures, as it stands. */
    private Definition live(MeetingRows.Stored meeting, DataCut cut, Viewer viewer) {
        open(viewer);
        PeriodRange span = meeting.plan().span();
        MeetingRows.Stored before =
                rows.previous(meeting.centre(), span, meeting.createdAt()).orElse(null);
        PeriodRange previous = before == null ? span.before() : before.plan().span();
        Definition bare =
                new Definition(meeting.plan(), previous, before != null, List.of(), 0, List.of(), List.of(), null);
        MeetingCases.Chosen chosen =
                cases.choose(scope(meeting, bare, cut, viewer), meeting.plan().cases(), meeting.seed());
        open(viewer);
        List<Definition.CaseTexts> keys = chosen.keys().stream()
                .map(key -> new Definition.CaseTexts(key, Review.NONE, 0, PreventabilityRatings.NONE))
                .toList();
        return texts(
                meeting,
                new Definition(
                        meeting.plan(), previous, before != null, List.of(), chosen.fitting(), keys, List.of(), null));
    }

    /** The same with every text as it stands. */
    private Definition texts(MeetingRows.Stored meeting, Definition definition) {
        List<Action> followUps =
                new ArrayList<>(rows.earlier(meeting, firstDay(meeting.plan().span()), today()));
        followUps.sort(Comparator.comparing(action -> !action.overdue()));
        return new Definition(
                definition.plan(),
                definition.previous(),
                definition.ofMeeting(),
                List.copyOf(followUps),
                definition.fitting(),
                definition.keys().stream()
                        .map(key -> new Definition.CaseTexts(
                                key,
                                rows.review(meeting.id(), key),
                                rows.reviewVersion(meeting.id(), key),
                                rows.spread(meeting.id(), key)))
                        .toList(),
                rows.actions(meeting.id(), today()),
                definition.changes());
    }

    private static LocalDate firstDay(PeriodRange span) {
        Period first = span.from();
        return LocalDate.of(first.year(), first.quarter() == 0 ? 1 : first.quarter() * 3 - 2, 1);
    }

    private Content content(
            MeetingRows.Stored meeting, Definition definition, DataCut cut, LocalDate day, Viewer viewer) {
        Scope scope = scope(meeting, definition, cut, viewer);
        List<Content.FollowUp> followUps = definition.followUps().stream()
                .map(action -> new Content.FollowUp(
                        action, day.isBefore(action.plan().dueOn()) ? null : effect(meeting, action, cut, day, viewer)))
                .toList();
        Map<String, EntrapmentCase> contents = cases.contents(scope, definition.keys());
        Map<List<Object>, PresentedCase.Alike> alike = new HashMap<>();
        List<PresentedCase> presentations = new ArrayList<>();
        for (Definition.CaseTexts texts : definition.cases()) {
            EntrapmentCase stored = contents.get(texts.caseKey());
            if (stored != null) {
                presentations.add(new PresentedCase(
                        presentations.size() + 1,
                        texts.caseKey(),
                        stored,
                        alike.computeIfAbsent(
                                List.of(
                                        stored.device().deviceClass(),
                                        stored.event().mechanism()),
                                key -> cases.alike(scope, stored)),
                        texts.review(),
                        texts.reviewVersion(),
                        texts.preventability()));
            }
        }
        return new Content(
                meeting.centre(),
                cut,
                definition,
                definition
                        .plan()
                        .cases()
                        .sentence(definition.fitting(), definition.cases().size(), meeting.seed()),
                followUps,
                figures.answers(scope),
                List.copyOf(presentations));
    }

    private static Scope scope(MeetingRows.Stored meeting, Definition definition, DataCut cut, Viewer viewer) {
        return new Scope(
                meeting.centre(),
                definition.plan().span(),
                definition.previous(),
                definition.ofMeeting(),
                cut,
                Scope.asker(meeting.centre(), viewer));
    }

    private @Nullable Cut cut(MeetingRows.Stored meeting) {
        Integer number = meeting.cut();
        return number == null ? null : rows.cut(meeting.id(), number);
    }

    private MeetingView.Summary summary(String id) {
        return rows.find(id).map(MeetingView.Summary::of).orElseThrow();
    }

    /** The meeting, for reading. */
    private MeetingRows.Stored require(String id, Viewer viewer) {
        open(viewer);
        return rows.find(id).orElseThrow(Meetings::notThere);
    }

    /** The meeting, for changing it: another centre's is not there, before it is asked who may. */
    private MeetingRows.Stored prepare(String id, Viewer viewer) {
        require(id, viewer);
        requirePreparer(viewer);
        return rows.lock(id).orElseThrow(Meetings::notThere);
    }

    /** Refuses whoever may not change this meeting, before what is sent is read. */
    @Transactional(readOnly = true)
    public void requirePreparer(String id, Viewer viewer) {
        require(id, viewer);
        requirePreparer(viewer);
    }

    /** Whose meetings this transaction sees; reports that are asked in between open other rows. */
    private void open(Viewer viewer) {
        centres.require(viewer.centre() == null ? List.of() : List.of(viewer.centre()), viewer);
    }

    private static RuntimeException notThere() {
        return Problem.NOT_FOUND.refusal("There is no such meeting.");
    }

    /** Refuses a submitter, who reads a meeting. */
    public void requirePreparer(Viewer viewer) {
        if (viewer.role() == Role.SUBMITTER) {
            throw Problem.NOT_YOUR_ROLE.refusal(
                    "A submitter's key reads a meeting; preparing it needs an analyst's key.");
        }
    }

    private static void guard(IfMatch ifMatch, String etag) {
        if (ifMatch.tags().isEmpty()) {
            throw Problem.MATCH_REQUIRED.refusal("This is stored already; say which version you change.");
        }
        if (!ifMatch.tags().contains("*") && !ifMatch.tags().contains(etag)) {
            throw Problem.STALE.refusal("The stored version is not the one that If-Match names.");
        }
    }

    private static RuntimeException refused(String code, String detail) {
        return Problem.refused(List.of(new FieldError("", code, detail)));
    }

    private LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC);
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MILLIS);
    }
}
