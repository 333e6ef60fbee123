package entrapment.registry.cases;

import static java.util.stream.Collectors.joining;

import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Reading;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import java.math.BigDecimal;
import java.sql.Array;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Reads stored cases. */
@Component
class CaseRows {

    private static final String VERSION =
            """
            select c.revision, c.centre, c.case_key, c.version, c.withdrawn, c.%s,
                (select coalesce(jsonb_agg(jsonb_build_object(
                        'technique', a.technique, 'result', a.result,
                        'minutesFromEntrapment', a.minutes_from_entrapment, 'enablers', a.enablers)
                    order by a.position), '[]')
                 from attempt a where a.revision = c.revision) as attempts
            """.formatted(CaseColumns.sqlList(CaseColumns.LEAVES).replace(", ", ", c."));

    private static final String HEAD = VERSION + """
            from case_version c
            where c.centre = :centre and c.case_key = :caseKey and c.superseded_by is null""";

    private static final String VERSIONS = VERSION + """
            from case_version c
            where c.centre = :centre and c.case_key = :caseKey
            order by c.revision""";

    private static final String PAGE = VERSION + """
            from case_as_of(:cut) c
            where c.centre = :centre%s
            order by c.period desc, c.case_key
            limit :size offset :skip""";

    private static final String COUNT = """
            select count(*) from case_as_of(:cut) c where c.centre = :centre%s""";

    /** Cases by how often a technique (or, where null, any) was tried in them, and with what success. */
    private static final String RETRIEVAL = """
            select levels, technique, tried, released, first_tried, first_released, count(*) as cases
            from (
                select c.revision, %s as levels, a.technique,
                    count(*) as tried,
                    count(*) filter (where a.result = 'released') as released,
                    count(*) filter (where a.position = 1) as first_tried,
                    count(*) filter (where a.position = 1 and a.result = 'released') as first_released
                from case_as_of(:cut) c
                join attempt a on a.revision = c.revision
                where %s and %s
                group by grouping sets ((1, 2, a.technique), (1, 2))) tried
            group by 1, 2, 3, 4, 5, 6
            order by 1, 2, 3, 4, 5, 6""";

    private final JdbcClient jdbc;
    private final JsonMapper json;

    CaseRows(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    /** The newest version under a key, a withdrawal included. */
    Optional<StoredCase> head(String centre, String caseKey) {
        return jdbc.sql(HEAD)
                .param("centre", centre)
                .param("caseKey", caseKey)
                .query((row, number) -> stored(row))
                .optional();
    }

    /** Every version under a key, oldest first. */
    List<StoredCase> versions(String centre, String caseKey) {
        return jdbc.sql(VERSIONS)
                .param("centre", centre)
                .param("caseKey", caseKey)
                .query((row, number) -> stored(row))
                .list();
    }

    List<StoredCase> page(CaseQuery query, long cut) {
        return jdbc.sql(PAGE.formatted(query.condition()))
                .params(query.parameters())
                .param("cut", cut)
                .param("size", query.size())
                .param("skip", (query.page() - 1) * query.size())
                .query((row, number) -> stored(row))
                .list();
    }

    long count(CaseQuery query, long cut) {
        return jdbc.sql(COUNT.formatted(query.condition()))
                .params(query.parameters())
                .param("cut", cut)
                .query(Long.class)
                .single();
    }

    List<Tally> tally(long cut, Selection selection, List<Factor> by) {
        return jdbc.sql(Tally.statement("count(*)", "case_as_of(:cut)", selection, by))
                .params(selection.parameters())
                .param("cut", cut)
                .query((row, number) -> Tally.read(row))
                .list();
    }

    List<RetrievalTally> retrieval(long cut, Selection selection, List<RetrievalSplit> by) {
        String levels = by.stream().map(RetrievalSplit::column).collect(joining(", c.", "array[c.", "]::text[]"));
        return jdbc.sql(RETRIEVAL.formatted(
                        by.isEmpty() ? "array[]::text[]" : levels,
                        selection.cellCondition(),
                        selection.factorCondition()))
                .params(selection.parameters())
                .param("cut", cut)
                .query((row, number) -> new RetrievalTally(
                        List.of((String[]) row.getArray("levels").getArray()),
                        row.getString("technique"),
                        row.getLong("tried"),
                        row.getLong("released"),
                        row.getLong("first_tried"),
                        row.getLong("first_released"),
                        row.getLong("cases")))
                .list();
    }

    /** A row becomes the tree of the JSON that was sent, so that there is one reader of a case. */
    private StoredCase stored(ResultSet row) throws SQLException {
        ObjectNode tree = JsonNodeFactory.instance.objectNode();
        for (CsvColumn column : CaseColumns.LEAVES) {
            put(tree, column, row.getObject(CaseColumns.sql(column)));
        }
        tree.set("attempts", json.readTree(row.getString("attempts")));
        Reading<EntrapmentCase> content = Fields.read(tree, fields -> EntrapmentCase.read(fields, new Period(9999, 4)));
        if (content instanceof Reading.Valid<EntrapmentCase> valid) {
            return new StoredCase(
                    row.getString("centre"),
                    row.getString("case_key"),
                    row.getInt("version"),
                    row.getLong("revision"),
                    row.getString("withdrawn"),
                    valid.value());
        }
        throw new IllegalStateException("revision " + row.getLong("revision") + " is not a case: " + content);
    }

    private static void put(ObjectNode tree, CsvColumn column, Object value) throws SQLException {
        if (value == null) {
            return;
        }
        int last = column.pointer().lastIndexOf('/');
        ObjectNode place = last == 0 ? tree : tree.withObject(column.pointer().substring(0, last));
        if (value instanceof Array array) {
            ArrayNode elements = place.putArray(column.name());
            for (String element : (String[]) array.getArray()) {
                elements.add(element);
            }
        } else if (value instanceof BigDecimal number) {
            place.put(column.name(), number);
        } else {
            place.put(column.name(), value.toString());
        }
    }
}
