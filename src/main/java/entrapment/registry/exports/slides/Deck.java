package entrapment.registry.exports.slides;

import entrapment.registry.exports.Answer;
import java.time.Instant;
import java.util.List;

/**
 * Slides in their order.
 *
 * @param title of the whole
 * @param made what the file says of when it was made, fixed so that the same deck has the same bytes
 * @param dark whether light text stands on a dark ground
 */
public record Deck(String title, Instant made, boolean dark, List<Slide> slides) {

    public Deck {
        slides = List.copyOf(slides);
    }

    /** One answer as a deck, a slide for each exhibit. */
    public static Deck of(Answer answer, boolean dark) {
        Instant at = answer.basis().at();
        return new Deck(answer.question(), at == null ? Instant.EPOCH : at, dark, Slide.of(answer));
    }
}
