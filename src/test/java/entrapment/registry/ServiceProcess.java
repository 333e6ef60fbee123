package entrapment.registry;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** The service as its user starts it: a Java process of its own on an embedded PostgreSQL, which can be killed. */
final class ServiceProcess implements AutoCloseable {

    /** A machine that does much else takes minutes over it; a service that cannot start ends, and nobody waits. */
    private static final Duration LONGEST_START = Duration.ofMinutes(10);

    private final Path home;
    private final int port;
    private final Path output;
    private final Process process;

    private ServiceProcess(Path home, int port, Path output, Process process) {
        this.home = home;
        this.port = port;
        this.output = output;
        this.process = process;
    }

    /** Starts the service and waits until it says that it is up. */
    static ServiceProcess start(Path home, String... arguments) {
        try {
            int port = freePort();
            Path output = Files.createTempFile(Path.of("target"), "service", ".log");
            List<String> command = new ArrayList<>(List.of(
                    Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                    "-Xmx256m",
                    // A service of a test does not live long enough for more to pay: half the time of its start.
                    "-XX:TieredStopAtLevel=1",
                    "-XX:+UseSerialGC",
                    "-cp",
                    System.getProperty("java.class.path"),
                    RegistryApplication.class.getName(),
                    "--registry.home=" + home,
                    "--server.port=" + port));
            command.addAll(List.of(arguments));
            Process process = new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectOutput(output.toFile())
                    .start();
            ServiceProcess service = new ServiceProcess(home, port, output, process);
            service.awaitUp();
            return service;
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        }
    }

    /** The same with PostgreSQL unpacked beforehand, which would take about a quarter of a first start. */
    static ServiceProcess startUnpacked(Path home, String... arguments) {
        try {
            Path unpacked = Files.createDirectories(Path.of("target", "postgresql-binaries"));
            Path binaries = Files.createDirectories(home.resolve("postgresql-binaries"));
            if (Files.notExists(binaries.resolve("unpacked"))) {
                Files.createSymbolicLink(binaries.resolve("unpacked"), unpacked.toAbsolutePath());
            }
        } catch (IOException | UnsupportedOperationException noLinks) {
            // It unpacks for itself, as for its user.
        }
        return start(home, arguments);
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        }
    }

    private void awaitUp() throws IOException {
        Instant latest = Instant.now().plus(LONGEST_START);
        while (Instant.now().isBefore(latest) && process.isAlive()) {
            if (isUp()) {
                return;
            }
            pause();
        }
        process.destroyForcibly();
        throw new IllegalStateException("the service did not come up:\n" + Files.readString(output));
    }

    private boolean isUp() {
        try {
            return client().get("/actuator/health/readiness").body().contains("UP");
        } catch (UncheckedIOException notYet) {
            return false;
        }
    }

    private void pause() {
        try {
            process.waitFor(100, TimeUnit.MILLISECONDS);
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(interrupted);
        }
    }

    /** Waits until the service has printed this. */
    void awaitOutput(String text) throws IOException {
        while (process.isAlive() && !output().contains(text)) {
            pause();
        }
    }

    RegistryClient steward() throws IOException {
        return client().with(Files.readString(home.resolve("steward.key")).trim());
    }

    /** Without a key. */
    RegistryClient client() {
        return new RegistryClient(port, null);
    }

    String output() throws IOException {
        return Files.readString(output);
    }

    /** As {@code kill -9}: no hook runs, the embedded PostgreSQL lives on as an orphan. */
    void kill() throws InterruptedException {
        process.destroyForcibly().waitFor();
    }

    @Override
    public void close() {
        process.destroy();
        try {
            if (!process.waitFor(60, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
        }
    }
}
