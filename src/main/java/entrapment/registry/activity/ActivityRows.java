package entrapment.registry.activity;

import static java.util.stream.Collectors.joining;

import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Field;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;

/** Returns as rows: written, read, counted. */
@Component
class ActivityRows {

    private static final String RETURNS = """
            select distinct on (r.centre, r.period) r.centre, r.period, r.version, r.revision, count(u.*) as patterns,
                coalesce(sum(u.uses), 0) as uses
            from activity_return r
            left join use_count u on u.revision = r.revision
            where %s
            group by r.revision
            order by r.centre, r.period, r.revision desc""";

    private static final String NEWEST = """
            select revision, version, content_hash
            from activity_return
            where centre = :centre and period = :period
            order by revision desc
            limit 1""";

    private static final String ADD = """
            insert into activity_return (revision, centre, period, version, content_hash)
            values (:revision, :centre, :period, :version, :contentHash)""";

    private static final String FACTORS = factors(Field::column);

    private static final String COUNTS =
            """
            select %s, uses
            from use_count
            where revision = :revision
            order by %s""".formatted(factors(field -> field.column() + " as " + name(field)), FACTORS);

    /** The centre stands in each row as well, so that row security needs no join. */
    private static final String ADD_COUNTS = """
            insert into use_count (revision, centre, %s, uses)
            select :revision, :centre, %s, uses
            from jsonb_to_recordset(cast(:counts as jsonb)) as counts (%s, uses bigint)""".formatted(
                    FACTORS,
                    factors(ActivityRows::name),
                    factors(field -> name(field) + (field == Field.DEVICE_SIZE_MM ? " numeric" : " text")));

    private final JdbcClient jdbc;
    private final JsonMapper json;

    ActivityRows(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    private static String factors(Function<Field, String> text) {
        return Stream.of(Factor.values()).map(Factor::field).map(text).collect(joining(", "));
    }

    private static String name(Field field) {
        return '"' + field.code() + '"';
    }

    /** One version of a return: its place in the order of all changes, and what it is known by. */
    record Stored(long revision, int version, String contentHash) {}

    Optional<Stored> newest(String centre, Period period) {
        return jdbc.sql(NEWEST)
                .param("centre", centre)
                .param("period", period.toString())
                .query(Stored.class)
                .optional();
    }

    /** Adds a version; none is ever changed. */
    void add(String centre, ActivityReturn sent, Stored as) {
        jdbc.sql(ADD)
                .param("centre", centre)
                .param("period", sent.period().toString())
                .param("revision", as.revision())
                .param("version", as.version())
                .param("contentHash", as.contentHash())
                .update();
        jdbc.sql(ADD_COUNTS)
                .param("revision", as.revision())
                .param("centre", centre)
                .param("counts", json.writeValueAsString(sent.counts()))
                .update();
    }

    /** The return in force of each period, oldest first. */
    List<StoredReturn> returns(String centre) {
        return stored(jdbc.sql(RETURNS.formatted("r.centre = :centre")).param("centre", centre));
    }

    /** The return in force of each period as of a revision, by centre, oldest first; of every centre if none is named. */
    List<StoredReturn> returns(long cut, List<String> centres) {
        String where = "r.revision <= :cut" + (centres.isEmpty() ? "" : " and r.centre in (:centres)");
        JdbcClient.StatementSpec statement = jdbc.sql(RETURNS.formatted(where)).param("cut", cut);
        return stored(centres.isEmpty() ? statement : statement.param("centres", centres));
    }

    private static List<StoredReturn> stored(JdbcClient.StatementSpec statement) {
        return statement
                .query((row, number) -> new StoredReturn(
                        row.getString("centre"),
                        Period.parse(row.getString("period")).orElseThrow(),
                        row.getInt("version"),
                        row.getLong("revision"),
                        row.getLong("patterns"),
                        row.getLong("uses")))
                .list();
    }

    /** The rows of one version of a return, as they are sent. */
    List<Map<String, Object>> counts(long revision) {
        return jdbc.sql(COUNTS).param("revision", revision).query().listOfRows();
    }

    List<List<Tally>> tallies(long cut, Selection selection, List<List<Factor>> by) {
        Tally.Splits splits = new Tally.Splits(by.size());
        jdbc.sql(Tally.statement("sum(uses)::bigint", "use_count_as_of(:cut)", selection, by))
                .params(selection.parameters())
                .param("cut", cut)
                .query(splits::add);
        return splits.tallies();
    }
}
