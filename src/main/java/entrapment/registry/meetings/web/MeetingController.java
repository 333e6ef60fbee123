package entrapment.registry.meetings.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.cases.IfMatch;
import entrapment.registry.exports.ResponseFormat;
import entrapment.registry.intake.Bodies;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Problem;
import entrapment.registry.meetings.Action;
import entrapment.registry.meetings.Actions;
import entrapment.registry.meetings.Effect;
import entrapment.registry.meetings.MeetingRights;
import entrapment.registry.meetings.MeetingView;
import entrapment.registry.meetings.Meetings;
import entrapment.registry.meetings.PreventabilityRatings;
import entrapment.registry.meetings.Reviews;
import jakarta.servlet.http.HttpServletRequest;
import java.io.InputStream;
import java.net.URI;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.JsonNode;

@RestController
@RequestMapping(path = "/api/meetings", produces = MediaType.APPLICATION_JSON_VALUE)
class MeetingController {

    private static final long LARGEST_BODY = 65_536;
    private static final String CALENDAR = "text/calendar";

    private final Meetings meetings;
    private final Reviews reviews;
    private final Actions actions;
    private final MeetingRights rights;
    private final MeetingFiles files;

    MeetingController(Meetings meetings, Reviews reviews, Actions actions, MeetingRights rights, MeetingFiles files) {
        this.meetings = meetings;
        this.reviews = reviews;
        this.actions = actions;
        this.rights = rights;
        this.files = files;
    }

    @PostMapping(consumes = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<MeetingView.Summary> create(InputStream body, @AuthenticationPrincipal Viewer viewer) {
        rights.requirePreparer(viewer);
        MeetingView.Summary made = meetings.create(json(body), viewer);
        return ResponseEntity.created(URI.create("/api/meetings/" + made.id()))
                .eTag(made.etag())
                .body(made);
    }

    @GetMapping
    List<MeetingView.Summary> list(@AuthenticationPrincipal Viewer viewer) {
        return meetings.list(viewer);
    }

    @GetMapping("/{meeting}")
    ResponseEntity<MeetingView> find(@PathVariable String meeting, @AuthenticationPrincipal Viewer viewer) {
        MeetingView view = meetings.find(meeting, viewer);
        return ResponseEntity.ok().eTag(view.etag()).body(view);
    }

    @PutMapping(path = "/{meeting}", consumes = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<MeetingView.Summary> change(
            @PathVariable String meeting,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
            InputStream body,
            @AuthenticationPrincipal Viewer viewer) {
        rights.requirePreparer(meeting, viewer);
        MeetingView.Summary changed = meetings.change(meeting, json(body), IfMatch.of(ifMatch), viewer);
        return ResponseEntity.ok().eTag(changed.etag()).body(changed);
    }

    @PostMapping("/{meeting}/freeze")
    MeetingView.FreezeAnswer freeze(@PathVariable String meeting, @AuthenticationPrincipal Viewer viewer) {
        return meetings.freeze(meeting, viewer);
    }

    @PostMapping("/{meeting}/thaw")
    MeetingView.FreezeAnswer unfreeze(@PathVariable String meeting, @AuthenticationPrincipal Viewer viewer) {
        return meetings.unfreeze(meeting, viewer);
    }

    @PostMapping("/{meeting}/recut")
    MeetingView.FreezeAnswer refreeze(@PathVariable String meeting, @AuthenticationPrincipal Viewer viewer) {
        return meetings.refreeze(meeting, viewer);
    }

    @GetMapping("/{meeting}/review/{caseKey}")
    ResponseEntity<MeetingView.ReviewView> review(
            @PathVariable String meeting, @PathVariable String caseKey, @AuthenticationPrincipal Viewer viewer) {
        return answer(reviews.find(meeting, caseKey, viewer));
    }

    @PutMapping(path = "/{meeting}/review/{caseKey}", consumes = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<MeetingView.ReviewView> review(
            @PathVariable String meeting,
            @PathVariable String caseKey,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
            InputStream body,
            @AuthenticationPrincipal Viewer viewer) {
        rights.requirePreparer(meeting, viewer);
        return answer(reviews.put(meeting, caseKey, json(body), IfMatch.of(ifMatch), viewer));
    }

    private static ResponseEntity<MeetingView.ReviewView> answer(MeetingView.ReviewView review) {
        return ResponseEntity.ok().eTag(review.etag()).body(review);
    }

    @PostMapping(path = "/{meeting}/review/{caseKey}/ratings", consumes = MediaType.APPLICATION_JSON_VALUE)
    PreventabilityRatings rate(
            @PathVariable String meeting,
            @PathVariable String caseKey,
            InputStream body,
            @AuthenticationPrincipal Viewer viewer) {
        rights.requirePreparer(meeting, viewer);
        return reviews.rate(meeting, caseKey, json(body), viewer);
    }

    @PostMapping(path = "/{meeting}/actions", consumes = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<Action> addAction(
            @PathVariable String meeting, InputStream body, @AuthenticationPrincipal Viewer viewer) {
        rights.requirePreparer(meeting, viewer);
        Action made = actions.add(meeting, json(body), viewer);
        return ResponseEntity.created(URI.create("/api/meetings/" + meeting + "/actions/" + made.number()))
                .eTag(made.etag())
                .body(made);
    }

    @PutMapping(path = "/{meeting}/actions/{action}", consumes = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<Action> changeAction(
            @PathVariable String meeting,
            @PathVariable String action,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
            InputStream body,
            @AuthenticationPrincipal Viewer viewer) {
        rights.requirePreparer(meeting, viewer);
        Action changed = actions.change(meeting, number(action), json(body), IfMatch.of(ifMatch), viewer);
        return ResponseEntity.ok().eTag(changed.etag()).body(changed);
    }

    @GetMapping("/{meeting}/actions/{action}/effect")
    Effect effect(
            @PathVariable String meeting,
            @PathVariable String action,
            @RequestParam MultiValueMap<String, String> parameters,
            @AuthenticationPrincipal Viewer viewer) {
        @Nullable
        Long[] asOf = Parameters.read(parameters, given ->
                        new Long[] {given.whole("asOf", 0, Long.MAX_VALUE).orElse(null)})
                .orRefuse();
        return actions.effect(meeting, number(action), asOf[0], viewer);
    }

    @GetMapping(path = "/{meeting}/actions.ics", produces = CALENDAR)
    ResponseEntity<String> calendar(@PathVariable String meeting, @AuthenticationPrincipal Viewer viewer) {
        return files.calendar(meeting, viewer);
    }

    @GetMapping(
            path = "/{meeting}/slides",
            produces = {ResponseFormat.PPTX, "text/csv"})
    ResponseEntity<Object> slides(
            @PathVariable String meeting, HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        return files.slides(meeting, request, viewer);
    }

    private static JsonNode json(InputStream body) {
        return Bodies.json(Bodies.limited(body, LARGEST_BODY));
    }

    static int number(String text) {
        if (!text.matches("[1-9][0-9]{0,8}")) {
            throw Problem.NOT_FOUND.refusal("The meeting has no such action.");
        }
        return Integer.parseInt(text);
    }
}
