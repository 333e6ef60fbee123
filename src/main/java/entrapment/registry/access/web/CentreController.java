package entrapment.registry.access.web;

import entrapment.registry.access.AccessKeys;
import entrapment.registry.access.Centre;
import entrapment.registry.access.Centres;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Bodies;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Identifying;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Reading;
import java.io.InputStream;
import java.util.List;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.JsonNode;

@RestController
@RequestMapping(produces = MediaType.APPLICATION_JSON_VALUE)
class CentreController {

    private static final long LARGEST_BODY = 4_096;
    static final long LONGEST_DAYS = 730;
    static final long LONGEST_OVERLAP_DAYS = 30;
    static final long DEFAULT_OVERLAP_DAYS = 7;

    private final Centres centres;
    private final AccessKeys keys;

    CentreController(Centres centres, AccessKeys keys) {
        this.centres = centres;
        this.keys = keys;
    }

    record CentreView(String code, String name) {}

    record Wanted(Role role, String label, long days) {}

    record Overlap(long validDays, long overlapDays) {}

    @GetMapping("/api/centres")
    List<CentreView> list(@AuthenticationPrincipal Viewer viewer) {
        return centres.list(viewer).stream()
                .map(centre -> new CentreView(centre.code(), centre.name()))
                .toList();
    }

    @PutMapping(path = "/api/centres/{centre}", consumes = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<CentreView> put(
            @PathVariable String centre, InputStream body, @AuthenticationPrincipal Viewer viewer) {
        viewer.requireSteward();
        List<FieldError> wrong = wrongWith(centre);
        if (!wrong.isEmpty()) {
            throw Problem.refused(wrong);
        }
        String name = name(json(body)).orRefuse();
        boolean created = centres.put(centre, name, viewer);
        return ResponseEntity.status(created ? HttpStatus.CREATED : HttpStatus.OK)
                .body(new CentreView(centre, name));
    }

    @PostMapping(path = "/api/centres/{centre}/keys", consumes = MediaType.APPLICATION_JSON_VALUE)
    @ResponseStatus(HttpStatus.CREATED)
    AccessKeys.Issued issue(@PathVariable String centre, InputStream body, @AuthenticationPrincipal Viewer viewer) {
        viewer.requireSteward();
        Wanted wanted = wanted(json(body)).orRefuse();
        if (wanted.role() == Role.STEWARD) {
            throw Problem.refused(List.of(
                    new FieldError("/role", "not-a-code", "role of a centre's key must be submitter or analyst")));
        }
        return keys.issue(centre, wanted.role(), wanted.label(), wanted.days(), viewer);
    }

    @PostMapping(path = "/api/keys", consumes = MediaType.APPLICATION_JSON_VALUE)
    @ResponseStatus(HttpStatus.CREATED)
    AccessKeys.Issued issueSteward(InputStream body, @AuthenticationPrincipal Viewer viewer) {
        viewer.requireSteward();
        Wanted wanted = wanted(json(body)).orRefuse();
        if (wanted.role() != Role.STEWARD) {
            throw Problem.refused(List.of(new FieldError(
                    "/role", "not-a-code", "role must be steward here; make other keys at the centre's path")));
        }
        return keys.issueSteward(wanted.label(), wanted.days(), viewer);
    }

    @GetMapping("/api/keys")
    List<AccessKeys.Known> keys(@AuthenticationPrincipal Viewer viewer) {
        return keys.list(viewer);
    }

    @PostMapping(path = "/api/keys/{id}/rotation", consumes = MediaType.APPLICATION_JSON_VALUE)
    @ResponseStatus(HttpStatus.CREATED)
    AccessKeys.Issued rotate(@PathVariable String id, InputStream body, @AuthenticationPrincipal Viewer viewer) {
        viewer.requireSteward();
        Overlap overlap = overlap(json(body)).orRefuse();
        return keys.rotate(id, overlap.validDays(), overlap.overlapDays(), viewer);
    }

    private static JsonNode json(InputStream body) {
        return Bodies.json(Bodies.limited(body, LARGEST_BODY));
    }

    /** What is wrong with the code of a centre, if anything. */
    static List<FieldError> wrongWith(String centre) {
        return Centre.isCode(centre) && !Identifying.looksLike(centre)
                ? List.of()
                : List.of(new FieldError(
                        "/centre",
                        "centre-format",
                        "centre must be 3 to 32 characters of a-z 0-9 - without the shape of a date or number"));
    }

    static Reading<String> name(JsonNode body) {
        return Fields.read(body, fields -> Identifying.label(fields, "name", 120));
    }

    /** Reads how long a key and the one that it replaces are to be good. */
    static Reading<Overlap> overlap(JsonNode body) {
        return Fields.read(
                body,
                fields -> new Overlap(
                        days(fields, "validDays", 1, LONGEST_DAYS, AccessKeys.DEFAULT_DAYS),
                        days(fields, "overlapDays", 0, LONGEST_OVERLAP_DAYS, DEFAULT_OVERLAP_DAYS)));
    }

    private static long days(Fields fields, String name, long least, long most, long absent) {
        Long days = fields.whole(name, least, most);
        return days == null ? absent : days;
    }

    @DeleteMapping("/api/keys/{id}")
    @ResponseStatus(HttpStatus.NO_CONTENT)
    void revoke(@PathVariable String id, @AuthenticationPrincipal Viewer viewer) {
        keys.revoke(id, viewer);
    }

    static Reading<Wanted> wanted(JsonNode body) {
        return Fields.read(
                body,
                fields -> new Wanted(
                        fields.requiredCode("role", Role.class),
                        Identifying.label(fields, "label", 60),
                        days(fields, "validDays", 1, LONGEST_DAYS, AccessKeys.DEFAULT_DAYS)));
    }
}
