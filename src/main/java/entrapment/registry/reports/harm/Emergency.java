package entrapment.registry.reports.harm;

import com.fasterxml.jackson.annotation.JsonValue;
import entrapment.registry.reports.question.Note;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.MissingOutcomeBoundsAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Fragment;
import entrapment.registry.vocabulary.Perforation;
import entrapment.registry.vocabulary.Release;
import java.util.EnumSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** An outcome that readers ask for by name, made of codes of one field. */
@SuppressWarnings("ImmutableEnumChecker") // the sets are never changed
public enum Emergency {
    PERFORATION_III(
            "perforation-iii",
            "Perforation type III",
            "Ellis type III or III with cavity spilling.",
            "perforation",
            EnumSet.of(Perforation.III, Perforation.III_CAVITY),
            Perforation.UNKNOWN),
    FRAGMENT_LEFT(
            "fragment-left",
            "Fragment left in the body",
            "a part of the device stayed in the body, stented over or not.",
            "fragment",
            EnumSet.complementOf(EnumSet.of(Fragment.NONE, Fragment.UNKNOWN)),
            Fragment.UNKNOWN),
    NOT_RELEASED(
            "not-released",
            "Nothing released",
            "nothing of the device left the body.",
            "release",
            EnumSet.of(Release.NONE),
            null);

    private final String code;
    private final String label;
    private final String meaning;
    private final String field;
    private final Set<? extends Code> codes;
    private final @Nullable Code unknown;

    Emergency(
            String code,
            String label,
            String meaning,
            String field,
            Set<? extends Code> codes,
            @Nullable Code unknown) {
        this.code = code;
        this.label = label;
        this.meaning = meaning;
        this.field = field;
        this.codes = codes;
        this.unknown = unknown;
    }

    @JsonValue
    public String code() {
        return code;
    }

    /** As people read it. */
    public String label() {
        return label;
    }

    String meaning() {
        return meaning;
    }

    Note.Subject about() {
        return new Note.Subject(code, label);
    }

    long events(OutcomeCounts counts) {
        return codes.stream().mapToLong(each -> counts.of(field, each)).sum();
    }

    long unknown(OutcomeCounts counts) {
        return unknown == null ? 0 : counts.of(field, unknown);
    }

    /** Between which shares of all cases it must lie, whatever the unknown ones were. */
    MissingOutcomeBoundsAnalysis bounds(OutcomeCounts counts, Confidence confidence) {
        long left = unknown(counts);
        return MissingOutcomeBoundsAnalysis.of(new Proportion(events(counts), counts.cases() - left), left, confidence);
    }
}
