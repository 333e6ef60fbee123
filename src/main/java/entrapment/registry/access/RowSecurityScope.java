package entrapment.registry.access;

import java.util.Collection;
import java.util.List;
import java.util.function.Supplier;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.interceptor.TransactionAspectSupport;

/**
 * Says to the database whose rows a piece of work is about; row security (V005) shows it no others, and none at all
 * before something is said. After the work the view is as it was before. Nobody's rights are asked here: that is done by
 * {@link Centres#within}.
 */
@Component
@Transactional(propagation = Propagation.MANDATORY)
public class RowSecurityScope {

    private static final String NETWORK = "*";

    /** What was said before is read first, since the row with it must be there before anything is computed from it. */
    private static final String SAY = """
            with earlier as materialized (select coalesce(current_setting('registry.centres', true), '') as centres)
            select centres, set_config('registry.centres', :centres, true) from earlier""";

    private final JdbcClient jdbc;

    RowSecurityScope(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Does a piece of work with the rows of some centres, whose codes hold no comma. */
    <T> T within(Collection<String> centres, Supplier<T> work) {
        return with(String.join(",", centres), work);
    }

    /** Does a piece of work with the rows of every centre. */
    public <T> T forTheNetwork(Supplier<T> work) {
        return with(NETWORK, work);
    }

    /** Leaves the rest of this transaction with the rows of some centres, or of every one where none is named. */
    void fromNowOn(List<String> centres) {
        say(centres.isEmpty() ? NETWORK : String.join(",", centres));
    }

    private <T> T with(String centres, Supplier<T> work) {
        String earlier = say(centres);
        T result;
        try {
            result = work.get();
            // What was changed is written while its rows are in view.
            TransactionAspectSupport.currentTransactionStatus().flush();
        } catch (RuntimeException failure) {
            try {
                say(earlier);
            } catch (DataAccessException over) {
                // A failed statement has ended the transaction, and the view with it.
                failure.addSuppressed(over);
            }
            throw failure;
        }
        say(earlier);
        return result;
    }

    /** Answers what was said before. */
    private String say(String centres) {
        return jdbc.sql(SAY)
                .param("centres", centres)
                .query((row, number) -> row.getString("centres"))
                .single();
    }
}
