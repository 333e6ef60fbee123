package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The service as a network runs it: its log as JSON, read by a machine. */
class StayingUpTests {

    private static final String MARK = "Zanzibar-Canary";

    @TempDir
    private static Path home;

    private static ServiceProcess service;

    @BeforeAll
    static void start() {
        service = ServiceProcess.start(home, "--logging.structured.format.console=ecs");
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    @Test
    void logsARefusedRequestAsJsonWithItsNumberAndNothingOfIt() throws IOException {
        Answer refused = service.steward()
                .put("/api/centres/" + MARK + "?" + MARK + "=1", "{\"" + MARK + "\"", RequestId.HEADER, MARK);

        assertThat(refused.status()).isEqualTo(422);
        JsonNode line = lineOf(refused);
        assertThat(line.at("/log/level").asString()).isEqualTo("INFO");
        assertThat(line.required("message").asString()).isEqualTo("refused: refused with 1 field errors");
        assertThat(service.output()).doesNotContain(MARK);
    }

    /** The one line of the log that carries the number of this answer. */
    private static JsonNode lineOf(Answer answer) throws IOException {
        String id = answer.header(RequestId.HEADER);
        service.awaitOutput(id);
        return service.output()
                .lines()
                .filter(line -> line.startsWith("{"))
                .map(JsonMapper.shared()::readTree)
                .filter(line -> line.path("requestId").asString("").equals(id))
                .findFirst()
                .orElseThrow();
    }
}
