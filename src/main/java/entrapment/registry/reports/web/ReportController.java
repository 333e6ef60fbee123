package entrapment.registry.reports.web;

import static entrapment.registry.exports.ResponseFormat.Form.CSV;
import static entrapment.registry.exports.ResponseFormat.Form.JSON;
import static entrapment.registry.exports.ResponseFormat.Form.PPTX;

import entrapment.registry.access.Viewer;
import entrapment.registry.exports.ResponseFormat;
import entrapment.registry.exports.slides.Deck;
import entrapment.registry.reports.Report;
import entrapment.registry.reports.Reports;
import jakarta.servlet.http.HttpServletRequest;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

@RestController
class ReportController {

    private final Reports reports;

    ReportController(Reports reports) {
        this.reports = reports;
    }

    /** Named one by one, so that what is no report is no path. */
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
            produces = {MediaType.APPLICATION_JSON_VALUE, "text/csv", ResponseFormat.PPTX})
    ResponseEntity<Object> report(HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        ResponseFormat rendition = ResponseFormat.of(request, JSON, CSV, PPTX);
        String path = request.getRequestURI();
        Report report = reports.ask(path.substring(path.lastIndexOf('/') + 1), ResponseFormat.query(request), viewer);
        return rendition.answer(report, report::table, () -> Deck.of(report.answer(), rendition.dark()));
    }
}
