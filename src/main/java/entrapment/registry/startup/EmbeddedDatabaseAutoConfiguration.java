package entrapment.registry.startup;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.autoconfigure.AutoConfiguration;
import org.springframework.boot.autoconfigure.condition.ConditionMessage;
import org.springframework.boot.autoconfigure.condition.ConditionOutcome;
import org.springframework.boot.autoconfigure.condition.ConditionalOnMissingBean;
import org.springframework.boot.autoconfigure.condition.SpringBootCondition;
import org.springframework.boot.flyway.autoconfigure.FlywayConnectionDetails;
import org.springframework.boot.jdbc.autoconfigure.DataSourceAutoConfiguration;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.ConditionContext;
import org.springframework.context.annotation.Conditional;
import org.springframework.core.type.AnnotatedTypeMetadata;
import org.springframework.util.StringUtils;

/**
 * PostgreSQL from the jar, for a registry that was given no {@code spring.datasource.url}: durable, on the loopback
 * address only, its data under {@code registry.home}. The library is made for throw-away tests, so everything that
 * keeps data safe is switched on by hand here.
 */
@AutoConfiguration(
        before = DataSourceAutoConfiguration.class,
        afterName = "org.springframework.boot.testcontainers.service.connection.ServiceConnectionAutoConfiguration")
@Conditional(EmbeddedDatabaseAutoConfiguration.NoUrlGiven.class)
@ConditionalOnMissingBean(JdbcConnectionDetails.class)
class EmbeddedDatabaseAutoConfiguration {

    private static final Duration LONGEST_START = Duration.ofSeconds(90);
    private static final long LONGEST_STOP_SECONDS = 60;

    /** Closed by the context after everything that uses it, not by a hook of its own that would run too early. */
    @Bean(destroyMethod = "close")
    EmbeddedPostgres embeddedPostgres(@Value("${registry.home}") Path home) throws IOException {
        Path data = Files.createDirectories(home.toAbsolutePath().normalize()).resolve("postgresql");
        EmbeddedPostgres server = EmbeddedPostgres.builder()
                .setDataDirectory(data)
                .setCleanDataDirectory(false)
                // Beside the data: someone may clean the temporary directory while the server runs.
                .setOverrideWorkingDirectory(closed(data.resolveSibling("postgresql-binaries"))
                        .resolve("unpacked")
                        .toFile())
                .setRegisterShutdownHook(false)
                .setPGStartupWait(LONGEST_START)
                // Built into PostgreSQL, so that the order of text is the same on every machine.
                .setLocaleConfig("locale", "C")
                .setLocaleConfig("locale-provider", "builtin")
                .setLocaleConfig("builtin-locale", "C.UTF-8")
                .setServerConfig("fsync", "on")
                .setServerConfig("synchronous_commit", "on")
                .setServerConfig("listen_addresses", "127.0.0.1")
                .setServerConfig("max_connections", "50")
                // The server's own log must not repeat a value that it refused.
                .setServerConfig("log_error_verbosity", "terse")
                .setServerConfig("log_min_error_statement", "panic")
                .setOutputRedirector(ProcessBuilder.Redirect.appendTo(
                        data.resolveSibling("postgresql.log").toFile()))
                .setDataDirectoryCustomizer(EmbeddedDatabaseAutoConfiguration::stopOrphan)
                .start();
        requireOurs(server, data);
        return server;
    }

    /**
     * A folder for its owner alone. The library lets everybody write where it unpacks what will then be run. Started by
     * root the server gives up root's rights but still owns root's files, so it comes in here as well.
     */
    private static Path closed(Path folder) throws IOException {
        Files.createDirectories(folder);
        if (Files.getFileStore(folder).supportsFileAttributeView("posix")) {
            Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwx------"));
        }
        return folder;
    }

    /** What the service runs as: a role that owns nothing, made by the migration V005. */
    @Bean
    JdbcConnectionDetails embeddedConnection(EmbeddedPostgres server) {
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
                return url(server);
            }
        };
    }

    /** Who owns the schema, and changes it at the start. */
    @Bean
    FlywayConnectionDetails embeddedOwner(EmbeddedPostgres server) {
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
                return url(server);
            }
        };
    }

    private static String url(EmbeddedPostgres server) {
        return "jdbc:postgresql://127.0.0.1:" + server.getPort()
                + "/postgres?reWriteBatchedInserts=true&logServerErrorDetail=false";
    }

    /** After the service was killed its server lives on and would keep the data directory; it is stopped first. */
    private static void stopOrphan(File data) {
        Path pidFile = data.toPath().resolve("postmaster.pid");
        if (!Files.exists(pidFile)) {
            return;
        }
        try {
            long pid = Long.parseLong(Files.readAllLines(pidFile).get(0).trim());
            Optional<ProcessHandle> orphan = ProcessHandle.of(pid).filter(process -> process.info()
                    .command()
                    .map(command -> Path.of(command).getFileName().toString())
                    .filter(name -> name.startsWith("postgres"))
                    .isPresent());
            if (orphan.isPresent()) {
                orphan.get().destroy();
                orphan.get().onExit().get(LONGEST_STOP_SECONDS, TimeUnit.SECONDS);
            }
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("interrupted while an earlier PostgreSQL was stopping", interrupted);
        } catch (ExecutionException | TimeoutException | NumberFormatException stuck) {
            throw new IllegalStateException("an earlier PostgreSQL still holds " + data + "; stop it first", stuck);
        }
    }

    /** If our server could not bind its port, the library would report success on somebody else's. */
    private static void requireOurs(EmbeddedPostgres server, Path data) {
        try (Connection connection = server.getPostgresDatabase().getConnection();
                Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("show data_directory")) {
            row.next();
            if (!Files.isSameFile(Path.of(row.getString(1)), data)) {
                throw new IllegalStateException("another PostgreSQL answers on the port of the embedded one");
            }
        } catch (SQLException | IOException failure) {
            throw new IllegalStateException("the embedded PostgreSQL does not answer", failure);
        }
    }

    /** An empty url, as compose files make it, counts as none. */
    static class NoUrlGiven extends SpringBootCondition {

        @Override
        public ConditionOutcome getMatchOutcome(ConditionContext context, AnnotatedTypeMetadata metadata) {
            boolean given = StringUtils.hasText(context.getEnvironment().getProperty("spring.datasource.url"));
            return new ConditionOutcome(!given, ConditionMessage.of("spring.datasource.url given: " + given));
        }
    }
}
