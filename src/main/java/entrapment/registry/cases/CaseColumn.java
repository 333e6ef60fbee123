package entrapment.registry.cases;

import static java.util.stream.Collectors.joining;

import entrapment.registry.intake.CsvColumn;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Field;
import java.math.BigDecimal;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * A leaf of a case, or of what is a part of one.
 *
 * @param field what it is; of an attempt, the same in each
 * @param attempt the attempt it belongs to, from 1; 0 for none
 * @param csv its name in CSV and its place in JSON
 * @param read its value, as {@link #value} answers it
 */
public record CaseColumn<T>(Field field, int attempt, CsvColumn csv, Function<T, @Nullable Object> read) {

    /** Its name in CSV. */
    public String name() {
        return csv.name();
    }

    /** What stands there: a code, a set of codes, a number, a period or a text; null where nothing does. */
    public @Nullable Object value(T of) {
        return read.apply(of);
    }

    /** The value as a cell of CSV; empty where there is none. */
    public String cell(T of) {
        return value(of) instanceof Set<?> codes
                ? codes.stream().map(CaseColumn::text).collect(joining(";"))
                : text(value(of));
    }

    /** The value in the database's COPY text; no accepted value holds a character that COPY would escape. */
    String copyText(T of) {
        Object value = value(of);
        if (value == null) {
            return "\\N";
        }
        return value instanceof Set<?> codes
                ? codes.stream().map(CaseColumn::text).collect(joining(",", "{", "}"))
                : text(value);
    }

    private static String text(@Nullable Object value) {
        if (value instanceof Code code) {
            return code.code();
        }
        return value instanceof BigDecimal number ? number.toPlainString() : value == null ? "" : value.toString();
    }
}
