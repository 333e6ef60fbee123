package entrapment.registry.http;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.dao.CannotAcquireLockException;
import org.springframework.dao.DataAccessResourceFailureException;
import org.springframework.dao.QueryTimeoutException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.transaction.CannotCreateTransactionException;
import org.springframework.transaction.TransactionTimedOutException;
import org.springframework.web.context.request.ServletWebRequest;

/** What is too large or takes too long is refused as such, and nothing waits for ever. */
@RegistryTest
class LimitTests {

    private static final int KB = 1_024;

    @Autowired
    private TestNetwork network;

    @Autowired
    private JdbcClient jdbc;

    @Value("${local.server.port}")
    private int port;

    @ParameterizedTest
    @CsvSource({
        "PUT, /api/centres/{centre}/cases/large-a1, application/json, 64",
        "DELETE, /api/centres/{centre}/cases/large-a1, application/json, 64",
        "PUT, /api/centres/{centre}/activity/2026-Q1, application/json, 8192",
        "PUT, /api/centres/{centre}/activity/2026-Q1, text/csv, 8192",
        "PUT, /api/centres/{centre}, application/json, 4",
        "POST, /api/centres/{centre}/keys, application/json, 4",
        "POST, /api/keys, application/json, 4",
        "POST, /api/calculations/proportion, application/json, 4096",
        "POST, /api/calculations/cusum, application/json, 16384"
    })
    void readsNoMoreOfABodyThanItsPathAllows(String method, String path, String type, int mostKb) {
        TestCentre centre = network.centre();
        String blank = (type.equals("text/csv") ? "\n" : " ").repeat(mostKb * KB + 1);

        Answer refused =
                network.steward().send(method, path.replace("{centre}", centre.code()), blank, "Content-Type", type);

        assertThat(refused.status()).isEqualTo(413);
        assertThat(refused.json().required("detail").asString())
                .isEqualTo("The body may have at most " + mostKb * KB + " bytes.");
    }

    @ParameterizedTest
    @CsvSource({"/api/centres/any-lab/cases", "/api/centres", "/api/nothing", "/problems/stale"})
    void refusesAnImmenseBodyBeforeItIsSent(String path) throws IOException {
        try (Socket socket = new Socket("localhost", port)) {
            OutputStream request = socket.getOutputStream();
            request.write(
                    ("POST " + path + " HTTP/1.1\r\nHost: x\r\nContent-Type: text/csv\r\nContent-Length: 536870913\r\n"
                                    + "Expect: 100-continue\r\n\r\n")
                            .getBytes(StandardCharsets.US_ASCII));
            request.flush();

            String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(answer).startsWith("HTTP/1.1 413").contains("/problems/too-large");
        }
    }

    @Test
    void readsNoFormThatNobodyAskedFor() {
        String form = "name=" + "x".repeat(200 * KB);

        assertThat(network.steward()
                        .send("PUT", "/api/centres/form-lab", form, "Content-Type", "application/x-www-form-urlencoded")
                        .status())
                .isEqualTo(415);
    }

    @Test
    void refusesAQueryOfTooManyParameters() {
        assertThat(network.steward()
                        .get("/api/reports/incidence?" + "centre=a&".repeat(201))
                        .status())
                .isEqualTo(400);
    }

    @Test
    void givesEveryConnectionOfThePoolItsTimeLimits() {
        assertThat(setting("statement_timeout")).isEqualTo("2min");
        assertThat(setting("lock_timeout")).isEqualTo("1min");
        assertThat(setting("idle_in_transaction_session_timeout")).isEqualTo("1min");
    }

    private String setting(String name) {
        return jdbc.sql("select current_setting(:name)")
                .param("name", name)
                .query(String.class)
                .single();
    }

    @ParameterizedTest
    @MethodSource("whatPasses")
    void asksTheCallerToTryAgainWhereTheDatabaseIsSlowOrGone(Exception failure) {
        assertThat(new ApiProblems().answerTo(failure, new ServletWebRequest(new MockHttpServletRequest())))
                .satisfies(answer -> {
                    assertThat(answer.getStatusCode().value()).isEqualTo(503);
                    assertThat(answer.getHeaders().getFirst("Retry-After")).isEqualTo("10");
                });
    }

    static Stream<Exception> whatPasses() {
        return Stream.of(
                new QueryTimeoutException("statement_timeout"),
                new CannotAcquireLockException("lock_timeout"),
                new DataAccessResourceFailureException("gone"),
                new CannotCreateTransactionException("no connection"),
                new TransactionTimedOutException("default-timeout"));
    }
}
