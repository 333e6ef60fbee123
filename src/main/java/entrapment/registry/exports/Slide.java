package entrapment.registry.exports;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * One slide of a deck.
 *
 * @param title at its top
 * @param sentence what it says, under the title; may be empty
 * @param exhibit figure and table beside each other; null for a slide of text
 * @param lines points of text; empty for a slide with an exhibit
 * @param notes for the speaker: what to know of the figures, and the cautions
 * @param method name and citation of how the figures were computed; empty for a slide of text
 * @param dataCut in words, at the bottom of the slide
 */
public record Slide(
        String title,
        String sentence,
        @Nullable Exhibit exhibit,
        List<String> lines,
        List<String> notes,
        String method,
        String dataCut) {

    public Slide {
        lines = List.copyOf(lines);
        notes = List.copyOf(notes);
    }

    /** A slide for each exhibit of an answer; the first one has the answer's sentence. */
    public static List<Slide> of(Answer answer) {
        List<String> notes = Stream.concat(answer.notes().stream(), answer.cautions().stream())
                .toList();
        List<Slide> slides = new ArrayList<>();
        for (Exhibit exhibit : answer.exhibits()) {
            slides.add(new Slide(
                    slides.isEmpty() ? answer.question() : exhibit.title(),
                    slides.isEmpty() ? answer.sentence() : exhibit.sentence(),
                    exhibit,
                    List.of(),
                    notes,
                    answer.basis().method() + " (" + answer.basis().citation() + ")",
                    answer.basis().dataCut()));
        }
        return slides;
    }
}
