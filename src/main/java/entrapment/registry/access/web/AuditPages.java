package entrapment.registry.access.web;

import entrapment.registry.access.AccessKeys;
import entrapment.registry.access.AuditTrail;
import entrapment.registry.access.Centre;
import entrapment.registry.access.Centres;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** The audit trail on pages, newest first, and whether it is as it was written. */
@Controller
@RequestMapping("/network/audit")
class AuditPages {

    private static final int SIZE = 50;

    private final AuditTrail audit;
    private final AccessKeys keys;
    private final Centres centres;

    AuditPages(AuditTrail audit, AccessKeys keys, Centres centres) {
        this.audit = audit;
        this.keys = keys;
        this.centres = centres;
    }

    @GetMapping
    String list(
            @RequestParam MultiValueMap<String, String> parameters,
            @AuthenticationPrincipal Viewer viewer,
            Model model) {
        viewer.requireSteward();
        List<Centre> known = centres.list(viewer);
        record Page(String centre, long before) {}
        Page page = Parameters.read(
                        parameters,
                        given -> new Page(
                                given.choice(
                                        "centre",
                                        Stream.concat(
                                                        Stream.of(""),
                                                        known.stream().map(Centre::code))
                                                .toArray(String[]::new)),
                                given.whole("before", 1, Long.MAX_VALUE).orElse(Long.MAX_VALUE)))
                .orRefuse();
        List<AuditTrail.Entry> entries =
                audit.list(page.centre().isEmpty() ? null : page.centre(), page.before(), SIZE, viewer);
        Map<String, String> labels =
                keys.list(viewer).stream().collect(Collectors.toMap(AccessKeys.Known::id, AccessKeys.Known::label));
        model.addAttribute("entries", entries);
        model.addAttribute("labels", labels);
        model.addAttribute("centres", known);
        model.addAttribute("centre", page.centre());
        model.addAttribute("newest", page.before() == Long.MAX_VALUE);
        model.addAttribute(
                "older",
                entries.size() < SIZE
                        ? null
                        : Long.valueOf(entries.get(SIZE - 1).number()));
        return "access/audit";
    }

    @GetMapping("/verification")
    String verification(@AuthenticationPrincipal Viewer viewer, Model model) {
        model.addAttribute("found", audit.verify(viewer));
        return "access/audit-verification";
    }
}
