package entrapment.registry.intake;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;

/**
 * A column of a CSV file and the place in JSON that it stands for.
 *
 * @param pointer an RFC 6901 pointer into the same value written as JSON
 * @param kind what its text becomes in JSON
 */
public record CsvColumn(String name, String pointer, Kind kind) {

    /** What the text of a cell becomes in JSON. */
    public enum Kind {
        TEXT,
        NUMBER,
        /** Texts joined by semicolons, an array in JSON. */
        SET
    }

    private static final Pattern NUMBER = Pattern.compile("-?[0-9]{1,20}(\\.[0-9]{1,20})?");

    /**
     * The column to look at for an error at this pointer: the one that holds the place, or else the first below it; empty
     * where it is about the whole row.
     */
    public static Optional<CsvColumn> at(String pointer, List<CsvColumn> columns) {
        return columns.stream()
                .filter(column -> pointer.equals(column.pointer) || pointer.startsWith(column.pointer + "/"))
                .findFirst()
                .or(() -> columns.stream()
                        .filter(column -> !pointer.isEmpty() && column.pointer.startsWith(pointer + "/"))
                        .findFirst());
    }

    /** The cell as JSON; a number that is none stays text, for the field's reader to refuse. */
    JsonNode node(String cell) {
        JsonNodeFactory nodes = JsonNodeFactory.instance;
        return switch (kind) {
            case TEXT -> nodes.stringNode(cell);
            case NUMBER ->
                NUMBER.matcher(cell).matches() ? nodes.numberNode(new BigDecimal(cell)) : nodes.stringNode(cell);
            case SET -> {
                ArrayNode elements = nodes.arrayNode();
                for (String element : cell.split(";", -1)) {
                    elements.add(element.strip());
                }
                yield elements;
            }
        };
    }
}
