package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.classic.spi.ThrowableProxyUtil;
import ch.qos.logback.core.AppenderBase;
import entrapment.registry.FuzzRequest.Network;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.Random;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ConcurrentSkipListMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Thousands of requests that nobody should send, the same ones in every run; {@code -Dfuzz=100000} sends more of them.
 * How often each status came, and the memory in use before and after, is written to target/fuzz.txt.
 */
@RegistryTest
class FuzzTests {

    private static final int REQUESTS = Integer.getInteger("fuzz", 2_000);
    private static final long SEED = 20_260_701;
    private static final int SENDERS = 4;

    /** Nobody waits so long for an answer; the container itself gives up on a silent caller before that. */
    private static final int LONGEST_ANSWER_MS = 60_000;

    private static final int MOST_SHOWN = 20;

    @Autowired
    private TestNetwork network;

    @Autowired
    private JdbcClient jdbc;

    @Value("${local.server.port}")
    private int port;

    private final Map<Integer, AtomicInteger> statuses = new ConcurrentSkipListMap<>();
    private final Queue<String> findings = new ConcurrentLinkedQueue<>();

    @Test
    void neverFailsNeverRepeatsWhatWasSentAndNeverStoresIt() throws Exception {
        Network asked = network();
        Logger root = (Logger) LoggerFactory.getLogger(org.slf4j.Logger.ROOT_LOGGER_NAME);
        AppenderBase<ILoggingEvent> watch = watch();
        watch.start();
        root.addAppender(watch);
        String before = content();
        send(0, Math.min(REQUESTS, 500), asked);
        long usedBefore = usedHeap();
        try {
            send(Math.min(REQUESTS, 500), REQUESTS, asked);
        } finally {
            root.detachAppender(watch);
        }
        Files.writeString(
                Path.of("target", "fuzz.txt"),
                "%d requests; by status %s%nheap in use after collection: %,d bytes after 500 requests, %,d after all%n"
                        .formatted(REQUESTS, statuses, usedBefore, usedHeap()));

        assertThat(findings).isEmpty();
        assertThat(content()).isEqualTo(before);
        assertThat(statuses.keySet()).contains(200, 400, 401, 403, 404, 405, 406, 412, 415, 422);
    }

    private Network network() {
        TestCentre own = network.centre();
        TestCentre other = network.centre();
        for (TestCentre centre : List.of(own, other)) {
            centre.submitter()
                    .put(centre.cases() + "/stored-a1", CaseSamples.aCase().json());
            centre.submitter()
                    .put(
                            centre.activity("2026-Q2"),
                            "[{\"deviceClass\": \"rotational-burr\", \"deviceSizeMm\": 1.25, \"uses\": 24}]");
        }
        return new Network(
                List.of(
                        network.stewardKey(),
                        own.submitter().key(),
                        own.submitter().key(),
                        own.analyst().key(),
                        other.submitter().key(),
                        FuzzRequest.MARK,
                        ""),
                List.of(own.code(), own.code(), own.code(), other.code()),
                "stored-a1");
    }

    private void send(int from, int to, Network asked) throws InterruptedException {
        AtomicInteger next = new AtomicInteger(from);
        ExecutorService senders = Executors.newFixedThreadPool(SENDERS);
        for (int sender = 0; sender < SENDERS; sender++) {
            senders.execute(() -> {
                for (int number = next.getAndIncrement(); number < to; number = next.getAndIncrement()) {
                    send(number, FuzzRequest.of(new Random(SEED + number), asked));
                }
            });
        }
        senders.shutdown();
        assertThat(senders.awaitTermination(2, TimeUnit.HOURS)).isTrue();
    }

    private void send(int number, FuzzRequest request) {
        String answer;
        try (Socket socket = new Socket("localhost", port)) {
            socket.setSoTimeout(LONGEST_ANSWER_MS);
            write(socket, request);
            answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.ISO_8859_1);
        } catch (IOException noAnswer) {
            found(number, request, noAnswer.toString());
            return;
        }
        check(number, request, answer);
    }

    /** The service may have refused, and hung up, before all of a large body was sent. */
    private static void write(Socket socket, FuzzRequest request) throws IOException {
        try {
            socket.getOutputStream().write(request.bytes());
            socket.shutdownOutput();
        } catch (IOException hungUp) {
            LoggerFactory.getLogger(FuzzTests.class).debug("hung up", hungUp);
        }
    }

    private void check(int number, FuzzRequest request, String answer) {
        String last = answer.substring(Math.max(0, answer.lastIndexOf("HTTP/1.1 ")));
        if (!last.matches("(?s)HTTP/1.1 [1-5][0-9][0-9] .*")) {
            if (request.readable()) {
                found(number, request, "no answer: " + answer);
            }
            return;
        }
        int status = Integer.parseInt(last.substring(9, 12));
        statuses.computeIfAbsent(status, first -> new AtomicInteger()).incrementAndGet();
        boolean empty = last.endsWith("\r\n\r\n");
        boolean problem = empty || last.contains("Content-Type: application/problem+json");
        boolean safe = status < 400 || (problem && !answer.contains(FuzzRequest.MARK));
        if (status >= 500 || !safe) {
            found(number, request, answer);
        }
    }

    private void found(int number, FuzzRequest request, String answer) {
        if (findings.size() < MOST_SHOWN) {
            findings.add("request " + number + ": " + shortened(request.what()) + "\n---\n" + shortened(answer));
        }
    }

    private static String shortened(String text) {
        return text.length() > 1_500 ? text.substring(0, 1_500) + "…" : text;
    }

    /** Everything that was ever accepted. */
    private String content() {
        StringBuilder content = new StringBuilder();
        for (String table : List.of(
                "centre", "access_key", "revision", "case_version", "attempt", "activity_return", "use_count")) {
            content.append(table)
                    .append(' ')
                    .append(jdbc.sql(
                                    "select count(*) || ' ' || coalesce(md5(string_agg(t::text, ',' order by t::text)), '') from "
                                            + table + " t")
                            .query(String.class)
                            .single())
                    .append('\n');
        }
        return content.toString();
    }

    /** Notes each line of the log that holds what was sent, a trace included. */
    private AppenderBase<ILoggingEvent> watch() {
        return new AppenderBase<>() {
            @Override
            protected void append(ILoggingEvent event) {
                String line = event.getFormattedMessage()
                        + event.getMDCPropertyMap()
                        + (event.getThrowableProxy() == null
                                ? ""
                                : ThrowableProxyUtil.asString(event.getThrowableProxy()));
                if (line.contains(FuzzRequest.MARK) && findings.size() < MOST_SHOWN) {
                    findings.add("in the log: " + shortened(line));
                }
            }
        };
    }

    private static long usedHeap() throws InterruptedException {
        for (int times = 0; times < 3; times++) {
            System.gc();
            Thread.sleep(100);
        }
        return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed();
    }
}
