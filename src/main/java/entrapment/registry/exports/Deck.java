package entrapment.registry.exports;

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
}
