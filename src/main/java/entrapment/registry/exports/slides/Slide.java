package entrapment.registry.exports.slides;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One slide of a deck.
 *
 * @param title at its top
 * @param sentence what it says, under the title; may be empty
 * @param exhibit figure and table beside each other; null for a slide of text
 * @param lines of text, each behind a dash; empty for a slide with an exhibit
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

    /**
     * A slide for each exhibit of an answer; the first one has the answer's sentence. A further exhibit whose one
     * row its sentence says already gets no slide of its own; the sentence is among the notes.
     */
    public static List<Slide> of(Answer answer) {
        List<Exhibit> shown = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        for (Exhibit exhibit : answer.exhibits()) {
            boolean said = exhibit.figure() == null
                    && exhibit.rows().size() == 1
                    && !exhibit.sentence().isEmpty();
            if (said && !shown.isEmpty()) {
                notes.add(exhibit.sentence());
            } else {
                shown.add(exhibit);
            }
        }
        notes.addAll(answer.notes());
        notes.addAll(answer.cautions());
        List<Slide> slides = new ArrayList<>();
        for (Exhibit exhibit : shown) {
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
