package entrapment.registry.meetings;

import entrapment.registry.access.DataCut;
import entrapment.registry.access.Viewer;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Harm;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;

/** Meetings as rows (V011). Row security shows a transaction those of its centre alone. */
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

    private static final String CUT = """
            select number, revision, revision_at, frozen_at, program, definition
            from meeting_cut
            where meeting = :meeting and number = :number""";

    private static final String ADD_CUT = """
            insert into meeting_cut (meeting, number, centre, revision, revision_at, frozen_at, key_id, program, definition)
            select :meeting, coalesce(max(number), 0) + 1, :centre, :revision, cast(:revisionAt as timestamptz), :frozenAt,
                :keyId, :program, cast(:definition as jsonb)
            from meeting_cut
            where meeting = :meeting
            returning number""";

    private static final String STATEMENTS = """
            select kind, factor_type, text
            from review_statement
            where meeting = :meeting and case_key = :caseKey
            order by position""";

    private static final String KEEP_REVIEW = """
            insert into case_review (meeting, case_key, centre, version)
            values (:meeting, :caseKey, :centre, 1)
            on conflict (meeting, case_key) do update set version = case_review.version + 1
            returning version""";

    private static final String ADD_STATEMENT = """
            insert into review_statement (meeting, case_key, centre, position, kind, factor_type, text)
            values (:meeting, :caseKey, :centre, :position, :kind, :type, :text)""";

    private static final String RATE = """
            insert into preventability_rating (meeting, case_key, key_id, centre, rating, rated_at)
            values (:meeting, :caseKey, :keyId, :centre, :rating, :now)
            on conflict (meeting, case_key, key_id) do nothing""";

    private static final String RATINGS = """
            select rating
            from preventability_rating
            where meeting = :meeting and case_key = :caseKey
            order by rated_at, key_id""";

    private static final String ACTION = """
            select a.meeting, a.number, a.what, a.owner, a.due_on, a.measure, a.status, a.version, a.created_at,
                a.changed_at
            from meeting_action a
            """;

    /** Of earlier meetings of the same centre: what is open, and what is done and due in these periods or later. */
    private static final String EARLIER = ACTION + """
            join meeting m on m.id = a.meeting
            where m.centre is not distinct from cast(:centre as text) and m.created_at < :created
              and (a.status = 'open' or a.status = 'done' and a.due_on >= :since)
            order by a.due_on, a.meeting, a.number""";

    private static final String ADD_ACTION = """
            insert into meeting_action (meeting, number, centre, what, owner, due_on, measure, status, version, created_at,
                changed_at)
            select :meeting, coalesce(max(number), 0) + 1, :centre, :what, :owner, :dueOn, cast(:measure as jsonb), :status,
                1, :now, :now
            from meeting_action
            where meeting = :meeting
            returning number""";

    private static final String CHANGE_ACTION = """
            update meeting_action
            set what = :what, owner = :owner, due_on = :dueOn, measure = cast(:measure as jsonb), status = :status,
                version = version + 1, changed_at = :now
            where meeting = :meeting and number = :number""";

    private static final String FACTOR = "contributing-factor";
    private static final String LEARNING = "learning-point";
    private static final String WENT_WELL = "went-well";

    private final JdbcClient jdbc;
    private final JsonMapper json;

    MeetingRows(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    /**
     * A meeting as it is stored.
     *
     * @param centre null for the network
     * @param cut the number of the cut at which it is frozen; null while it is not
     */
    record Stored(
            String id,
            @Nullable String centre,
            MeetingPlan plan,
            long seed,
            int version,
            @Nullable Integer cut,
            Instant createdAt) {

        String etag() {
            return "\"" + version + "\"";
        }
    }

    Optional<Stored> find(String id) {
        return meetings(jdbc.sql(MEETING + "where id = :id").param("id", id)).findFirst();
    }

    /** The same, which nobody else changes until this transaction ends. */
    Optional<Stored> lock(String id) {
        return meetings(jdbc.sql(MEETING + "where id = :id for update").param("id", id))
                .findFirst();
    }

    /** Every meeting in view, newest first. */
    List<Stored> list() {
        return meetings(jdbc.sql(MEETING + "order by created_at desc, id")).toList();
    }

    Optional<Stored> previous(@Nullable String centre, PeriodRange span, Instant created) {
        return meetings(jdbc.sql(MEETING + PREVIOUS)
                        .param("centre", centre)
                        .param("created", utc(created))
                        .param("from", span.from().toString()))
                .findFirst();
    }

    void add(Stored meeting, Viewer viewer) {
        planned(jdbc.sql(ADD), meeting.plan())
                .param("id", meeting.id())
                .param("centre", meeting.centre())
                .param("seed", meeting.seed())
                .param("now", utc(meeting.createdAt()))
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
                .param("deviceClass", code(choice.deviceClass()))
                .param("harm", code(choice.harm()))
                .param("size", choice.size());
    }

    /** Freezes it at a cut, or thaws it. */
    void setCut(String id, @Nullable Integer number) {
        jdbc.sql("update meeting set cut = :number, version = version + 1 where id = :id")
                .param("number", number)
                .param("id", id)
                .update();
    }

    private static Stream<Stored> meetings(JdbcClient.StatementSpec statement) {
        return statement
                .query((row, number) -> new Stored(
                        row.getString("id"),
                        row.getString("centre"),
                        new MeetingPlan(
                                of(MeetingKind.class, row.getString("kind")),
                                PeriodRange.of(row.getString("first_period"), row.getString("last_period")),
                                new CaseChoice(
                                        of(ChoiceRule.class, row.getString("case_rule")),
                                        ofNullable(DeviceClass.class, row.getString("device_class")),
                                        ofNullable(Harm.class, row.getString("harm")),
                                        row.getObject("sample_size", Integer.class))),
                        row.getLong("seed"),
                        row.getInt("version"),
                        row.getObject("cut", Integer.class),
                        instant(row, "created_at")))
                .list()
                .stream();
    }

    Cut cut(String meeting, int number) {
        return jdbc.sql(CUT)
                .param("meeting", meeting)
                .param("number", number)
                .query((row, index) -> {
                    OffsetDateTime at = row.getObject("revision_at", OffsetDateTime.class);
                    return new Cut(
                            row.getInt("number"),
                            new DataCut(row.getLong("revision"), at == null ? null : at.toInstant()),
                            instant(row, "frozen_at"),
                            row.getString("program"),
                            json.readValue(row.getString("definition"), Definition.class));
                })
                .single();
    }

    int addCut(Stored meeting, Cut cut, Viewer viewer) {
        Instant at = cut.dataCut().at();
        return jdbc.sql(ADD_CUT)
                .param("meeting", meeting.id())
                .param("centre", meeting.centre())
                .param("revision", cut.dataCut().revision())
                .param("revisionAt", at == null ? null : utc(at))
                .param("frozenAt", utc(cut.frozenAt()))
                .param("keyId", viewer.keyId())
                .param("program", cut.program())
                .param("definition", json.writeValueAsString(cut.definition()))
                .query(Integer.class)
                .single();
    }

    /** 0 where there is no review yet. */
    int reviewVersion(String meeting, String caseKey) {
        return jdbc.sql("select version from case_review where meeting = :meeting and case_key = :caseKey")
                .param("meeting", meeting)
                .param("caseKey", caseKey)
                .query(Integer.class)
                .optional()
                .orElse(0);
    }

    Review review(String meeting, String caseKey) {
        List<Review.ContributingFactor> factors = new ArrayList<>();
        List<Review.Remark> learning = new ArrayList<>();
        List<Review.Remark> wentWell = new ArrayList<>();
        jdbc.sql(STATEMENTS).param("meeting", meeting).param("caseKey", caseKey).query(row -> {
            String text = row.getString("text");
            switch (row.getString("kind")) {
                case FACTOR ->
                    factors.add(
                            new Review.ContributingFactor(of(FactorType.class, row.getString("factor_type")), text));
                case LEARNING -> learning.add(new Review.Remark(text));
                default -> wentWell.add(new Review.Remark(text));
            }
        });
        return new Review(List.copyOf(factors), List.copyOf(learning), List.copyOf(wentWell));
    }

    void keep(Stored meeting, String caseKey, Review review) {
        String centre = Objects.requireNonNull(meeting.centre());
        jdbc.sql(KEEP_REVIEW)
                .param("meeting", meeting.id())
                .param("caseKey", caseKey)
                .param("centre", centre)
                .query(Integer.class)
                .single();
        jdbc.sql("delete from review_statement where meeting = :meeting and case_key = :caseKey")
                .param("meeting", meeting.id())
                .param("caseKey", caseKey)
                .update();
        int position = 1;
        for (Review.ContributingFactor factor : review.contributingFactors()) {
            add(meeting, caseKey, position++, FACTOR, factor.type(), factor.statement());
        }
        for (Review.Remark remark : review.learningPoints()) {
            add(meeting, caseKey, position++, LEARNING, null, remark.text());
        }
        for (Review.Remark remark : review.wentWell()) {
            add(meeting, caseKey, position++, WENT_WELL, null, remark.text());
        }
    }

    private void add(
            Stored meeting, String caseKey, int position, String kind, @Nullable FactorType type, String text) {
        jdbc.sql(ADD_STATEMENT)
                .param("meeting", meeting.id())
                .param("caseKey", caseKey)
                .param("centre", meeting.centre())
                .param("position", position)
                .param("kind", kind)
                .param("type", code(type))
                .param("text", text)
                .update();
    }

    /** Whether this reviewer had not rated the case yet. */
    boolean rate(Stored meeting, String caseKey, Preventability rating, Instant now, Viewer viewer) {
        return jdbc.sql(RATE)
                        .param("meeting", meeting.id())
                        .param("caseKey", caseKey)
                        .param("keyId", viewer.keyId())
                        .param("centre", meeting.centre())
                        .param("rating", rating.code())
                        .param("now", utc(now))
                        .update()
                > 0;
    }

    PreventabilityRatings spread(String meeting, String caseKey) {
        return PreventabilityRatings.of(
                jdbc
                        .sql(RATINGS)
                        .param("meeting", meeting)
                        .param("caseKey", caseKey)
                        .query(String.class)
                        .list()
                        .stream()
                        .map(code -> of(Preventability.class, code))
                        .toList());
    }

    List<Action> actions(String meeting, LocalDate today) {
        return actions(
                jdbc.sql(ACTION + "where a.meeting = :meeting order by a.number")
                        .param("meeting", meeting),
                today);
    }

    List<Action> earlier(Stored meeting, LocalDate since, LocalDate today) {
        return actions(
                jdbc.sql(EARLIER)
                        .param("centre", meeting.centre())
                        .param("created", utc(meeting.createdAt()))
                        .param("since", since),
                today);
    }

    private List<Action> actions(JdbcClient.StatementSpec statement, LocalDate today) {
        return statement
                .query((row, index) -> {
                    LocalDate dueOn = row.getObject("due_on", LocalDate.class);
                    ActionStatus status = of(ActionStatus.class, row.getString("status"));
                    return new Action(
                            row.getString("meeting"),
                            row.getInt("number"),
                            new Action.Plan(
                                    row.getString("what"),
                                    of(OwnerRole.class, row.getString("owner")),
                                    dueOn,
                                    json.readValue(row.getString("measure"), Measure.class),
                                    status),
                            row.getInt("version"),
                            instant(row, "created_at"),
                            instant(row, "changed_at"),
                            status == ActionStatus.OPEN && dueOn.isBefore(today));
                })
                .list();
    }

    int addAction(Stored meeting, Action.Plan plan, Instant now) {
        return planned(jdbc.sql(ADD_ACTION), meeting, plan, now)
                .param("centre", meeting.centre())
                .query(Integer.class)
                .single();
    }

    void changeAction(Stored meeting, int number, Action.Plan plan, Instant now) {
        planned(jdbc.sql(CHANGE_ACTION), meeting, plan, now)
                .param("number", number)
                .update();
    }

    private JdbcClient.StatementSpec planned(
            JdbcClient.StatementSpec statement, Stored meeting, Action.Plan plan, Instant now) {
        return statement
                .param("meeting", meeting.id())
                .param("what", plan.what())
                .param("owner", plan.owner().code())
                .param("dueOn", plan.dueOn())
                .param("measure", json.writeValueAsString(plan.measure()))
                .param("status", plan.status().code())
                .param("now", utc(now));
    }

    private static @Nullable String code(@Nullable Code value) {
        return value == null ? null : value.code();
    }

    private static <E extends Enum<E> & Code> @Nullable E ofNullable(Class<E> type, @Nullable String code) {
        return code == null ? null : of(type, code);
    }

    private static <E extends Enum<E> & Code> E of(Class<E> type, String code) {
        return Stream.of(type.getEnumConstants())
                .filter(each -> each.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    private static OffsetDateTime utc(Instant instant) {
        return OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
    }

    private static Instant instant(ResultSet row, String column) throws SQLException {
        return row.getObject(column, OffsetDateTime.class).toInstant();
    }
}
