package entrapment.registry.cases.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.cases.BulkOutcome;
import entrapment.registry.cases.CaseQuery;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.IfMatch;
import entrapment.registry.cases.StoredCase;
import entrapment.registry.cases.Submission;
import entrapment.registry.cases.Withdrawal;
import entrapment.registry.intake.Bodies;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import entrapment.registry.intake.Rows.Row;
import java.io.InputStream;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

@RestController
@RequestMapping(path = "/api/centres/{centre}/cases", produces = MediaType.APPLICATION_JSON_VALUE)
class CaseController {

    private static final String NDJSON = "application/x-ndjson";
    private static final String CSV = "text/csv";
    private static final long LARGEST_CASE = 65_536;
    private static final long LARGEST_BATCH = 512L * 1_024 * 1_024;

    private final Cases cases;

    CaseController(Cases cases) {
        this.cases = cases;
    }

    @PutMapping(path = "/{caseKey}", consumes = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<StoredCase> put(
            @PathVariable String centre,
            @PathVariable String caseKey,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
            InputStream body,
            @AuthenticationPrincipal Viewer viewer) {
        viewer.requireOwn(centre);
        viewer.requireSubmitter();
        return answer(cases.submit(
                centre,
                cases.read(Bodies.json(Bodies.limited(body, LARGEST_CASE)), caseKey)
                        .orRefuse(),
                IfMatch.of(ifMatch),
                viewer));
    }

    @GetMapping("/{caseKey}")
    ResponseEntity<StoredCase> get(
            @PathVariable String centre, @PathVariable String caseKey, @AuthenticationPrincipal Viewer viewer) {
        return cases.find(centre, caseKey, viewer)
                .map(stored -> ok(HttpStatus.OK, stored))
                .orElseThrow(Cases::notThere);
    }

    @GetMapping("/{caseKey}/versions")
    List<StoredCase> versions(
            @PathVariable String centre, @PathVariable String caseKey, @AuthenticationPrincipal Viewer viewer) {
        List<StoredCase> versions = cases.versions(centre, caseKey, viewer);
        if (versions.isEmpty()) {
            throw Cases.notThere();
        }
        return versions;
    }

    @GetMapping
    Cases.CasePage list(
            @PathVariable String centre,
            @RequestParam MultiValueMap<String, String> parameters,
            @AuthenticationPrincipal Viewer viewer) {
        viewer.requireOwn(centre);
        return cases.list(CaseQuery.of(centre, parameters).orRefuse(), viewer);
    }

    /** A body is optional in HTTP's DELETE, but a reason is not here. */
    @DeleteMapping(path = "/{caseKey}", consumes = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<StoredCase> withdraw(
            @PathVariable String centre,
            @PathVariable String caseKey,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
            InputStream body,
            @AuthenticationPrincipal Viewer viewer) {
        viewer.requireOwn(centre);
        viewer.requireSubmitter();
        Withdrawal reason = Fields.read(
                        Bodies.json(Bodies.limited(body, LARGEST_CASE)),
                        fields -> fields.requiredCode("reason", Withdrawal.class))
                .orRefuse();
        return answer(cases.withdraw(centre, caseKey, reason, IfMatch.of(ifMatch), viewer));
    }

    @PostMapping(consumes = NDJSON)
    BulkOutcome postNdjson(
            @PathVariable String centre,
            @RequestParam MultiValueMap<String, String> parameters,
            InputStream body,
            @AuthenticationPrincipal Viewer viewer) {
        return many(centre, parameters, Cases.rows(true, Bodies.limited(body, LARGEST_BATCH)), viewer);
    }

    @PostMapping(consumes = CSV)
    BulkOutcome postCsv(
            @PathVariable String centre,
            @RequestParam MultiValueMap<String, String> parameters,
            InputStream body,
            @AuthenticationPrincipal Viewer viewer) {
        return many(centre, parameters, Cases.rows(false, Bodies.limited(body, LARGEST_BATCH)), viewer);
    }

    private BulkOutcome many(
            String centre, MultiValueMap<String, String> parameters, Consumer<Consumer<Row>> body, Viewer viewer) {
        viewer.requireOwn(centre);
        viewer.requireSubmitter();
        Cases.BulkMode mode = Parameters.read(
                        parameters,
                        given -> new Cases.BulkMode(
                                given.choice("accept", "all", "valid").equals("valid"),
                                given.choice("dryRun", "false", "true").equals("true")))
                .orRefuse();
        BulkOutcome outcome = cases.submitMany(centre, body, mode, viewer);
        if (outcome.refused() > 0 && !mode.keepValid() && !mode.onlyCheck()) {
            throw new Refusal(
                    Problem.REFUSED,
                    outcome.refused() + " of " + outcome.received() + " rows were refused, so nothing was stored.",
                    List.of(),
                    members(outcome));
        }
        return outcome;
    }

    private static Map<String, Object> members(BulkOutcome outcome) {
        Map<String, Object> members = new LinkedHashMap<>();
        members.put("stored", outcome.stored());
        members.put("received", outcome.received());
        members.put("created", outcome.created());
        members.put("changed", outcome.changed());
        members.put("unchanged", outcome.unchanged());
        members.put("refused", outcome.refused());
        members.put("refusedRows", outcome.refusedRows());
        return members;
    }

    private static ResponseEntity<StoredCase> answer(Submission submission) {
        if (submission instanceof Submission.Stored done) {
            return ok(done.how() == Submission.How.CREATED ? HttpStatus.CREATED : HttpStatus.OK, done.stored());
        }
        throw switch ((Submission.Refused) submission) {
            case MATCH_REQUIRED ->
                Problem.MATCH_REQUIRED.refusal("A case is stored under this key; say which version you change.");
            case STALE -> Problem.STALE.refusal("The stored version is not the one that If-Match names.");
            case CONSENT_WITHDRAWN ->
                new Refusal(
                        Problem.REFUSED,
                        "The patient's consent to this case was withdrawn; it cannot be brought back.",
                        List.of(),
                        Map.of());
            case NOT_THERE -> Cases.notThere();
        };
    }

    private static ResponseEntity<StoredCase> ok(HttpStatus status, StoredCase stored) {
        return ResponseEntity.status(status).eTag(stored.etag()).body(stored);
    }
}
