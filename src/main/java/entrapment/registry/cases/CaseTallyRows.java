package entrapment.registry.cases;

import static java.util.stream.Collectors.joining;

import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** Counts stored cases as of a revision. */
@Component
class CaseTallyRows {

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

    /** Cases by how they ended; a case with three complications is counted under each. */
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

    private final JdbcClient jdbc;
    private final CaseVersionRows versions;

    CaseTallyRows(JdbcClient jdbc, CaseVersionRows versions) {
        this.jdbc = jdbc;
        this.versions = versions;
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
        Map<CaseVersionRows.Place, Long> lookedAt = versions.lookAt(cut, selection);
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
                            row.getLong("queried")
                                    + lookedAt.getOrDefault(new CaseVersionRows.Place(centre, period), 0L),
                            fields);
                })
                .list();
    }

    private static String counts(Stream<String> conditions) {
        return conditions
                .map(condition -> "count(*) filter (where " + condition + ")")
                .collect(joining(", "));
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
}
