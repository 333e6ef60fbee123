package entrapment.registry.access;

import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Problem;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
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

    private static final String AS_OF = """
            select last, at from revision where last >= :revision order by last limit 1""";

    private static final String NEWEST = """
            select last, at from revision order by last desc limit 1""";

    private static final DataCut EMPTY = new DataCut(0, null);

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

    /**
     * The state of the registry as of a revision, or the newest where none is asked for; a revision that the registry
     * has not come to is refused.
     */
    @Transactional(readOnly = true)
    public DataCut cut(@Nullable Long asOf) {
        if (asOf == null) {
            return block(jdbc.sql(NEWEST)).orElse(EMPTY);
        }
        if (asOf == 0) {
            return EMPTY;
        }
        return block(jdbc.sql(AS_OF).param("revision", asOf))
                .map(block -> new DataCut(asOf, block.at()))
                .orElseThrow(() -> Problem.refused(List.of(
                        new FieldError("/asOf", "revision-in-future", "asOf must not be after the newest revision"))));
    }

    private static Optional<DataCut> block(JdbcClient.StatementSpec statement) {
        return statement
                .query((row, number) -> new DataCut(
                        row.getLong("last"),
                        row.getObject("at", OffsetDateTime.class).toInstant()))
                .optional();
    }
}
