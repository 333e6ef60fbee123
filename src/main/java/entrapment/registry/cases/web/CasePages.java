package entrapment.registry.cases.web;

import entrapment.registry.access.Centre;
import entrapment.registry.access.Centres;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.CaseChange;
import entrapment.registry.cases.CaseColumns;
import entrapment.registry.cases.CaseQuery;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.IfMatch;
import entrapment.registry.cases.KeyedCase;
import entrapment.registry.cases.StoredCase;
import entrapment.registry.cases.Submission;
import entrapment.registry.cases.Withdrawal;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Field;
import jakarta.servlet.http.HttpServletResponse;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.springframework.http.HttpStatus;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.util.LinkedMultiValueMap;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.util.UriComponentsBuilder;
import org.springframework.web.util.UriUtils;

/** The cases of a centre as a list, one of them in words with its history, and taking one back. */
@Controller
@RequestMapping("/cases")
class CasePages {

    private static final String PAGE_SIZE = "30";

    /** What the cases like this one should have in common with it, where it is known. */
    private static final List<Field> LIKE =
            List.of(Field.DEVICE_CLASS, Field.VESSEL, Field.CALCIFICATION, Field.MECHANISM);

    private final Cases cases;
    private final Centres centres;
    private final CaseTexts texts;

    CasePages(Cases cases, Centres centres, CaseTexts texts) {
        this.cases = cases;
        this.centres = centres;
        this.texts = texts;
    }

    @GetMapping
    String list(
            @RequestParam MultiValueMap<String, String> given, @AuthenticationPrincipal Viewer viewer, Model model) {
        MultiValueMap<String, String> filled = new LinkedMultiValueMap<>();
        given.forEach((name, values) ->
                values.stream().filter(value -> !value.isBlank()).forEach(value -> filled.add(name, value)));
        if (filled.values().stream().mapToInt(List::size).sum()
                < given.values().stream().mapToInt(List::size).sum()) {
            // A form sends its empty choices too; the address that stays is one to mail.
            return "redirect:" + address(filled, Map.of());
        }
        List<Centre> known = centres.list(viewer);
        String centre = filled.containsKey("centre") ? filled.getFirst("centre") : viewer.centre();
        model.addAttribute("centres", viewer.isSteward() ? known : List.of());
        model.addAttribute("centre", centre);
        model.addAttribute("sends", viewer.role() != Role.ANALYST);
        if (centre == null) {
            return "cases/list";
        }
        viewer.requireOwn(centre);
        MultiValueMap<String, String> query = new LinkedMultiValueMap<>(filled);
        query.remove("centre");
        query.putIfAbsent("size", List.of(PAGE_SIZE));
        Cases.CasePage page = cases.list(CaseQuery.of(centre, query).orRefuse(), viewer);
        MultiValueMap<String, String> filters = new LinkedMultiValueMap<>(filled);
        List.of("centre", "page", "size", "asOf").forEach(filters::remove);
        model.addAttribute("rows", page.cases());
        model.addAttribute("total", page.total());
        model.addAttribute("from", (page.page() - 1) * page.size() + 1);
        model.addAttribute("to", (page.page() - 1) * page.size() + page.cases().size());
        model.addAttribute("earlier", page.page() > 1 ? turned(filled, page.page() - 1) : null);
        model.addAttribute("later", page.page() * page.size() < page.total() ? turned(filled, page.page() + 1) : null);
        model.addAttribute("filtered", !filters.isEmpty());
        model.addAttribute(
                "filters",
                ListFilter.of(
                        filters,
                        cases.received(centre, viewer).stream()
                                .map(received -> received.period().toString())
                                .toList(),
                        texts));
        model.addAttribute("keyPrefix", filled.getFirst("caseKeyPrefix"));
        return "cases/list";
    }

    private static String turned(MultiValueMap<String, String> given, long page) {
        return address(given, Map.of("page", Long.toString(page)));
    }

    /** Encoded, for a redirection and a link alike. */
    private static String address(MultiValueMap<String, String> given, Map<String, String> instead) {
        UriComponentsBuilder address = UriComponentsBuilder.fromPath("/cases");
        MultiValueMap<String, String> all = new LinkedMultiValueMap<>(given);
        instead.forEach(all::set);
        all.forEach((name, values) -> values.forEach(value -> address.queryParam(
                UriUtils.encode(name, StandardCharsets.UTF_8), UriUtils.encode(value, StandardCharsets.UTF_8))));
        return address.build(true).toUriString();
    }

    @GetMapping("/{centre}/{caseKey}")
    String one(
            @PathVariable String centre,
            @PathVariable String caseKey,
            @RequestParam(defaultValue = "") String stored,
            @AuthenticationPrincipal Viewer viewer,
            Model model) {
        List<CaseChange> history = history(centre, caseKey, viewer);
        StoredCase newest = history.get(history.size() - 1).stored();
        boolean sends = viewer.role() != Role.ANALYST && newest.withdrawn() == null;
        about(newest, model);
        model.addAttribute("said", List.of("created", "changed", "unchanged").contains(stored) ? stored : null);
        model.addAttribute("read", CaseAsRead.of(newest.keyed(), texts));
        model.addAttribute("line", TimeLine.of(newest.content().attempts()));
        model.addAttribute("steps", CaseStep.of(history, texts));
        model.addAttribute(
                "queries", newest.queries().stream().map(texts::query).toList());
        model.addAttribute("notes", newest.notes());
        model.addAttribute("sends", sends);
        model.addAttribute("like", like(newest.keyed()));
        return "cases/case";
    }

    private static String like(KeyedCase keyed) {
        UriComponentsBuilder address = UriComponentsBuilder.fromPath("/questions/similar-cases");
        LIKE.stream().map(field -> CaseColumns.of(field, 0)).forEach(column -> {
            if (column.value(keyed) instanceof Code code && code.known()) {
                address.queryParam(column.name(), code.code());
            }
        });
        return address.toUriString();
    }

    @GetMapping("/{centre}/{caseKey}/withdraw")
    String askWhy(
            @PathVariable String centre,
            @PathVariable String caseKey,
            @AuthenticationPrincipal Viewer viewer,
            Model model) {
        viewer.requireOwn(centre);
        viewer.requireSubmitter();
        StoredCase stored = cases.find(centre, caseKey, viewer).orElseThrow(Cases::notThere);
        return why(stored, "", model);
    }

    @PostMapping("/{centre}/{caseKey}/withdraw")
    String withdraw(
            @PathVariable String centre,
            @PathVariable String caseKey,
            @RequestParam(defaultValue = "") String reason,
            @RequestParam(defaultValue = "") String version,
            @AuthenticationPrincipal Viewer viewer,
            HttpServletResponse response,
            Model model) {
        viewer.requireOwn(centre);
        viewer.requireSubmitter();
        StoredCase stored = cases.find(centre, caseKey, viewer).orElseThrow(Cases::notThere);
        Optional<Withdrawal> chosen = Code.of(Withdrawal.class, reason);
        if (chosen.isEmpty()) {
            response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
            return why(stored, "missing", model);
        }
        Submission submission = cases.withdraw(centre, caseKey, chosen.get(), IfMatch.of(version), viewer);
        if (submission == Submission.Refused.STALE) {
            response.setStatus(HttpStatus.PRECONDITION_FAILED.value());
            return why(stored, "stale", model);
        }
        return "redirect:" + CaseEntry.path(centre, caseKey);
    }

    private String why(StoredCase stored, String said, Model model) {
        about(stored, model);
        model.addAttribute("said", said.isEmpty() ? null : said);
        model.addAttribute("reasons", List.of(Withdrawal.values()));
        return "cases/withdraw";
    }

    private void about(StoredCase stored, Model model) {
        model.addAttribute("centre", stored.centre());
        model.addAttribute("caseKey", stored.caseKey());
        model.addAttribute("version", stored.etag());
        model.addAttribute("sentence", CaseAsRead.sentence(stored.content(), texts));
        model.addAttribute("withdrawn", stored.withdrawn());
    }

    private List<CaseChange> history(String centre, String caseKey, Viewer viewer) {
        viewer.requireOwn(centre);
        List<CaseChange> history = cases.history(centre, caseKey, viewer);
        if (history.isEmpty()) {
            throw Cases.notThere();
        }
        return history;
    }
}
