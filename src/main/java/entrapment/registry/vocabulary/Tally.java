package entrapment.registry.vocabulary;

import static java.util.stream.Collectors.joining;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;

/**
 * A count of cases or of uses: one cell of centre, period and device class, at one combination of levels.
 *
 * @param levels the levels of the factors that were asked for, in the order asked
 * @param selected whether these levels are within the selection; what is not still belongs to its cell
 * @param count events or uses
 */
public record Tally(
        String centre, Period period, String deviceClass, List<String> levels, boolean selected, long count) {

    /** The place at which numerators and denominators must belong together. */
    public Cell cell() {
        return new Cell(centre, period, deviceClass);
    }

    /** A centre, a period and a device class. */
    public record Cell(String centre, Period period, String deviceClass) {}

    /** Reads a row of the {@link #statement}. */
    public static Tally read(ResultSet row) throws SQLException {
        return new Tally(
                row.getString("centre"),
                Period.parse(row.getString("period")).orElseThrow(),
                row.getString("device_class"),
                List.of((String[]) row.getArray("levels").getArray()),
                row.getBoolean("selected"),
                row.getLong("number"));
    }

    /** The statement that counts by cell and levels; {@code source} is a table or function with the shared columns. */
    public static String statement(String count, String source, Selection selection, List<Factor> by) {
        String levels = by.stream().map(Factor::sqlText).collect(joining(", ", "array[", "]::text[]"));
        return """
                select centre, period, device_class, %s as levels, (%s) as selected, %s as number
                from %s
                where %s
                group by 1, 2, 3, 4, 5
                order by 1, 2, 3, 4, 5""".formatted(levels, selection.factorCondition(), count, source, selection.cellCondition());
    }
}
