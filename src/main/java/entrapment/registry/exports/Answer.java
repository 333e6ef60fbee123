package entrapment.registry.exports;

import entrapment.registry.vocabulary.Filters;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One question answered: what a page shows, what a slide shows, and what the CSV of a deck lists.
 *
 * @param name of the report, as in its path
 * @param question in words
 * @param sentence the answer in plain words, with counts and interval
 * @param exhibits the first one answers, further ones support it
 * @param notes what the reader must know of these figures
 * @param cautions to be said wherever a figure or a technique is seen
 * @param basis how it was computed
 */
public record Answer(
        String name,
        String question,
        String sentence,
        List<Exhibit> exhibits,
        List<String> notes,
        List<String> cautions,
        Basis basis) {

    public Answer {
        exhibits = List.copyOf(exhibits);
        notes = List.copyOf(notes);
        cautions = List.copyOf(cautions);
    }

    /**
     * How an answer was computed.
     *
     * @param method the name of the method
     * @param citation where the method is published
     * @param revision of the data cut
     * @param at when the data cut was; null for the empty registry
     * @param filters in force
     * @param confidence the level of every interval, such as 0.95
     */
    public record Basis(
            String method,
            String citation,
            long revision,
            @Nullable Instant at,
            Filters filters,
            double confidence) {

        /** The data cut in words, for the foot of a slide: {@code data cut: revision 812, 2031-07-01}. */
        public String dataCut() {
            Instant when = at;
            return "data cut: revision " + revision
                    + (when == null ? "" : ", " + when.toString().substring(0, 10));
        }
    }
}
