package entrapment.registry.startup;

import entrapment.registry.access.RowSecurityScope;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Period.Resolution;
import org.springframework.boot.sql.init.dependency.DependsOnDatabaseInitialization;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Refuses to serve data of another period resolution than the network's: quarters and years side by side could be neither
 * sorted nor counted together, and a year's data must not look like those of a network that may keep quarters.
 */
@Component
@DependsOnDatabaseInitialization
class StoredResolution {

    private static final String OTHER = """
            select exists (select from case_version where (period like '%-Q%') <> :quarters)
                or exists (select from activity_return where (period like '%-Q%') <> :quarters)""";

    private final JdbcClient jdbc;
    private final TransactionTemplate transaction;
    private final RowSecurityScope scope;
    private final Resolution wanted;

    StoredResolution(JdbcClient jdbc, TransactionTemplate transaction, RowSecurityScope scope, Settings settings) {
        this.jdbc = jdbc;
        this.transaction = transaction;
        this.scope = scope;
        this.wanted = settings.periodResolution();
        require();
    }

    /** Throws where the registry holds a period of the other resolution. */
    final void require() {
        boolean other = Boolean.TRUE.equals(transaction.execute(status -> scope.forTheNetwork(() -> jdbc.sql(OTHER)
                .param("quarters", wanted == Resolution.QUARTER)
                .query(Boolean.class)
                .single())));
        if (other) {
            Resolution stored = wanted == Resolution.QUARTER ? Resolution.YEAR : Resolution.QUARTER;
            throw new IllegalStateException("""
                    This registry holds %ss, but registry.period-resolution=%s is set. A registry keeps one resolution: \
                    start it with registry.period-resolution=%s, or begin an empty registry with the other \
                    (src/docs/privacy.md).""".formatted(stored.code(), wanted.code(), stored.code()));
        }
    }
}
