package entrapment.registry.exports;

import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Writes a table as CSV (RFC 4180): UTF-8, a header row, CRLF. */
public final class CsvWriter {

    /** What makes a spreadsheet run a text as a formula (OWASP, CSV injection). */
    private static final String FORMULA_STARTS = "=+-@\t\r";

    private CsvWriter() {}

    /**
     * Writes the whole table.
     *
     * @param withComments whether the table's comments stand first, each in a row that begins with {@code #}
     */
    public static String write(Table table, boolean withComments) {
        StringWriter text = new StringWriter();
        try (de.siegmar.fastcsv.writer.CsvWriter writer = de.siegmar.fastcsv.writer.CsvWriter.builder()
                .lineDelimiter(LineDelimiter.CRLF)
                .build(text)) {
            if (withComments) {
                table.comments().forEach(writer::writeComment);
            }
            writer.writeRecord(table.columns());
            for (List<@Nullable Object> row : table.rows()) {
                writer.writeRecord(row.stream().map(CsvWriter::cell).toList());
            }
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
        return text.toString();
    }

    private static String cell(@Nullable Object value) {
        String text = NumberText.cell(value);
        boolean formula = value instanceof String && !text.isEmpty() && FORMULA_STARTS.indexOf(text.charAt(0)) >= 0;
        return formula ? "'" + text : text;
    }
}
