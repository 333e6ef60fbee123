package entrapment.registry.releases.web;

import static entrapment.registry.exports.ResponseFormat.Form.CSV;
import static entrapment.registry.exports.ResponseFormat.Form.JSON;

import entrapment.registry.access.Viewer;
import entrapment.registry.exports.ResponseFormat;
import entrapment.registry.exports.slides.Deck;
import entrapment.registry.intake.Bodies;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Problem;
import entrapment.registry.releases.OutsideQuery;
import entrapment.registry.releases.OutsideReport;
import entrapment.registry.releases.ReleaseView;
import entrapment.registry.releases.Releases;
import entrapment.registry.reports.Reports;
import jakarta.servlet.http.HttpServletRequest;
import java.io.InputStream;
import java.net.URI;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
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
    /** What leaves the network has tables and no slides. */
    static final Supplier<Deck> NO_SLIDES = () -> {
        throw Problem.NOT_ACCEPTABLE.refusal("There are no slides of this.");
    };

    private static final String CSV_TYPE = "text/csv";

    private final Releases releases;
    private final Reports reports;

    ReleaseController(Releases releases, Reports reports) {
        this.releases = releases;
        this.reports = reports;
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
        ResponseFormat format = ResponseFormat.alone(request, JSON, CSV);
        ReleaseView release = find(releases, number, viewer);
        return format.answer(release, release::table, NO_SLIDES);
    }

    /** Every report that is asked for with an audience; most are closed to it. */
    @GetMapping(
            path = "/api/reports/{name}",
            params = "audience",
            produces = {MediaType.APPLICATION_JSON_VALUE, CSV_TYPE})
    ResponseEntity<Object> outside(
            @PathVariable("name") String report, HttpServletRequest request, @AuthenticationPrincipal Viewer viewer) {
        viewer.requireSteward();
        reports.question(report);
        OutsideQuery query = OutsideQuery.of(report, ResponseFormat.query(request));
        ResponseFormat format = ResponseFormat.of(request, JSON, CSV);
        OutsideReport answer = releases.report(report, query, viewer);
        return format.answer(answer, answer::table, NO_SLIDES);
    }

    /** A release by its number as it was sent; what is no number is no release. */
    static ReleaseView find(Releases releases, String number, Viewer viewer) {
        viewer.requireSteward();
        if (!number.matches("[1-9][0-9]{0,8}")) {
            throw Problem.NOT_FOUND.refusal("There is no such release.");
        }
        return releases.find(Integer.parseInt(number), viewer);
    }
}
