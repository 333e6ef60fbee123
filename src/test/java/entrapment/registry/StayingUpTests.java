package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.cases.CaseSamples;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The service as a network runs it: its log read by a machine, its database slow and then gone. */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class StayingUpTests {

    private static final String MARK = "Zanzibar-Canary";

    @TempDir
    private static Path home;

    private static ServiceProcess service;

    @BeforeAll
    static void start() {
        service = ServiceProcess.startUnpacked(
                home,
                "--logging.structured.format.console=ecs",
                "--registry.database.statement-timeout=1s",
                "--spring.datasource.hikari.connection-timeout=1000");
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    @Test
    @Order(1)
    void logsARefusedRequestAsJsonWithItsNumberAndNothingOfIt() throws IOException {
        Answer refused = service.steward()
                .put("/api/centres/" + MARK + "?" + MARK + "=1", "{\"" + MARK + "\"", "X-Request-Id", MARK);

        assertThat(refused.status()).isEqualTo(422);
        JsonNode line = lineOf(refused);
        assertThat(line.at("/log/level").asString()).isEqualTo("INFO");
        assertThat(line.required("message").asString()).isEqualTo("refused: refused with 1 field errors");
        assertThat(service.output()).doesNotContain(MARK);
    }

    @Test
    @Order(2)
    void asksToTryAgainWhenAStatementTakesTooLong() throws Exception {
        String path = "/api/centres/slow-lab/cases/slow-a1";
        service.steward().put("/api/centres/slow-lab", "{\"name\": \"Slow laboratory\"}");
        try (Connection other = DriverManager.getConnection(
                        "jdbc:postgresql://127.0.0.1:" + postmaster().get(3) + "/postgres", "postgres", "");
                Statement lock = other.createStatement()) {
            lock.execute("begin; lock table case_version");

            Answer refused = service.steward().put(path, CaseSamples.aCase().json());

            assertThat(refused.status()).isEqualTo(503);
            assertThat(refused.json().required("type").asString()).isEqualTo("/problems/unavailable");
            assertThat(refused.header("Retry-After")).isEqualTo("10");
            assertThat(lineOf(refused).required("message").asString()).isEqualTo("failed: unavailable");
        }
        assertThat(service.steward().put(path, CaseSamples.aCase().json()).status())
                .isEqualTo(201);
    }

    @Test
    @Order(3)
    void asksToTryAgainWhenTheDatabaseIsGone() throws Exception {
        RegistryClient steward = service.steward();
        ProcessHandle database =
                ProcessHandle.of(Long.parseLong(postmaster().get(0))).orElseThrow();
        database.destroyForcibly();
        database.onExit().get();

        Answer refused = steward.get("/api/centres");

        assertThat(refused.status()).isEqualTo(503);
        assertThat(refused.header("Retry-After")).isEqualTo("10");
        assertThat(lineOf(refused).at("/log/level").asString()).isEqualTo("ERROR");
        RegistryClient probe = steward.with(null);
        assertThat(probe.get("/actuator/health/readiness").status()).isEqualTo(503);
        assertThat(probe.get("/actuator/health/liveness").status())
                .as("a new process would not bring the database back")
                .isEqualTo(200);
    }

    /** What the embedded server says of itself: the process first, the port in the fourth line. */
    private static List<String> postmaster() throws IOException {
        return Files.readAllLines(home.resolve("postgresql/postmaster.pid"));
    }

    /** The line of the log in which the service says of this answer what it was. */
    private static JsonNode lineOf(Answer answer) throws IOException {
        String id = answer.header("X-Request-Id");
        service.awaitOutput(id);
        return service.output()
                .lines()
                .filter(line -> line.startsWith("{"))
                .map(JsonMapper.shared()::readTree)
                .filter(line -> line.path("requestId").asString("").equals(id)
                        && line.at("/log/logger").asString("").equals("entrapment.registry.http.ApiProblems"))
                .findFirst()
                .orElseThrow();
    }
}
