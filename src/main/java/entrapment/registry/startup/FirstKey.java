package entrapment.registry.startup;

import entrapment.registry.access.AccessKeys;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermission;
import java.util.EnumSet;
import java.util.Optional;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** Makes the steward key of an empty registry, shows it once, and keeps it in a file for its owner alone. */
@Component
@Order(1)
class FirstKey implements ApplicationRunner {

    private final AccessKeys keys;
    private final Path home;

    FirstKey(AccessKeys keys, @Value("${registry.home}") Path home) {
        this.keys = keys;
        this.home = home;
    }

    @Override
    public void run(ApplicationArguments arguments) throws IOException {
        Optional<AccessKeys.Issued> first = keys.makeFirst();
        if (first.isPresent()) {
            Path file =
                    Files.createDirectories(home.toAbsolutePath().normalize()).resolve("steward.key");
            write(file, first.get().key());
            StartupConsole.print(
                    "",
                    "This registry is new. Its steward key, shown this once:",
                    "  " + first.get().key(),
                    "It is also in " + file + ", readable by its owner alone.",
                    "");
        }
    }

    /** The permissions are there before the key is. */
    private static void write(Path file, String key) throws IOException {
        Files.deleteIfExists(file);
        Files.createFile(file);
        if (Files.getFileStore(file).supportsFileAttributeView("posix")) {
            Files.setPosixFilePermissions(
                    file, EnumSet.of(PosixFilePermission.OWNER_READ, PosixFilePermission.OWNER_WRITE));
        }
        Files.writeString(file, key + System.lineSeparator(), StandardOpenOption.WRITE);
    }
}
