package entrapment.registry;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.boot.test.context.TestConfiguration;
import org.springframework.boot.testcontainers.service.connection.ServiceConnection;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Condition;
import org.springframework.context.annotation.ConditionContext;
import org.springframework.context.annotation.Conditional;
import org.springframework.core.type.AnnotatedTypeMetadata;
import org.testcontainers.DockerClientFactory;
import org.testcontainers.postgresql.PostgreSQLContainer;

/** A real PostgreSQL for tests, one a JVM: a container where a Docker engine answers, otherwise from the jar. */
@TestConfiguration(proxyBeanMethods = false)
public class TestDatabase {

    private static final boolean DOCKER = DockerClientFactory.instance().isDockerAvailable();

    private static final class Container {

        static final PostgreSQLContainer INSTANCE = new PostgreSQLContainer("postgres:18");
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

    @Bean
    @ServiceConnection
    @Conditional(WithDocker.class)
    PostgreSQLContainer container() {
        return Container.INSTANCE;
    }

    @Bean
    @Conditional(WithoutDocker.class)
    JdbcConnectionDetails embedded() {
        return new JdbcConnectionDetails() {
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
                return "jdbc:postgresql://127.0.0.1:" + Embedded.INSTANCE.getPort() + "/postgres";
            }
        };
    }

    static class WithDocker implements Condition {

        @Override
        public boolean matches(ConditionContext context, AnnotatedTypeMetadata metadata) {
            return DOCKER;
        }
    }

    static class WithoutDocker implements Condition {

        @Override
        public boolean matches(ConditionContext context, AnnotatedTypeMetadata metadata) {
            return !DOCKER;
        }
    }
}
