package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * A committed file that holds what the service is to answer. {@code -DupdateExpected=true} rewrites it; the difference
 * is then read like any other change before it is committed.
 */
public final class ApprovedFile {

    private ApprovedFile() {}

    /** Fails unless the file holds exactly this text, line ends included. */
    public static void assertHolds(Path file, String text) {
        try {
            if (Boolean.getBoolean("updateExpected")) {
                Files.createDirectories(file.toAbsolutePath().getParent());
                Files.writeString(file, text);
            }
            assertThat(Files.exists(file)).as("%s exists", file).isTrue();
            assertThat(text).as("what %s holds", file).isEqualTo(Files.readString(file, StandardCharsets.UTF_8));
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        }
    }
}
