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

    /**
     * Which note it is.
     *
     * @param code stable, in kebab case; of the kernel's notes the kernel's own
     * @param template the sentence, with a place for each value
     * @param ofKernel whether the kernel says it, whose code programs see behind the sentence
     */
    public record Wording(String code, String template, boolean ofKernel) {

        /** A note of a report. */
        public static Wording of(String code, String template) {
            return new Wording(code, template, false);
        }
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

    public static Note of(Wording wording, Object... values) {
        return new Note(null, wording, List.of(values));
    }

    public static Note about(@Nullable Subject about, Wording wording, Object... values) {
        return new Note(about, wording, List.of(values));
    }

    /** A note of the kernel. */
    public static Note of(@Nullable Subject about, entrapment.registry.stats.Note note) {
        return new Note(about, new Wording(note.code().name(), "%s", true), List.of(note.text()));
    }

    /** With codes, for programs; of the kernel's notes with their own code behind them. */
    @JsonValue
    public String forPrograms() {
        return (about == null ? "" : about.code() + ": ")
                + text()
                + (wording.ofKernel() ? " (" + wording.code() + ")" : "");
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
