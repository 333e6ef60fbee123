package entrapment.registry.vocabulary;

import static java.util.stream.Collectors.joining;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;

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
                split(row.getString("levels")),
                row.getBoolean("selected"),
                row.getLong("number"));
    }

    /** Counts by cell and levels as they come out of the database, once for each list of factors. */
    public static final class Splits {

        private final List<List<Tally>> tallies;

        public Splits(int lists) {
            tallies = Stream.<List<Tally>>generate(ArrayList::new).limit(lists).toList();
        }

        /** Takes a row of the {@link #statement}. */
        public void add(ResultSet row) throws SQLException {
            tallies.get(row.getInt("split")).add(read(row));
        }

        /** The counts of each list, in the order of the lists. */
        public List<List<Tally>> tallies() {
            return tallies;
        }
    }

    /**
     * The statement that counts by cell and levels, once for each list of factors; {@code split} is the index of the list
     * that a row belongs to.
     *
     * @param source a table or function with the shared columns
     * @param by at least one list, which may be empty
     */
    public static String statement(String count, String source, Selection selection, List<List<Factor>> by) {
        String splits = IntStream.range(0, by.size())
                .mapToObj(index -> "(" + index + ", " + levels(by.get(index)) + ")")
                .collect(joining(", "));
        return """
                select split, centre, period, device_class, levels, (%s) as selected, %s as number
                from %s
                cross join lateral (values %s) splits (split, levels)
                where %s
                group by 1, 2, 3, 4, 5, 6
                order by 1, 2, 3, 4, 5, 6""".formatted(selection.factorCondition(), count, source, splits, selection.cellCondition());
    }

    /** Between two levels; no code and no size has it. */
    private static final String MARK = "\u001f";

    /** The levels of some factors as one text, which the database groups twice as fast as an array. */
    public static String levels(List<Factor> by) {
        return by.isEmpty()
                ? "''::text"
                : by.stream().map(Factor::sqlText).collect(joining(", ", "concat_ws(e'\\x1f', ", ")"));
    }

    private static List<String> split(String levels) {
        return levels.isEmpty() ? List.of() : List.of(levels.split(MARK, -1));
    }
}
