package entrapment.registry.cases;

import static java.util.stream.Collectors.joining;
import static java.util.stream.Collectors.toMap;

import entrapment.registry.access.Role;
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
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
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

    /** A key of the network's own is not in view of a centre, and it is a steward's. */
    private static final String MADE = """
            select c.revision, made.at, coalesce(k.role, 'steward') as role
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

    /**
     * Cases by how often a technique (or, where null, any) was tried in them, and with what success. In two steps: grouping
     * sets at once over the join would hide statistics and indexes of its columns from the planner, which then compares
     * every case with every attempt.
     */
    private static final String RETRIEVAL = """
            with tried as (
                select c.revision, %s as levels, a.technique,
                    count(*) as tried,
                    count(*) filter (where a.result = 'released') as released,
                    count(*) filter (where a.position = 1) as first_tried,
                    count(*) filter (where a.position = 1 and a.result = 'released') as first_released
                from case_as_of(:cut) c
                join attempt a using (revision, centre)
                where %s
                group by 1, 2, 3)
            select levels, technique, tried, released, first_tried, first_released, count(*) as cases
            from (
                select revision, levels, technique, tried, released, first_tried, first_released
                from tried
                union all
                select revision, levels, null, sum(tried), sum(released), sum(first_tried), sum(first_released)
                from tried
                group by 1, 2) counted
            group by 1, 2, 3, 4, 5, 6
            order by 1, 2, 3, 4, 5, 6""";

    /** Cases by what came of them; a case with three complications is counted under each. */
    private static final String OUTCOMES = """
            select centre, period, device_class, %s as levels, true as selected, field, code, count(*) as number
            from case_as_of(:cut) c
            cross join lateral (
                select 'harm' as field, c.harm as code
                union all select 'release', c.release
                union all select 'perforation', c.perforation
                union all select 'fragment', c.fragment
                union all select 'complications', unnest(c.complications)) outcome
            where %s
            group by 1, 2, 3, 4, 6, 7
            order by 1, 2, 3, 4, 6, 7""";

    private static final String UNKNOWN_FIELDS = """
            select centre, period, count(*) as cases, count(*) filter (where not (%s)) as complete,
                count(*) filter (where queried) as queried,
                array[%s] as unknown, array[%s] as applicable
            from case_as_of(:cut) c
            where %s and %s
            group by 1, 2
            order by 1, 2""";

    private static final String NOT_LOOKED_AT = VERSION + """
            from case_as_of(:cut) c
            where queried is null and %s and %s""";

    /** The centre that asks, or any where none does. */
    private static final String OWN = "(cast(:own as text) is null or c.centre = :own)";

    private static final String LIKE = """
            select count(*) filter (where %1$s) as own, count(*) filter (where not %1$s) as others
            from case_as_of(:cut) c
            where %2$s""";

    /** What was seen in one case only is cut off after so many, or the answer would grow with the registry. */
    private static final String SEQUENCES = """
            select techniques, result, own, others
            from (
                select techniques, result, own, others,
                    row_number() over (partition by own, others order by techniques, result) as place
                from (
                    select techniques, result, count(*) filter (where own) as own,
                        count(*) filter (where not own) as others
                    from (
                        select %s as own, array_agg(a.technique order by a.position) as techniques,
                            (array_agg(a.result order by a.position desc))[1] as result
                        from case_as_of(:cut) c
                        join attempt a using (revision, centre)
                        where %s
                        group by c.revision, c.centre) tried
                    group by 1, 2) seen) placed
            where own + others > 1 or place <= :most
            order by own + others desc, techniques, result""";

    private static final String MINUTES = """
            select a.minutes_from_entrapment as minutes, count(*) as cases
            from case_as_of(:cut) c
            join attempt a using (revision, centre)
            where a.result = 'released' and a.minutes_from_entrapment is not null and %s
            group by 1
            order by 1""";

    /** Cases that travel together while queries are looked for; a few megabytes. */
    private static final int FETCH_SIZE = 1_000;

    private final JdbcClient jdbc;
    private final JsonMapper json;

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

    /** Every version under a key with its making, oldest first. */
    List<CaseChange> history(String centre, String caseKey) {
        Map<Long, StoredCase> versions =
                versions(centre, caseKey).stream().collect(toMap(StoredCase::revision, version -> version));
        return jdbc
                .sql(MADE)
                .param("centre", centre)
                .param("caseKey", caseKey)
                .query((row, number) -> new Made(
                        row.getLong("revision"),
                        Role.of(row.getString("role")),
                        row.getObject("at", OffsetDateTime.class).toInstant()))
                .list()
                .stream()
                .flatMap(made -> Optional.ofNullable(versions.get(made.revision())).stream()
                        .map(version -> new CaseChange(version, made.by(), made.at())))
                .toList();
    }

    private record Made(long revision, Role by, Instant at) {}

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

    List<List<Tally>> tallies(long cut, Selection selection, List<List<Factor>> by) {
        Tally.Splits splits = new Tally.Splits(by.size());
        jdbc.sql(Tally.statement("count(*)", "case_as_of(:cut)", selection, by))
                .params(selection.parameters())
                .param("cut", cut)
                .query(splits::add);
        return splits.tallies();
    }

    List<RetrievalTally> retrieval(long cut, PartialCase like, List<RetrievalSplit> by) {
        String levels = by.stream().map(RetrievalSplit::column).collect(joining(", c.", "array[c.", "]::text[]"));
        return jdbc.sql(RETRIEVAL.formatted(by.isEmpty() ? "array[]::text[]" : levels, like.condition()))
                .params(like.parameters())
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

    List<OutcomeTally> outcomes(long cut, PartialCase like, List<Factor> by) {
        return jdbc.sql(OUTCOMES.formatted(Tally.levels(by), like.condition()))
                .params(like.parameters())
                .param("cut", cut)
                .query((row, number) ->
                        new OutcomeTally(Tally.read(row), row.getString("field"), row.getString("code")))
                .list();
    }

    List<CompletenessTally> completeness(long cut, Selection selection) {
        Map<String, String> unknown = CaseColumns.unknown();
        String incomplete = unknown.entrySet().stream()
                .filter(field -> !CompletenessTally.OPTIONAL.contains(field.getKey()))
                .map(Map.Entry::getValue)
                .collect(joining(" or "));
        Map<Place, Long> lookedAt = lookAt(cut, selection);
        return jdbc.sql(UNKNOWN_FIELDS.formatted(
                        incomplete,
                        counts(unknown.values().stream()),
                        counts(unknown.keySet().stream().map(CaseColumns::meaning)),
                        selection.cellCondition(),
                        selection.factorCondition()))
                .params(selection.parameters())
                .param("cut", cut)
                .query((row, number) -> {
                    Long[] cases = (Long[]) row.getArray("unknown").getArray();
                    Long[] of = (Long[]) row.getArray("applicable").getArray();
                    Map<String, CompletenessTally.Unknown> fields = new LinkedHashMap<>();
                    unknown.keySet()
                            .forEach(field -> fields.put(
                                    field, new CompletenessTally.Unknown(cases[fields.size()], of[fields.size()])));
                    String centre = row.getString("centre");
                    Period period = Period.parse(row.getString("period")).orElseThrow();
                    return new CompletenessTally(
                            centre,
                            period,
                            row.getLong("cases"),
                            row.getLong("complete"),
                            row.getLong("queried") + lookedAt.getOrDefault(new Place(centre, period), 0L),
                            fields);
                })
                .list();
    }

    private static String counts(Stream<String> conditions) {
        return conditions
                .map(condition -> "count(*) filter (where " + condition + ")")
                .collect(joining(", "));
    }

    private record Place(String centre, Period period) {}

    /**
     * Queried cases among those stored before it was kept with them. The rules are written once, in Java, so each of these
     * passes by; no more than a fetch of them is in memory.
     */
    private Map<Place, Long> lookAt(long cut, Selection selection) {
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

    LikeCases count(long cut, PartialCase like, @Nullable String own) {
        return jdbc.sql(LIKE.formatted(OWN, like.condition()))
                .params(like.parameters())
                .param("cut", cut)
                .param("own", own)
                .query((row, number) -> new LikeCases(row.getLong("own"), row.getLong("others")))
                .single();
    }

    List<SequenceTally> sequences(long cut, PartialCase like, @Nullable String own) {
        return jdbc.sql(SEQUENCES.formatted(OWN, like.condition()))
                .params(like.parameters())
                .param("cut", cut)
                .param("own", own)
                .param("most", SequenceTally.MOST_SEEN_ONCE)
                .query((row, number) -> new SequenceTally(
                        List.of((String[]) row.getArray("techniques").getArray()),
                        row.getString("result"),
                        row.getLong("own"),
                        row.getLong("others")))
                .list();
    }

    /** Released cases by the minutes their release took, those that state them. */
    SortedMap<Long, Long> minutesToRelease(long cut, PartialCase like) {
        SortedMap<Long, Long> minutes = new TreeMap<>();
        jdbc.sql(MINUTES.formatted(like.condition()))
                .params(like.parameters())
                .param("cut", cut)
                .query(row -> {
                    minutes.put(row.getLong("minutes"), row.getLong("cases"));
                });
        return minutes;
    }

    /** A row becomes the tree of the JSON that was sent, so that there is one reader of a case. */
    private StoredCase stored(ResultSet row) throws SQLException {
        ObjectNode tree = JsonNodeFactory.instance.objectNode();
        for (CsvColumn column : CaseColumns.LEAVES) {
            put(tree, column, row.getObject(CaseColumns.sql(column)));
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

    /** The versions that came in last, newest first; of every centre where none is given. */
    List<NewVersion> newest(@Nullable String centre, int most) {
        return jdbc.sql(NEWEST)
                .param("centre", centre)
                .param("most", most)
                .query((row, number) -> new NewVersion(
                        row.getString("centre"),
                        row.getString("case_key"),
                        row.getInt("version"),
                        row.getString("device_class"),
                        row.getString("period"),
                        row.getString("withdrawn"),
                        row.getObject("at", OffsetDateTime.class).toInstant()))
                .list();
    }
}
