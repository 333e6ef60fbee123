package entrapment.registry.activity.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.activity.Activity;
import entrapment.registry.activity.ActivityReturn;
import entrapment.registry.activity.CsvReading;
import entrapment.registry.activity.StoredReturn;
import entrapment.registry.intake.Bodies;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import java.io.InputStream;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;

@RestController
@RequestMapping(path = "/api/centres/{centre}/activity", produces = MediaType.APPLICATION_JSON_VALUE)
class ActivityController {

    private static final String CSV = "text/csv";
    private static final long LARGEST_RETURN = 8L * 1_024 * 1_024;

    private final Activity activity;

    ActivityController(Activity activity) {
        this.activity = activity;
    }

    @GetMapping
    List<StoredReturn> list(@PathVariable String centre, @AuthenticationPrincipal Viewer viewer) {
        return activity.list(centre, viewer);
    }

    @GetMapping("/{period}")
    Activity.Full get(
            @PathVariable String centre, @PathVariable String period, @AuthenticationPrincipal Viewer viewer) {
        return activity.find(centre, period, viewer)
                .orElseThrow(() -> Problem.NOT_FOUND.refusal("There is no return of this period."));
    }

    @PutMapping(path = "/{period}", consumes = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<StoredReturn> putJson(
            @PathVariable String centre,
            @PathVariable String period,
            InputStream body,
            @AuthenticationPrincipal Viewer viewer) {
        viewer.requireOwn(centre);
        viewer.requireSubmitter();
        ActivityReturn sent = activity.readJson(Bodies.json(Bodies.limited(body, LARGEST_RETURN)), period)
                .orRefuse();
        return answer(activity.submit(centre, sent, viewer));
    }

    @PutMapping(path = "/{period}", consumes = CSV)
    ResponseEntity<StoredReturn> putCsv(
            @PathVariable String centre,
            @PathVariable String period,
            InputStream body,
            @AuthenticationPrincipal Viewer viewer) {
        viewer.requireOwn(centre);
        viewer.requireSubmitter();
        CsvReading reading = activity.readCsv(Bodies.limited(body, LARGEST_RETURN), period);
        return answer(activity.submit(centre, reading.value().orElseThrow(() -> refusal(reading)), viewer));
    }

    private static Refusal refusal(CsvReading reading) {
        Map<String, Object> members = new LinkedHashMap<>();
        members.put("received", reading.received());
        members.put("refused", reading.refusedRows().size());
        members.put("refusedRows", reading.refusedRows());
        return new Refusal(
                Problem.REFUSED,
                reading.refusedRows().size() + " of " + reading.received()
                        + " rows were refused, so the return was not stored.",
                List.of(),
                members);
    }

    private static ResponseEntity<StoredReturn> answer(Activity.Sent sent) {
        return ResponseEntity.status(sent.first() ? HttpStatus.CREATED : HttpStatus.OK)
                .body(sent.stored());
    }
}
