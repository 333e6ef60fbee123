package entrapment.registry.reports.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.exports.CsvWriter;
import entrapment.registry.intake.Parameters;
import entrapment.registry.reports.BetweenCentresQuery;
import entrapment.registry.reports.CompletenessQuery;
import entrapment.registry.reports.HarmQuery;
import entrapment.registry.reports.IncidenceQuery;
import entrapment.registry.reports.OverTimeQuery;
import entrapment.registry.reports.PlanningQuery;
import entrapment.registry.reports.PooledQuery;
import entrapment.registry.reports.Report;
import entrapment.registry.reports.Reports;
import entrapment.registry.reports.RetrievalQuery;
import entrapment.registry.reports.RiskFactorsQuery;
import entrapment.registry.reports.SimilarCasesQuery;
import jakarta.servlet.http.HttpServletRequest;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;

@RestController
@RequestMapping(
        path = "/api/reports",
        produces = {MediaType.APPLICATION_JSON_VALUE, "text/csv"})
class ReportController {

    private static final MediaType CSV = new MediaType("text", "csv", StandardCharsets.UTF_8);

    private final Reports reports;

    ReportController(Reports reports) {
        this.reports = reports;
    }

    @GetMapping("/incidence")
    ResponseEntity<Object> incidence(HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        return answer(
                request,
                query -> reports.incidence(IncidenceQuery.of(query, viewer).orRefuse(), viewer));
    }

    @GetMapping("/retrieval")
    ResponseEntity<Object> retrieval(HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        return answer(
                request,
                query -> reports.retrieval(RetrievalQuery.of(query, viewer).orRefuse(), viewer));
    }

    @GetMapping("/risk-factors")
    ResponseEntity<Object> riskFactors(HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        return answer(
                request,
                query -> reports.riskFactors(RiskFactorsQuery.of(query, viewer).orRefuse(), viewer));
    }

    @GetMapping("/over-time")
    ResponseEntity<Object> overTime(HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        return answer(
                request,
                query -> reports.overTime(OverTimeQuery.of(query, viewer).orRefuse(), viewer));
    }

    @GetMapping("/between-centres")
    ResponseEntity<Object> betweenCentres(HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        return answer(
                request,
                query -> reports.betweenCentres(
                        BetweenCentresQuery.of(query, viewer).orRefuse(), viewer));
    }

    @GetMapping("/pooled")
    ResponseEntity<Object> pooled(HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        return answer(
                request, query -> reports.pooled(PooledQuery.of(query, viewer).orRefuse(), viewer));
    }

    @GetMapping("/planning")
    ResponseEntity<Object> planning(HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        return answer(
                request,
                query -> reports.planning(PlanningQuery.of(query, viewer).orRefuse(), viewer));
    }

    @GetMapping("/harm")
    ResponseEntity<Object> harm(HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        return answer(request, query -> reports.harm(HarmQuery.of(query, viewer).orRefuse(), viewer));
    }

    @GetMapping("/completeness")
    ResponseEntity<Object> completeness(HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        return answer(
                request,
                query ->
                        reports.completeness(CompletenessQuery.of(query, viewer).orRefuse(), viewer));
    }

    @GetMapping("/similar-cases")
    ResponseEntity<Object> similarCases(HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        return answer(
                request,
                query ->
                        reports.similarCases(SimilarCasesQuery.of(query, viewer).orRefuse(), viewer));
    }

    /** How the answer is written: {@code format} decides, without it the Accept header. */
    private record Shape(boolean csv, boolean comments) {}

    private static ResponseEntity<Object> answer(
            HttpServletRequest request, Function<Map<String, List<String>>, Report> report) {
        Map<String, List<String>> query = new LinkedHashMap<>();
        request.getParameterMap().forEach((name, values) -> query.put(name, List.of(values)));
        Map<String, List<String>> shaping = new LinkedHashMap<>(query);
        shaping.keySet().retainAll(List.of("format", "comments"));
        query.keySet().removeAll(shaping.keySet());
        String accept = request.getHeader(HttpHeaders.ACCEPT);
        boolean csvAccepted = weight(accept, CSV) > weight(accept, MediaType.APPLICATION_JSON);
        Shape shape = Parameters.read(
                        shaping,
                        given -> new Shape(
                                given.choice("format", csvAccepted ? "csv" : "json", csvAccepted ? "json" : "csv")
                                        .equals("csv"),
                                given.choice("comments", "false", "true").equals("true")))
                .orRefuse();
        Report answer = report.apply(query);
        return shape.csv()
                ? ResponseEntity.ok().contentType(CSV).body(CsvWriter.write(answer.table(), shape.comments()))
                : ResponseEntity.ok().contentType(MediaType.APPLICATION_JSON).body(answer);
    }

    /** How much the caller wants a type: the highest weight of an entry that includes it; JSON where nothing is said. */
    private static double weight(@Nullable String accept, MediaType type) {
        if (accept == null) {
            return type.equals(MediaType.APPLICATION_JSON) ? 1 : 0;
        }
        return MediaType.parseMediaTypes(accept).stream()
                .filter(wanted -> wanted.includes(type))
                .mapToDouble(MediaType::getQualityValue)
                .max()
                .orElse(0);
    }
}
