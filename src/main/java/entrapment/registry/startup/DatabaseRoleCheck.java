package entrapment.registry.startup;

import org.springframework.boot.sql.init.dependency.DependsOnDatabaseInitialization;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/**
 * Refuses to serve as a database role for which row security does not hold: a superuser, or the owner of the tables. The
 * mistake is easily made with a PostgreSQL of one's own, and nothing would show it.
 */
@Component
@DependsOnDatabaseInitialization
class DatabaseRoleCheck {

    private static final String ABOVE_ROW_SECURITY = """
            select rolsuper or rolbypassrls or pg_has_role(current_user, 'pg_write_all_data', 'member')
                or exists (select from pg_class
                    where relname = 'case_version' and pg_has_role(current_user, relowner, 'member'))
            from pg_roles
            where rolname = current_user""";

    DatabaseRoleCheck(JdbcClient jdbc) {
        if (jdbc.sql(ABOVE_ROW_SECURITY).query(Boolean.class).single()) {
            throw new IllegalStateException("""
                    The service is connected as a role that row-level security does not hold for. Set \
                    spring.datasource.username=registry_app, and spring.flyway.user to the role that owns the schema \
                    (src/docs/operations.md).""");
        }
    }
}
