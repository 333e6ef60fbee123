package entrapment.registry.meetings;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;

/** What meetings agreed as rows (V011), in view as the meetings are. */
@Component
class ActionRows {

    private static final String ACTION = """
            select a.meeting, a.number, a.what, a.owner, a.due_on, a.measure, a.status, a.version, a.created_at,
                a.changed_at
            from meeting_action a
            """;

    private static final String FOLLOW_UPS = ACTION + """
            join meeting m on m.id = a.meeting
            where m.centre is not distinct from cast(:centre as text) and m.created_at < :created
              and (a.status = 'open' or a.status = 'done' and a.due_on >= :since)
            order by a.due_on, a.meeting, a.number""";

    private static final String ADD = """
            insert into meeting_action (meeting, number, centre, what, owner, due_on, measure, status, version, created_at,
                changed_at)
            select :meeting, coalesce(max(number), 0) + 1, :centre, :what, :owner, :dueOn, cast(:measure as jsonb), :status,
                1, :now, :now
            from meeting_action
            where meeting = :meeting
            returning number""";

    private static final String CHANGE = """
            update meeting_action
            set what = :what, owner = :owner, due_on = :dueOn, measure = cast(:measure as jsonb), status = :status,
                version = version + 1, changed_at = :now
            where meeting = :meeting and number = :number""";

    private final JdbcClient jdbc;
    private final JsonMapper json;

    ActionRows(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    /**
     * What a meeting agreed, in the order of its numbers.
     *
     * @param today actions that are open after their day are overdue
     */
    List<Action> list(String meeting, LocalDate today) {
        return read(
                jdbc.sql(ACTION + "where a.meeting = :meeting order by a.number")
                        .param("meeting", meeting),
                today);
    }

    /** What earlier meetings agreed that is open, or due on that day or later and done. */
    List<Action> followUps(StoredMeeting meeting, LocalDate since, LocalDate today) {
        return read(
                jdbc.sql(FOLLOW_UPS)
                        .param("centre", meeting.centre())
                        .param("created", ColumnValues.utc(meeting.createdAt()))
                        .param("since", since),
                today);
    }

    private List<Action> read(JdbcClient.StatementSpec statement, LocalDate today) {
        return statement
                .query((row, index) -> {
                    LocalDate dueOn = row.getObject("due_on", LocalDate.class);
                    ActionStatus status = ColumnValues.of(ActionStatus.class, row.getString("status"));
                    return new Action(
                            row.getString("meeting"),
                            row.getInt("number"),
                            new Action.Plan(
                                    row.getString("what"),
                                    ColumnValues.of(OwnerRole.class, row.getString("owner")),
                                    dueOn,
                                    json.readValue(row.getString("measure"), Measure.class),
                                    status),
                            row.getInt("version"),
                            ColumnValues.instant(row, "created_at"),
                            ColumnValues.instant(row, "changed_at"),
                            status == ActionStatus.OPEN && dueOn.isBefore(today));
                })
                .list();
    }

    int add(StoredMeeting meeting, Action.Plan plan, Instant now) {
        return planned(jdbc.sql(ADD), meeting, plan, now)
                .param("centre", meeting.centre())
                .query(Integer.class)
                .single();
    }

    void change(StoredMeeting meeting, int number, Action.Plan plan, Instant now) {
        planned(jdbc.sql(CHANGE), meeting, plan, now).param("number", number).update();
    }

    private JdbcClient.StatementSpec planned(
            JdbcClient.StatementSpec statement, StoredMeeting meeting, Action.Plan plan, Instant now) {
        return statement
                .param("meeting", meeting.id())
                .param("what", plan.what())
                .param("owner", plan.owner().code())
                .param("dueOn", plan.dueOn())
                .param("measure", json.writeValueAsString(plan.measure()))
                .param("status", plan.status().code())
                .param("now", ColumnValues.utc(now));
    }
}
