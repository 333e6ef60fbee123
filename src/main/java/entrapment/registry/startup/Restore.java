package entrapment.registry.startup;

import entrapment.registry.archive.Archive;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import org.flywaydb.core.Flyway;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** Setting {@code registry.restore}: loads an archive into an empty registry before anything else is made in it. */
@Component
@ConditionalOnProperty("registry.restore")
@Order(0)
class Restore implements ApplicationRunner {

    private final Archive archive;
    private final Flyway schema;
    private final StoredResolution resolution;
    private final Path file;

    Restore(Archive archive, Flyway schema, StoredResolution resolution, @Value("${registry.restore}") Path file) {
        this.archive = archive;
        this.schema = schema;
        this.resolution = resolution;
        this.file = file;
    }

    @Override
    public void run(ApplicationArguments arguments) throws IOException, SQLException {
        archive.restore(file, schema.getConfiguration().getDataSource());
        archive.tellRestored();
        resolution.require();
        StartupConsole.print("", "The archive was loaded whole. Its keys are good as before.", "");
    }
}
