package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.cases.CaseSamples;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * {@code kill -9} at random moments while three writers write: of the service, or of its PostgreSQL. {@code -Dcrashes=30}
 * for thirty of the service and ten of PostgreSQL.
 */
class CrashTests {

    private static final String CASES = "/api/centres/hill-lab/cases";
    private static final int BATCH = 200;
    private static final long SEED = 20_261_125;

    private final int crashes = Integer.getInteger("crashes", 1);
    private final Random random = new Random(SEED);
    private final AtomicInteger next = new AtomicInteger();

    /** One for each single case acknowledged since the last crash. */
    private final Semaphore written = new Semaphore(0);

    /** What was acknowledged: the version by the path of its case, and the batches by their prefix. */
    private final Map<String, Integer> versions = new ConcurrentHashMap<>();

    private final Map<String, Boolean> batches = new ConcurrentHashMap<>();

    /** Reports as of an earlier revision, as they were first answered. */
    private final Map<String, String> earlier = new LinkedHashMap<>();

    @TempDir
    private Path home;

    @Test
    void whatWasAcknowledgedIsThereAndNothingIsHalfAfterEveryCrash() throws Exception {
        int ofPostgres = (crashes + 2) / 3;
        for (int crash = 0; crash < crashes + ofPostgres; crash++) {
            ServiceProcess service = ServiceProcess.startUnpacked(home);
            try {
                RegistryClient steward = service.steward();
                steward.put("/api/centres/hill-lab", "{\"name\": \"Hill laboratory\"}");
                requireWhole(steward);
                remember(steward);
                crashWhileWriting(service, steward, crash < crashes);
            } finally {
                service.kill();
            }
        }
        try (ServiceProcess service = ServiceProcess.start(home)) {
            requireWhole(service.steward());
        }

        assertThat(versions).hasSizeGreaterThan(crashes);
        assertThat(earlier).hasSizeGreaterThanOrEqualTo(crashes);
    }

    private void crashWhileWriting(ServiceProcess service, RegistryClient steward, boolean ofTheService)
            throws Exception {
        AtomicBoolean writing = new AtomicBoolean(true);
        written.drainPermits();
        ExecutorService threads = Executors.newFixedThreadPool(3);
        List<Future<?>> writers = new ArrayList<>();
        writers.add(threads.submit(() -> whileIn(writing, () -> writeCase(steward))));
        writers.add(threads.submit(() -> whileIn(writing, () -> changeCase(steward))));
        writers.add(threads.submit(() -> whileIn(writing, () -> writeBatch(steward))));
        // Not after some time, in which a busy machine may acknowledge nothing at all.
        assertThat(written.tryAcquire(1 + random.nextInt(100), 10, TimeUnit.MINUTES))
                .isTrue();
        if (ofTheService) {
            service.kill();
        } else {
            killPostgres();
        }
        TimeUnit.MILLISECONDS.sleep(200);
        writing.set(false);
        for (Future<?> writer : writers) {
            writer.get(2, TimeUnit.MINUTES);
        }
        threads.shutdown();
    }

    private void killPostgres() throws IOException {
        Path file = home.resolve("postgresql/postmaster.pid");
        long pid = Long.parseLong(Files.readAllLines(file).get(0).trim());
        ProcessHandle.of(pid).orElseThrow().destroyForcibly();
    }

    private static void whileIn(AtomicBoolean writing, Runnable write) {
        while (writing.get()) {
            try {
                write.run();
            } catch (UncheckedIOException brokenOff) {
                return;
            }
        }
    }

    private void writeCase(RegistryClient steward) {
        String path = CASES + "/alone-" + Integer.toString(next.incrementAndGet(), 36) + "-x";
        if (steward.put(path, CaseSamples.aCase().json()).status() == 201) {
            versions.put(path, 1);
            written.release();
        }
    }

    private void changeCase(RegistryClient steward) {
        String path = CASES + "/changing-case";
        int version = versions.getOrDefault(path, 0);
        String size = Double.toString(1 + version % 5 * 0.25);
        Answer now = steward.get(path);
        Answer answer = steward.put(
                path,
                CaseSamples.aCase()
                        .with("/device/deviceSizeMm", Double.parseDouble(size))
                        .json(),
                now.status() == 200 ? new String[] {"If-Match", now.header("ETag")} : new String[0]);
        if (answer.status() == 200 || answer.status() == 201) {
            versions.put(path, answer.json().required("version").intValue());
        }
    }

    private void writeBatch(RegistryClient steward) {
        String prefix = "b" + Integer.toString(next.incrementAndGet(), 36);
        String line = CaseSamples.aCase().line("KEY");
        StringBuilder batch = new StringBuilder();
        for (int number = 0; number < BATCH; number++) {
            batch.append(line.replace("\"KEY\"", "\"" + prefix + "-in-batch-" + Integer.toString(number, 36) + "\""));
        }
        batches.put(prefix, false);
        if (steward.post(CASES, "application/x-ndjson", batch.toString()).status() == 200) {
            batches.put(prefix, true);
        }
    }

    private void remember(RegistryClient steward) {
        String newest = steward.get("/api/reports/incidence")
                .json()
                .at("/dataCut/revision")
                .asString();
        for (String report : List.of("retrieval", "harm?format=csv&comments=true")) {
            String question = "/api/reports/" + report + (report.contains("?") ? "&" : "?") + "asOf=" + newest;
            earlier.put(question, steward.get(question).body());
        }
    }

    private void requireWhole(RegistryClient steward) {
        versions.forEach((path, version) -> assertThat(
                        steward.get(path).json().required("version").intValue())
                .as(path)
                .isGreaterThanOrEqualTo(version));
        batches.forEach((prefix, acknowledged) -> {
            int there = steward.get(CASES + "/" + prefix + "-in-batch-0").status() == 200 ? BATCH : 0;
            assertThat(acknowledged && there == 0).as("lost " + prefix).isFalse();
            assertThat(steward.get(CASES + "/" + prefix + "-in-batch-" + Integer.toString(BATCH - 1, 36))
                                    .status()
                            == 200)
                    .as("half of " + prefix)
                    .isEqualTo(there == BATCH);
        });
        earlier.forEach((question, answer) ->
                assertThat(steward.get(question).body()).as(question).isEqualTo(answer));
        assertThat(steward.get("/api/audit/verification")
                        .json()
                        .required("intact")
                        .booleanValue())
                .isTrue();
    }
}
