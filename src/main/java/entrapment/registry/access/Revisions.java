package entrapment.registry.access;

import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * The order of every accepted change. Numbers are handed out under a lock that is kept until commit, so that their
 * order is commit order: a reader that sees revision r sees all below it, now and for ever.
 */
@Component
@Transactional(propagation = Propagation.MANDATORY)
public class Revisions {

    /** Any constant does; it names the one lock under which revisions are handed out. */
    private static final long LOCK = 0x0E47_4A9L;

    private static final String TAKE = """
            insert into revision (first, last, at, key_id)
            select coalesce(max(last), 0) + 1, coalesce(max(last), 0) + :count,
                greatest(:now, coalesce(max(at), :now)), :keyId
            from revision
            returning first""";

    private static final String CUT = """
            select last, at from revision where last >= :revision order by last limit 1""";

    private static final String NEWEST = """
            select last, at from revision order by last desc limit 1""";

    private final JdbcClient jdbc;
    private final Clock clock;

    Revisions(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /**
     * Waits until no other change is under way, and keeps others waiting until this transaction ends. What is read
     * after this call is what the change will be compared with.
     */
    public void lock() {
        jdbc.sql("select pg_advisory_xact_lock(:lock)")
                .param("lock", LOCK)
                .query((row, number) -> 0)
                .list();
    }

    /**
     * Takes the next {@code count} revisions, one for each version the change makes; call {@link #lock} first.
     *
     * @return the first of them
     */
    public long take(long count, Viewer viewer) {
        return jdbc.sql(TAKE)
                .param("count", count)
                .param("now", OffsetDateTime.ofInstant(clock.instant().truncatedTo(ChronoUnit.MILLIS), ZoneOffset.UTC))
                .param("keyId", viewer.keyId())
                .query(Long.class)
                .single();
    }

    /** The newest state. */
    @Transactional(readOnly = true)
    public DataCut newest() {
        return cut(NEWEST, 0).orElse(new DataCut(0, null));
    }

    /** The state as of a revision; empty where the registry has not come that far. */
    @Transactional(readOnly = true)
    public Optional<DataCut> asOf(long revision) {
        if (revision == 0) {
            return Optional.of(new DataCut(0, null));
        }
        return cut(CUT, revision).map(block -> new DataCut(revision, block.at()));
    }

    private Optional<DataCut> cut(String sql, long revision) {
        JdbcClient.StatementSpec statement = jdbc.sql(sql);
        return (revision == 0 ? statement : statement.param("revision", revision))
                .query((row, number) -> new DataCut(row.getLong(1), instant(row.getObject(2, OffsetDateTime.class))))
                .optional();
    }

    private static Instant instant(OffsetDateTime at) {
        return at.toInstant();
    }
}
