package entrapment.registry.access.web;

import entrapment.registry.access.AuditTrail;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** The audit trail, newest first; a page goes on from the number of its last entry. */
@RestController
@RequestMapping(produces = MediaType.APPLICATION_JSON_VALUE)
class AuditController {

    private static final long DEFAULT_SIZE = 100;
    private static final long LARGEST_SIZE = 1_000;

    private final AuditTrail audit;

    AuditController(AuditTrail audit) {
        this.audit = audit;
    }

    @GetMapping("/api/audit")
    List<AuditTrail.Entry> network(
            @RequestParam MultiValueMap<String, String> parameters, @AuthenticationPrincipal Viewer viewer) {
        viewer.requireSteward();
        return page(null, parameters, viewer);
    }

    @GetMapping("/api/centres/{centre}/audit")
    List<AuditTrail.Entry> centre(
            @PathVariable String centre,
            @RequestParam MultiValueMap<String, String> parameters,
            @AuthenticationPrincipal Viewer viewer) {
        viewer.requireOwn(centre);
        return page(centre, parameters, viewer);
    }

    @GetMapping("/api/audit/verification")
    AuditTrail.Verification verification(@AuthenticationPrincipal Viewer viewer) {
        return audit.verify(viewer);
    }

    private List<AuditTrail.Entry> page(
            @Nullable String centre, MultiValueMap<String, String> parameters, Viewer viewer) {
        record Page(long before, long size) {}
        Page page = Parameters.read(
                        parameters,
                        given -> new Page(
                                given.whole("before", 1, Long.MAX_VALUE).orElse(Long.MAX_VALUE),
                                given.whole("size", 1, LARGEST_SIZE).orElse(DEFAULT_SIZE)))
                .orRefuse();
        return audit.list(centre, page.before(), (int) page.size(), viewer);
    }
}
