package entrapment.registry.activity;

import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import java.util.List;
import java.util.Map;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** Reads stored returns. */
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

    private static final String COUNTS = """
            select device_class as "deviceClass", device_size_mm as "deviceSizeMm", vessel, calcification, tortuosity,
                total_occlusion as "totalOcclusion", stent_layers as "stentLayers", guide_french as "guideFrench",
                operator_stage as "operatorStage", uses
            from use_count
            where revision = :revision
            order by device_class, device_size_mm, vessel, calcification, tortuosity, total_occlusion, stent_layers,
                guide_french, operator_stage""";

    private final JdbcClient jdbc;

    ActivityRows(JdbcClient jdbc) {
        this.jdbc = jdbc;
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
