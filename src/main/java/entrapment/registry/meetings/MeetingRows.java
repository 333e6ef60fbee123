package entrapment.registry.meetings;

import entrapment.registry.access.DataCut;
import entrapment.registry.access.Viewer;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Harm;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;

/** Meetings, and what each froze, as rows (V011). Row security shows a transaction those of its centre alone. */
@Component
class MeetingRows {

    private static final String MEETING = """
            select id, centre, kind, first_period, last_period, case_rule, device_class, harm, sample_size, seed, version,
                cut, created_at
            from meeting
            """;

    private static final String ADD = """
            insert into meeting (id, centre, kind, first_period, last_period, case_rule, device_class, harm, sample_size,
                seed, version, created_at, key_id)
            values (:id, :centre, :kind, :from, :to, :rule, :deviceClass, :harm, :size, :seed, 1, :now, :keyId)""";

    private static final String CHANGE = """
            update meeting
            set kind = :kind, first_period = :from, last_period = :to, case_rule = :rule, device_class = :deviceClass,
                harm = :harm, sample_size = :size, version = version + 1
            where id = :id""";

    /** The meeting with the latest end before this one begins, of those that were there before it. */
    private static final String PREVIOUS = """
            where centre is not distinct from cast(:centre as text) and created_at < :created and last_period < :from
            order by last_period desc, created_at desc
            limit 1""";

    private static final String FROZEN = """
            select number, revision, revision_at, frozen_at, program, definition
            from meeting_cut
            where meeting = :meeting and number = :number""";

    private static final String FREEZE = """
            insert into meeting_cut (meeting, number, centre, revision, revision_at, frozen_at, key_id, program, definition)
            select :meeting, coalesce(max(number), 0) + 1, :centre, :revision, cast(:revisionAt as timestamptz), :frozenAt,
                :keyId, :program, cast(:definition as jsonb)
            from meeting_cut
            where meeting = :meeting
            returning number""";

    private final JdbcClient jdbc;
    private final JsonMapper json;

    MeetingRows(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    Optional<StoredMeeting> find(String id) {
        return meetings(jdbc.sql(MEETING + "where id = :id").param("id", id)).findFirst();
    }

    /** The same, which nobody else changes until this transaction ends. */
    Optional<StoredMeeting> lock(String id) {
        return meetings(jdbc.sql(MEETING + "where id = :id for update").param("id", id))
                .findFirst();
    }

    List<StoredMeeting> list() {
        return meetings(jdbc.sql(MEETING + "order by created_at desc, id")).toList();
    }

    Optional<StoredMeeting> previous(@Nullable String centre, PeriodRange periods, Instant created) {
        return meetings(jdbc.sql(MEETING + PREVIOUS)
                        .param("centre", centre)
                        .param("created", ColumnValues.utc(created))
                        .param("from", periods.from().toString()))
                .findFirst();
    }

    void add(StoredMeeting meeting, Viewer viewer) {
        planned(jdbc.sql(ADD), meeting.plan())
                .param("id", meeting.id())
                .param("centre", meeting.centre())
                .param("seed", meeting.seed())
                .param("now", ColumnValues.utc(meeting.createdAt()))
                .param("keyId", viewer.keyId())
                .update();
    }

    void change(String id, MeetingPlan plan) {
        planned(jdbc.sql(CHANGE), plan).param("id", id).update();
    }

    private static JdbcClient.StatementSpec planned(JdbcClient.StatementSpec statement, MeetingPlan plan) {
        CaseChoice choice = plan.cases();
        return statement
                .param("kind", plan.kind().code())
                .param("from", plan.span().from().toString())
                .param("to", plan.span().to().toString())
                .param("rule", choice.rule().code())
                .param("deviceClass", ColumnValues.code(choice.deviceClass()))
                .param("harm", ColumnValues.code(choice.harm()))
                .param("size", choice.size());
    }

    private static Stream<StoredMeeting> meetings(JdbcClient.StatementSpec statement) {
        return statement
                .query((row, number) -> new StoredMeeting(
                        row.getString("id"),
                        row.getString("centre"),
                        new MeetingPlan(
                                ColumnValues.of(MeetingKind.class, row.getString("kind")),
                                PeriodRange.of(row.getString("first_period"), row.getString("last_period")),
                                new CaseChoice(
                                        ColumnValues.of(ChoiceRule.class, row.getString("case_rule")),
                                        ColumnValues.ofNullable(DeviceClass.class, row.getString("device_class")),
                                        ColumnValues.ofNullable(Harm.class, row.getString("harm")),
                                        row.getObject("sample_size", Integer.class))),
                        row.getLong("seed"),
                        row.getInt("version"),
                        row.getObject("cut", Integer.class),
                        ColumnValues.instant(row, "created_at")))
                .list()
                .stream();
    }

    FrozenMeeting frozen(String meeting, int number) {
        return jdbc.sql(FROZEN)
                .param("meeting", meeting)
                .param("number", number)
                .query((row, index) -> {
                    OffsetDateTime at = row.getObject("revision_at", OffsetDateTime.class);
                    return new FrozenMeeting(
                            row.getInt("number"),
                            new DataCut(row.getLong("revision"), at == null ? null : at.toInstant()),
                            ColumnValues.instant(row, "frozen_at"),
                            row.getString("program"),
                            json.readValue(row.getString("definition"), Definition.class));
                })
                .single();
    }

    /** Freezes a meeting, for the first time or once more, and answers with the number of it. */
    int freeze(StoredMeeting meeting, FrozenMeeting frozen, Viewer viewer) {
        Instant at = frozen.dataCut().at();
        int number = jdbc.sql(FREEZE)
                .param("meeting", meeting.id())
                .param("centre", meeting.centre())
                .param("revision", frozen.dataCut().revision())
                .param("revisionAt", at == null ? null : ColumnValues.utc(at))
                .param("frozenAt", ColumnValues.utc(frozen.frozenAt()))
                .param("keyId", viewer.keyId())
                .param("program", frozen.program())
                .param("definition", json.writeValueAsString(frozen.definition()))
                .query(Integer.class)
                .single();
        setFrozen(meeting, number);
        return number;
    }

    /** What was frozen is kept. */
    void unfreeze(StoredMeeting meeting) {
        setFrozen(meeting, null);
    }

    private void setFrozen(StoredMeeting meeting, @Nullable Integer number) {
        jdbc.sql("update meeting set cut = :number, version = version + 1 where id = :id")
                .param("number", number)
                .param("id", meeting.id())
                .update();
    }
}
