package entrapment.registry.access;

import java.util.Collection;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Says to the database whose rows this transaction is about; row security (V005) shows it no others, and none at all
 * before something is said. The last call holds.
 */
@Component
@Transactional(propagation = Propagation.MANDATORY)
class RowSecurityScope {

    private static final String NETWORK = "*";

    private final JdbcClient jdbc;

    RowSecurityScope(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** The rows of some centres, whose codes hold no comma. */
    void of(Collection<String> centres) {
        set(String.join(",", centres));
    }

    /** The rows of every centre. */
    void ofTheNetwork() {
        set(NETWORK);
    }

    private void set(String centres) {
        jdbc.sql("select set_config('registry.centres', :centres, true)")
                .param("centres", centres)
                .query(String.class)
                .single();
    }
}
