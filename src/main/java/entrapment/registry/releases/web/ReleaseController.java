package entrapment.registry.releases.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.exports.CsvWriter;
import entrapment.registry.exports.Table;
import entrapment.registry.intake.Bodies;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Problem;
import entrapment.registry.releases.OutsideHarm;
import entrapment.registry.releases.OutsideIncidence;
import entrapment.registry.releases.OutsideQuery;
import entrapment.registry.releases.ReleaseView;
import entrapment.registry.releases.Releases;
import jakarta.servlet.http.HttpServletRequest;
import java.io.InputStream;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;

@RestController
class ReleaseController {

    private static final long LARGEST_BODY = 1_024;
    private static final MediaType CSV = new MediaType("text", "csv", StandardCharsets.UTF_8);
    private static final String CSV_TYPE = "text/csv";

    private final Releases releases;

    ReleaseController(Releases releases) {
        this.releases = releases;
    }

    @PostMapping(
            path = "/api/releases",
            consumes = MediaType.APPLICATION_JSON_VALUE,
            produces = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<ReleaseView> make(InputStream body, @AuthenticationPrincipal Viewer viewer) {
        viewer.requireSteward();
        @Nullable
        Integer[] throughYear = Fields.read(Bodies.json(Bodies.limited(body, LARGEST_BODY)), fields ->
                        new Integer[] {year(fields.whole("throughYear", 1990, 2100))})
                .orRefuse();
        ReleaseView made = releases.make(throughYear[0], viewer);
        return ResponseEntity.created(URI.create("/api/releases/" + made.number()))
                .body(made);
    }

    private static @Nullable Integer year(@Nullable Long value) {
        return value == null ? null : Integer.valueOf(value.intValue());
    }

    @GetMapping(path = "/api/releases", produces = MediaType.APPLICATION_JSON_VALUE)
    List<ReleaseView> list(@AuthenticationPrincipal Viewer viewer) {
        return releases.list(viewer);
    }

    @GetMapping(
            path = "/api/releases/{number}",
            produces = {MediaType.APPLICATION_JSON_VALUE, CSV_TYPE})
    ResponseEntity<Object> find(
            @PathVariable String number, HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        viewer.requireSteward();
        Shape shape = Shape.of(query(request), request);
        if (!number.matches("[1-9][0-9]{0,8}")) {
            throw Problem.NOT_FOUND.refusal("There is no such release.");
        }
        ReleaseView release = releases.find(Integer.parseInt(number), viewer);
        return shape.answer(release, release.table());
    }

    /** Every report that is asked for with an audience; most are closed to it. */
    @GetMapping(
            path = {
                "/api/reports/incidence",
                "/api/reports/retrieval",
                "/api/reports/risk-factors",
                "/api/reports/over-time",
                "/api/reports/between-centres",
                "/api/reports/pooled",
                "/api/reports/planning",
                "/api/reports/harm",
                "/api/reports/completeness",
                "/api/reports/similar-cases"
            },
            params = "audience",
            produces = {MediaType.APPLICATION_JSON_VALUE, CSV_TYPE})
    ResponseEntity<Object> outside(HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        viewer.requireSteward();
        String path = request.getRequestURI();
        String report = path.substring(path.lastIndexOf('/') + 1);
        Map<String, List<String>> given = query(request);
        Map<String, List<String>> shaping = new LinkedHashMap<>(given);
        shaping.keySet().retainAll(List.of("format", "comments"));
        given.keySet().removeAll(shaping.keySet());
        OutsideQuery query = OutsideQuery.of(report, given);
        Shape shape = Shape.of(shaping, request);
        if (report.equals("harm")) {
            OutsideHarm harm = releases.harm(query, viewer);
            return shape.answer(harm, harm.table());
        }
        OutsideIncidence incidence = releases.incidence(query, viewer);
        return shape.answer(incidence, incidence.table());
    }

    private static Map<String, List<String>> query(HttpServletRequest request) {
        Map<String, List<String>> query = new LinkedHashMap<>();
        request.getParameterMap().forEach((name, values) -> query.put(name, List.of(values)));
        return query;
    }

    /** How the answer is written: {@code format} decides, without it the Accept header. */
    private record Shape(boolean csv, boolean comments) {

        static Shape of(Map<String, List<String>> query, HttpServletRequest request) {
            String accept = request.getHeader(HttpHeaders.ACCEPT);
            boolean csvAccepted =
                    weight(accept, MediaType.valueOf(CSV_TYPE)) > weight(accept, MediaType.APPLICATION_JSON);
            return Parameters.read(
                            query,
                            given -> new Shape(
                                    given.choice("format", csvAccepted ? "csv" : "json", csvAccepted ? "json" : "csv")
                                            .equals("csv"),
                                    given.choice("comments", "false", "true").equals("true")))
                    .orRefuse();
        }

        private static double weight(@Nullable String accept, MediaType type) {
            return accept == null
                    ? type.equals(MediaType.APPLICATION_JSON) ? 1 : 0
                    : MediaType.parseMediaTypes(accept).stream()
                            .filter(wanted -> wanted.includes(type))
                            .mapToDouble(MediaType::getQualityValue)
                            .max()
                            .orElse(0);
        }

        ResponseEntity<Object> answer(Object json, Table table) {
            return csv
                    ? ResponseEntity.ok().contentType(CSV).body(CsvWriter.write(table, comments))
                    : ResponseEntity.ok()
                            .contentType(MediaType.APPLICATION_JSON)
                            .body(json);
        }
    }
}
