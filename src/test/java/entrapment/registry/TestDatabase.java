package entrapment.registry;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import javax.sql.DataSource;
import org.springframework.boot.flyway.autoconfigure.FlywayConnectionDetails;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.boot.test.context.TestConfiguration;
import org.springframework.context.annotation.Bean;
import org.springframework.jdbc.datasource.DriverManagerDataSource;
import org.testcontainers.DockerClientFactory;
import org.testcontainers.postgresql.PostgreSQLContainer;

/** A real PostgreSQL for tests, one a JVM: a container where a Docker engine answers, otherwise from the jar. */
@TestConfiguration(proxyBeanMethods = false)
public class TestDatabase {

    private static final boolean DOCKER = DockerClientFactory.instance().isDockerAvailable();

    private static final class Container {

        static final PostgreSQLContainer INSTANCE = start();

        private static PostgreSQLContainer start() {
            PostgreSQLContainer container = new PostgreSQLContainer("postgres:18")
                    .withDatabaseName("postgres")
                    .withUsername("postgres")
                    .withEnv("POSTGRES_HOST_AUTH_METHOD", "trust");
            container.start();
            return container;
        }
    }

    private static final class Embedded {

        static final EmbeddedPostgres INSTANCE = start();

        private static EmbeddedPostgres start() {
            File target = new File("target").getAbsoluteFile();
            try {
                return EmbeddedPostgres.builder()
                        .setOverrideWorkingDirectory(new File(target, "postgresql-binaries"))
                        .setLocaleConfig("locale", "C")
                        .setLocaleConfig("locale-provider", "builtin")
                        .setLocaleConfig("builtin-locale", "C.UTF-8")
                        .setOutputRedirector(ProcessBuilder.Redirect.appendTo(new File(target, "postgresql.log")))
                        .start();
            } catch (IOException failure) {
                throw new UncheckedIOException(failure);
            }
        }
    }

    /** The port on which the one server of this JVM listens; it trusts whoever comes from this machine. */
    private static int port() {
        return DOCKER ? Container.INSTANCE.getMappedPort(5432) : Embedded.INSTANCE.getPort();
    }

    private static String url() {
        return url("postgres");
    }

    private static String url(String database) {
        return "jdbc:postgresql://127.0.0.1:" + port() + "/" + database;
    }

    @Bean
    JdbcConnectionDetails service() {
        return new JdbcConnectionDetails() {
            @Override
            public String getUsername() {
                return "registry_app";
            }

            @Override
            public String getPassword() {
                return "";
            }

            @Override
            public String getJdbcUrl() {
                return url();
            }
        };
    }

    @Bean
    FlywayConnectionDetails owner() {
        return new FlywayConnectionDetails() {
            @Override
            public String getUsername() {
                return "postgres";
            }

            @Override
            public String getPassword() {
                return "";
            }

            @Override
            public String getJdbcUrl() {
                return url();
            }
        };
    }

    /** A database as its owner sees it, past row security; for looking at what the service has stored. */
    static DataSource asOwner(String database) {
        return new DriverManagerDataSource(url(database), "postgres", "");
    }
}
