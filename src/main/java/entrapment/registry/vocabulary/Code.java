package entrapment.registry.vocabulary;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/** One code of a closed list. */
public interface Code {

    /** What stands for "not recorded" in each list that has it. */
    String UNKNOWN = "unknown";

    /** All that is written down of a code. */
    Coding coding();

    /** The code itself as it stands in JSON and CSV: kebab, stable for ever. */
    @JsonValue
    default String code() {
        return coding().code();
    }

    /** What a person reads in a table or on a form. */
    default String label() {
        return coding().label();
    }

    /** One line that lets two readers code the same case alike. */
    default String definition() {
        return coding().definition();
    }

    /** Where the definition comes from: a publication, a standard, or "common practice, no single source". */
    default String source() {
        return coding().source();
    }

    /** Whether it says more than that something was not recorded. */
    default boolean known() {
        return !code().equals(UNKNOWN);
    }

    /** The code of a list that is spelled like this. */
    static <E extends Enum<E> & Code> Optional<E> of(Class<E> list, String code) {
        return Stream.of(list.getEnumConstants())
                .filter(each -> each.code().equals(code))
                .findFirst();
    }

    /** A code with its label, its definition and the source of that. */
    record Coding(String code, String label, String definition, String source) {
        /** Of a constant whose code is spelled as its name is. */
        public static Coding of(Enum<?> constant, String label, String definition, String source) {
            return new Coding(constant.name().toLowerCase(Locale.ROOT).replace('_', '-'), label, definition, source);
        }
    }
}
