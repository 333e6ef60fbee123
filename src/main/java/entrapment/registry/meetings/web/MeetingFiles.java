package entrapment.registry.meetings.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.exports.ResponseFormat;
import entrapment.registry.exports.slides.Deck;
import entrapment.registry.exports.slides.SlideCsv;
import entrapment.registry.meetings.Actions;
import entrapment.registry.meetings.Meetings;
import jakarta.servlet.http.HttpServletRequest;
import java.nio.charset.StandardCharsets;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;

/** What is taken away from a meeting: its slides, and the due days of its actions. */
@Component
class MeetingFiles {

    private final Meetings meetings;
    private final Actions actions;

    MeetingFiles(Meetings meetings, Actions actions) {
        this.meetings = meetings;
        this.actions = actions;
    }

    /** PPTX where both will do. */
    ResponseEntity<Object> slides(String meeting, HttpServletRequest request, Viewer viewer) {
        ResponseFormat format = ResponseFormat.alone(request, ResponseFormat.Form.PPTX, ResponseFormat.Form.CSV);
        Deck deck = meetings.deck(meeting, format.dark(), viewer);
        return format.download("meeting", deck.title(), () -> SlideCsv.of(deck), () -> deck);
    }

    ResponseEntity<String> calendar(String meeting, Viewer viewer) {
        return ResponseEntity.ok()
                .contentType(new MediaType("text", "calendar", StandardCharsets.UTF_8))
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment()
                                .filename("actions.ics")
                                .build()
                                .toString())
                .body(actions.calendar(meeting, viewer));
    }
}
