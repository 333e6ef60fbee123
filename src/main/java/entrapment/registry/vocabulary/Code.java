package entrapment.registry.vocabulary;

import com.fasterxml.jackson.annotation.JsonValue;

/** One code of a closed list, as it stands in JSON and CSV. */
public interface Code {

    /** The code itself: lower-case kebab, stable for ever. */
    @JsonValue
    String code();

    /** What a person reads in a table or on a form. */
    String label();

    /** One line that lets two readers code the same case alike. */
    String definition();

    /** Where the definition comes from: a publication, a standard, or "common practice, no single source". */
    String source();
}
