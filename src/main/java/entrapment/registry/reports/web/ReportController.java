package entrapment.registry.reports.web;

import static entrapment.registry.exports.ResponseFormat.Form.CSV;
import static entrapment.registry.exports.ResponseFormat.Form.JSON;
import static entrapment.registry.exports.ResponseFormat.Form.PPTX;

import entrapment.registry.access.Viewer;
import entrapment.registry.exports.ResponseFormat;
import entrapment.registry.exports.slides.Deck;
import entrapment.registry.reports.Reports;
import entrapment.registry.reports.question.Report;
import jakarta.servlet.http.HttpServletRequest;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;

@RestController
class ReportController {

    private final Reports reports;

    ReportController(Reports reports) {
        this.reports = reports;
    }

    @GetMapping(
            path = "/api/reports/{name}",
            produces = {MediaType.APPLICATION_JSON_VALUE, "text/csv", ResponseFormat.PPTX})
    ResponseEntity<Object> report(
            @PathVariable String name, HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        ResponseFormat format = ResponseFormat.of(request, JSON, CSV, PPTX);
        Report report = reports.ask(name, ResponseFormat.query(request), viewer);
        return format.answer(report, report::table, () -> Deck.of(report.answer(), format.dark()));
    }
}
