package entrapment.registry.access;

import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * What happened: who by key, when, what kind of action on what kind of thing, and with what outcome. No values. The
 * database numbers and chains the entries (V007), so that one that was altered or taken out is found.
 */
@Component
@Transactional
public class AuditTrail {

    private static final String ADD = """
            insert into audit_entry (at, key_id, centre, action, thing, outcome)
            values (:at, :keyId, (select code from centre where code = :centre), :action, :thing, :outcome)""";

    private static final String PAGE = """
            select number, at, key_id, centre, action, thing, outcome, encode(hash, 'hex') as hash
            from audit_entry
            where (cast(:centre as text) is null or centre = :centre) and number < :before
            order by number desc
            limit :size""";

    /** Each entry beside the one before it; the head stands after the last. */
    private static final String BROKEN = """
            select number, reason
            from (
                select number,
                    case
                        when number <> lag(number, 1, 0::bigint) over chain + 1 then 'entry-missing'
                        when previous <> lag(hash, 1, sha256('')) over chain then 'chain-broken'
                        when hash <> sha256(previous || convert_to(
                            audit_text(number, at, key_id, centre, action, thing, outcome), 'UTF8')) then 'entry-altered'
                    end as reason
                from audit_entry
                window chain as (order by number)
                union all
                select h.number, 'entry-missing' from audit_head h
                where h.number > 0 and not exists (
                    select from audit_entry e where e.number = h.number and e.hash = h.hash)) entries
            where reason is not null
            order by number
            limit 1""";

    private static final String HEAD = """
            select number, encode(hash, 'hex') as hash from audit_head""";

    /** What was done. */
    public enum Action {
        READ,
        SEND,
        CREATE,
        CHANGE,
        WITHDRAW,
        ISSUE,
        ROTATE,
        REVOKE,
        RELEASE,
        RESTORE;

        String code() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    private static final String DONE = "done";

    private final JdbcClient jdbc;
    private final RowSecurityScope scope;
    private final Clock clock;

    AuditTrail(JdbcClient jdbc, RowSecurityScope scope, Clock clock) {
        this.jdbc = jdbc;
        this.scope = scope;
        this.clock = clock;
    }

    /**
     * One entry.
     *
     * @param keyId null where the service itself acted
     * @param centre null for the network
     * @param outcome {@code done}, or the slug of the problem that was answered
     * @param hash covers this entry and the hash before it
     */
    public record Entry(
            long number,
            Instant at,
            @Nullable String keyId,
            @Nullable String centre,
            String action,
            String thing,
            String outcome,
            String hash) {}

    /**
     * Whether the trail is as it was written.
     *
     * @param head hash of the last entry; keep it elsewhere, and even a trail that was forged as a whole is found
     * @param firstBroken the first entry that is not as it was written, or after which one is missing
     * @param reason {@code entry-missing}, {@code chain-broken} or {@code entry-altered}
     */
    public record Verification(
            boolean intact,
            long entries,
            String head,
            @Nullable Long firstBroken,
            @Nullable String reason) {}

    /** Adds that something was done to the transaction that does it: they are kept together or not at all. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void done(@Nullable Viewer viewer, @Nullable String centre, Action action, String thing) {
        add(viewer == null ? null : viewer.keyId(), centre, action, thing, DONE);
    }

    /**
     * Adds what changed nothing: that something was read, or refused.
     *
     * @param centre whose data it was about; one that is not in the network is left away
     * @param problem slug of the problem that was answered; null where the answer was given
     */
    @Transactional(propagation = Propagation.REQUIRES_NEW)
    public void happened(
            Viewer viewer, @Nullable String centre, Action action, String thing, @Nullable String problem) {
        // Such an entry need not wait for the disk: no crash can break the chain, only shorten it by the last moment.
        jdbc.sql("set local synchronous_commit to off").update();
        scope.forTheNetwork(() -> add(viewer.keyId(), centre, action, thing, problem == null ? DONE : problem));
    }

    private int add(@Nullable String keyId, @Nullable String centre, Action action, String thing, String outcome) {
        return jdbc.sql(ADD)
                .param("at", OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC))
                .param("keyId", keyId)
                .param("centre", centre)
                .param("action", action.code())
                .param("thing", thing)
                .param("outcome", outcome)
                .update();
    }

    /**
     * The newest entries before a number, newest first.
     *
     * @param centre the centre whose entries are asked for; null for every one, which only the steward may read
     */
    @Transactional(readOnly = true)
    public List<Entry> list(@Nullable String centre, long before, int size, Viewer viewer) {
        if (centre == null) {
            viewer.requireSteward();
            return scope.forTheNetwork(() -> list(null, before, size));
        }
        viewer.requireOwn(centre);
        return scope.within(List.of(centre), () -> list(centre, before, size));
    }

    private List<Entry> list(@Nullable String centre, long before, int size) {
        return jdbc.sql(PAGE)
                .param("centre", centre)
                .param("before", before)
                .param("size", size)
                .query((row, number) -> new Entry(
                        row.getLong("number"),
                        row.getObject("at", OffsetDateTime.class).toInstant(),
                        row.getString("key_id"),
                        row.getString("centre"),
                        row.getString("action"),
                        row.getString("thing"),
                        row.getString("outcome"),
                        row.getString("hash")))
                .list();
    }

    /** Computes the whole chain again. */
    @Transactional(readOnly = true)
    public Verification verify(Viewer viewer) {
        viewer.requireSteward();
        return scope.forTheNetwork(this::verify);
    }

    private Verification verify() {
        record Head(long number, String hash) {}
        record Broken(long number, String reason) {}
        Head head = jdbc.sql(HEAD).query(Head.class).single();
        Broken broken = jdbc.sql(BROKEN).query(Broken.class).optional().orElse(null);
        return new Verification(
                broken == null,
                head.number(),
                head.hash(),
                broken == null ? null : broken.number(),
                broken == null ? null : broken.reason());
    }
}
