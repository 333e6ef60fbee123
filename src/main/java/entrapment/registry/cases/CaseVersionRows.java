package entrapment.registry.cases;

import entrapment.registry.access.Role;
import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Reading;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import java.math.BigDecimal;
import java.sql.Array;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Reads the stored versions of cases. */
@Component
class CaseVersionRows {

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

    /** A key of the network's own is not in view of a centre, and it is a steward's. */
    private static final String HISTORY = VERSION + """
            , made.at, coalesce(k.role, 'steward') as role
            from case_version c
            cross join lateral (
                select r.at, r.key_id from revision r where r.last >= c.revision order by r.last limit 1) made
            left join access_key k on k.id = made.key_id
            where c.centre = :centre and c.case_key = :caseKey
            order by c.revision""";

    private static final String RECEIVED = """
            select period, count(*) filter (where withdrawn is null) as stored,
                count(*) filter (where withdrawn is null and version > 1) as corrected,
                count(*) filter (where withdrawn is not null) as withdrawn
            from case_version
            where centre = :centre and superseded_by is null
            group by period
            order by period desc""";

    private static final String PAGE = VERSION + """
            from case_as_of(:cut) c
            where c.centre = :centre%s
            order by c.period desc, c.case_key
            limit :size offset :skip""";

    private static final String COUNT = """
            select count(*) from case_as_of(:cut) c where c.centre = :centre%s""";

    private static final String NOT_LOOKED_AT = VERSION + """
            from case_as_of(:cut) c
            where queried is null and %s and %s""";

    /** Cases that travel together while queries are looked for; a few megabytes. */
    private static final int FETCH_SIZE = 1_000;

    private static final String NEWEST = """
            select c.centre, c.case_key, c.version, c.device_class, c.period, c.withdrawn, made.at
            from (
                select centre, case_key, version, device_class, period, withdrawn, revision
                from case_version
                where cast(:centre as text) is null or centre = :centre
                order by revision desc
                limit :most) c
            cross join lateral (select r.at from revision r where r.last >= c.revision order by r.last limit 1) made
            order by c.revision desc""";

    private final JdbcClient jdbc;
    private final JsonMapper json;

    CaseVersionRows(JdbcClient jdbc, JsonMapper json) {
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

    List<StoredCase> versions(String centre, String caseKey) {
        return jdbc.sql(VERSIONS)
                .param("centre", centre)
                .param("caseKey", caseKey)
                .query((row, number) -> stored(row))
                .list();
    }

    List<CaseChange> history(String centre, String caseKey) {
        return jdbc.sql(HISTORY)
                .param("centre", centre)
                .param("caseKey", caseKey)
                .query((row, number) -> new CaseChange(
                        stored(row),
                        Code.of(Role.class, row.getString("role")).orElseThrow(),
                        row.getObject("at", OffsetDateTime.class).toInstant()))
                .list();
    }

    List<CasesOfPeriod> received(String centre) {
        return jdbc.sql(RECEIVED)
                .param("centre", centre)
                .query((row, number) -> new CasesOfPeriod(
                        Period.parse(row.getString("period")).orElseThrow(),
                        row.getLong("stored"),
                        row.getLong("corrected"),
                        row.getLong("withdrawn")))
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

    /** The versions that came in last, newest first; of every centre where none is given. */
    List<NewVersion> newest(@Nullable String centre, int most) {
        return jdbc.sql(NEWEST)
                .param("centre", centre)
                .param("most", most)
                .query((row, number) -> new NewVersion(
                        row.getString("centre"),
                        row.getString("case_key"),
                        row.getInt("version"),
                        Code.of(DeviceClass.class, row.getString("device_class"))
                                .orElseThrow(),
                        Period.parse(row.getString("period")).orElseThrow(),
                        withdrawal(row),
                        row.getObject("at", OffsetDateTime.class).toInstant()))
                .list();
    }

    record Place(String centre, Period period) {}

    /**
     * Queried cases among those stored before it was kept with them. The rules are written once, in Java, so each of these
     * passes by; no more than a fetch of them is in memory.
     */
    Map<Place, Long> lookAt(long cut, Selection selection) {
        Map<Place, Long> queried = new HashMap<>();
        jdbc.sql(NOT_LOOKED_AT.formatted(selection.cellCondition(), selection.factorCondition()))
                .params(selection.parameters())
                .param("cut", cut)
                .withFetchSize(FETCH_SIZE)
                .query(row -> {
                    StoredCase stored = stored(row);
                    if (!stored.queries().isEmpty()) {
                        queried.merge(
                                new Place(stored.centre(), stored.content().period()), 1L, Long::sum);
                    }
                });
        return queried;
    }

    /**
     * A row becomes the tree of the JSON that was sent, for the one reader that a case has: what a field may be is said there
     * alone, and a row that breaks it is found.
     */
    private StoredCase stored(ResultSet row) throws SQLException {
        ObjectNode tree = JsonNodeFactory.instance.objectNode();
        for (CaseColumn<EntrapmentCase> leaf : CaseColumns.LEAVES) {
            put(tree, leaf.csv(), row.getObject(leaf.field().column()));
        }
        tree.set("attempts", json.readTree(row.getString("attempts")));
        Period period = Period.parse(row.getString("period")).orElseThrow();
        Reading<EntrapmentCase> content = Fields.read(tree, fields -> EntrapmentCase.read(fields, period));
        if (content instanceof Reading.Valid<EntrapmentCase> valid) {
            return new StoredCase(
                    row.getString("centre"),
                    row.getString("case_key"),
                    row.getInt("version"),
                    row.getLong("revision"),
                    withdrawal(row),
                    valid.value());
        }
        throw new IllegalStateException("revision " + row.getLong("revision") + " is not a case: " + content);
    }

    private static @Nullable Withdrawal withdrawal(ResultSet row) throws SQLException {
        String reason = row.getString("withdrawn");
        return reason == null ? null : Code.of(Withdrawal.class, reason).orElseThrow();
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
