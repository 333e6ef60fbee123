package entrapment.registry.reports.question;

import com.fasterxml.jackson.annotation.JsonValue;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Labels;
import entrapment.registry.vocabulary.Level;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the reader must know of the figures. It becomes a text only where it is printed: for programs with codes, for people
 * with labels.
 *
 * @param about what it is about; null for the whole report
 * @param wording which note it is
 * @param values what the wording leaves open, in its order
 */
public record Note(@Nullable Subject about, Wording wording, List<Object> values) {

    /** A note of the registry, or of the kernel. */
    public interface Wording {

        /** The code of a note. */
        String name();

        /** The sentence, with a place for each value. */
        String template();
    }

    /** What a note is about, as programs and as people read it. */
    public record Subject(String code, String label) {

        /** A factor, or another field of a case. */
        public static Subject field(String name) {
            return new Subject(name, Labels.field(name));
        }

        /** One level of a factor. */
        public static Subject of(Factor factor, Level level) {
            String field = Labels.field(factor.code());
            String label = Words.small(level.label());
            return new Subject(
                    factor.code() + " " + level.code(), label.equals(Words.small(field)) ? field : field + " " + label);
        }

        /** Something that has one name for all. */
        public static Subject named(String name) {
            return new Subject(name, name);
        }
    }

    /** A note of the kernel, whose sentences are complete. */
    private record OfKernel(entrapment.registry.stats.Note note) implements Wording {

        @Override
        public String name() {
            return note.code().name();
        }

        @Override
        public String template() {
            return "%s";
        }
    }

    public static Note of(Wording wording, Object... values) {
        return new Note(null, wording, List.of(values));
    }

    public static Note about(@Nullable Subject about, Wording wording, Object... values) {
        return new Note(about, wording, List.of(values));
    }

    /** A note of the kernel. */
    public static Note of(@Nullable Subject about, entrapment.registry.stats.Note note) {
        return new Note(about, new OfKernel(note), List.of(note.text()));
    }

    /** With codes, for programs; of the kernel's notes with their own code behind them. */
    @JsonValue
    public String forPrograms() {
        return (about == null ? "" : about.code() + ": ")
                + (wording instanceof OfKernel kernel ? kernel.note().withCode() : text());
    }

    /** With labels, for people. */
    public String forPeople() {
        return Words.sentence((about == null ? "" : about.label() + ": ") + text());
    }

    private String text() {
        return wording.template().formatted(values.toArray());
    }

    @Override
    public String toString() {
        return forPrograms();
    }
}
