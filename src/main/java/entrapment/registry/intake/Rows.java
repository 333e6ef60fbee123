package entrapment.registry.intake;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PushbackInputStream;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * Reads a body of many rows, CSV or NDJSON, one row at a time, so that memory does not grow with the body. A CSV row
 * becomes the same tree as its JSON, so everything after this is one path.
 */
public final class Rows {

    private static final int LONGEST_LINE = 65_536;

    private Rows() {}

    /** One row with the number of the line it starts on, counted from 1, header included. */
    public record Row(long line, Reading<JsonNode> tree) {}

    /** Reads one JSON value a line; empty lines are passed over. */
    public static void ndjson(InputStream body, Consumer<Row> each) {
        try (BufferedInputStream input = new BufferedInputStream(body, LONGEST_LINE)) {
            ByteArrayOutputStream line = new ByteArrayOutputStream();
            long number = 1;
            boolean anything = false;
            int value = input.read();
            while (value >= 0 || line.size() > 0) {
                if (value >= 0 && value != '\n') {
                    line.write(value);
                    if (line.size() > LONGEST_LINE) {
                        throw Problem.TOO_LARGE.refusal(
                                "Line " + number + " is longer than " + LONGEST_LINE + " bytes.");
                    }
                } else {
                    anything |= ndjsonLine(number++, line.toByteArray(), each);
                    line.reset();
                }
                value = value < 0 ? value : input.read();
            }
            if (!anything) {
                throw Problem.UNREADABLE_BODY.refusal("The body is empty; one JSON value a line was expected.");
            }
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
    }

    /** Hands over a line unless it is blank; returns whether it did. */
    private static boolean ndjsonLine(long number, byte[] line, Consumer<Row> each) {
        if (new String(line, StandardCharsets.UTF_8).isBlank()) {
            return false;
        }
        Reading<JsonNode> tree;
        try {
            tree = new Reading.Valid<>(Bodies.json(line));
        } catch (Refusal unreadable) {
            tree = new Reading.Refused<>(
                    List.of(new FieldError("", "unreadable-line", "the line is not one well-formed JSON value")));
        }
        each.accept(new Row(number, tree));
        return true;
    }

    /** Reads CSV with a header row (RFC 4180; either line end, a byte-order mark tolerated). */
    public static void csv(InputStream body, List<CsvColumn> known, Consumer<Row> each) {
        try (InputStreamReader text = new InputStreamReader(withoutMark(body), StandardCharsets.UTF_8.newDecoder());
                CsvReader<CsvRecord> reader = CsvReader.builder()
                        .allowExtraFields(true)
                        .allowMissingFields(true)
                        .skipEmptyLines(true)
                        .ofCsvRecord(text)) {
            List<CsvColumn> columns = null;
            for (CsvRecord row : reader) {
                if (columns == null) {
                    columns = header(row.getFields(), known);
                } else {
                    each.accept(new Row(row.getStartingLineNumber(), tree(row.getFields(), columns)));
                }
            }
            if (columns == null) {
                throw Problem.UNREADABLE_BODY.refusal("The body is empty; CSV with a header row was expected.");
            }
        } catch (CsvParseException | UncheckedIOException | CharacterCodingException unreadable) {
            // A refusal raised while the body was read arrives wrapped.
            if (unreadable.getCause() instanceof Refusal refusal) {
                throw refusal;
            }
            throw Problem.UNREADABLE_BODY.refusal("The body is not well-formed CSV in UTF-8.");
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
    }

    /** Spreadsheets begin a UTF-8 file with a byte-order mark. */
    private static InputStream withoutMark(InputStream body) throws IOException {
        PushbackInputStream input = new PushbackInputStream(body, 3);
        byte[] start = input.readNBytes(3);
        boolean marked =
                start.length == 3 && start[0] == (byte) 0xEF && start[1] == (byte) 0xBB && start[2] == (byte) 0xBF;
        if (!marked) {
            input.unread(start);
        }
        return input;
    }

    private static List<CsvColumn> header(List<String> names, List<CsvColumn> known) {
        Map<String, CsvColumn> byName = new LinkedHashMap<>();
        known.forEach(column -> byName.put(column.name(), column));
        String allowed = String.join(", ", byName.keySet());
        List<CsvColumn> columns = new ArrayList<>();
        List<FieldError> errors = new ArrayList<>();
        for (int index = 0; index < names.size(); index++) {
            CsvColumn column = byName.get(names.get(index).strip());
            if (column == null || columns.contains(column)) {
                errors.add(new FieldError(
                        "/columns/" + index,
                        column == null ? "unknown-column" : "repeated-column",
                        "column " + (index + 1)
                                + (column == null
                                        ? " is unknown; columns may be " + allowed
                                        : " repeats an earlier one")));
            } else {
                columns.add(column);
            }
        }
        if (!errors.isEmpty()) {
            throw Problem.refused(errors);
        }
        return columns;
    }

    private static Reading<JsonNode> tree(List<String> cells, List<CsvColumn> columns) {
        if (cells.size() != columns.size()) {
            return new Reading.Refused<>(List.of(new FieldError(
                    "", "row-shape", "the row has " + cells.size() + " cells, the header " + columns.size())));
        }
        Map<String, String> byName = new LinkedHashMap<>();
        for (int index = 0; index < cells.size(); index++) {
            byName.put(columns.get(index).name(), cells.get(index));
        }
        return new Reading.Valid<>(tree(byName, columns));
    }

    /**
     * The tree of what was written under the names of columns, as on a form; a blank cell is not there.
     *
     * @param cells by the name of the column; others are passed over
     */
    public static ObjectNode tree(Map<String, String> cells, List<CsvColumn> columns) {
        ObjectNode tree = JsonNodeFactory.instance.objectNode();
        for (CsvColumn column : columns) {
            String cell = cells.getOrDefault(column.name(), "").strip();
            if (!cell.isEmpty()) {
                put(tree, column, cell);
            }
        }
        return tree;
    }

    /** Sets the value at the column's pointer, making the objects and array elements on the way. */
    private static void put(ObjectNode tree, CsvColumn column, String cell) {
        String[] steps = column.pointer().substring(1).split("/", -1);
        ObjectNode place = tree;
        for (int step = 0; step < steps.length - 1; step++) {
            boolean list = steps[step + 1].matches("[0-9]+");
            if (list) {
                ArrayNode elements = place.withArray("/" + steps[step]);
                int wanted = Integer.parseInt(steps[++step]);
                while (elements.size() <= wanted) {
                    elements.addObject();
                }
                place = (ObjectNode) elements.get(wanted);
            } else {
                place = place.withObject("/" + steps[step]);
            }
        }
        place.set(steps[steps.length - 1], column.node(cell));
    }
}
