package entrapment.registry.http;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import java.io.IOException;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;

/** Whatever is answered, a browser may do nothing with it that nobody meant. */
@RegistryTest
class SecurityHeaderTests {

    @Autowired
    private TestNetwork network;

    @Value("${local.server.port}")
    private int port;

    @Test
    void standOnDataAndProblemsAndAreNotKept() {
        TestCentre centre = network.centre();

        for (Answer answer : List.of(
                centre.submitter().get(centre.cases()),
                centre.submitter().get("/api/reports/incidence?format=csv"),
                centre.submitter().get(centre.cases() + "/nothing-a1"),
                centre.submitter().put(centre.cases() + "/broken-a1", "{"),
                centre.submitter().get(centre.cases() + "/odd;x=1"),
                centre.submitter().send("TRACE", centre.cases(), null),
                network.nobody().get("/api/centres"),
                network.nobody().with("bad").get("/api/centres"))) {
            assertSafe(answer);
            assertThat(answer.header("Content-Security-Policy"))
                    .isEqualTo("default-src 'none'; frame-ancestors 'none'");
            assertThat(answer.response().headers().allValues("Cache-Control")).containsExactly("no-store");
        }
    }

    @Test
    void standOnPagesAndHealth() {
        for (String path : List.of("/problems/stale", "/problems/none", "/actuator/health", "/", "/nothing-here")) {
            Answer answer = network.nobody().get(path);

            assertSafe(answer);
            assertThat(answer.header("Content-Security-Policy"))
                    .contains("default-src 'self'", "object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'");
        }
    }

    private static void assertSafe(Answer answer) {
        assertThat(answer.header("Content-Security-Policy")).isNotEmpty().doesNotContain("unsafe-", "*");
        assertThat(answer.header("X-Content-Type-Options")).isEqualTo("nosniff");
        assertThat(answer.header("Referrer-Policy")).isEqualTo("no-referrer");
        assertThat(answer.header("Permissions-Policy")).contains("camera=()");
        assertThat(answer.header("Cross-Origin-Opener-Policy")).isEqualTo("same-origin");
        assertThat(answer.header("Cross-Origin-Resource-Policy")).isEqualTo("same-origin");
        assertThat(answer.response().headers().map())
                .doesNotContainKeys("server", "x-powered-by", "set-cookie", "strict-transport-security");
    }

    @Test
    void askForTlsFromThenOnWhereItIsSpoken() throws Exception {
        MockHttpServletRequest request = new MockHttpServletRequest("GET", "/api/centres");
        request.setSecure(true);
        MockHttpServletResponse response = new MockHttpServletResponse();

        new SecurityHeaders().doFilter(request, response, (passed, answer) -> {});

        assertThat(response.getHeader("Strict-Transport-Security")).isEqualTo("max-age=31536000");
    }

    /** These do not reach a filter: the container cannot read them. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "GET /Zanzibar%zz HTTP/1.1\r\nHost: x\r\n\r\n",
                "GET /Zanzibar%00 HTTP/1.1\r\nHost: x\r\n\r\n",
                "GET /Zanzibar\\x HTTP/1.1\r\nHost: x\r\n\r\n",
                "GET /Zan{zibar HTTP/1.1\r\nHost: x\r\n\r\n",
                "GET /Zanzibar HTTP/1.1\r\n\r\n",
                "GET /Zanzibar HTTP/1.1\r\nHost: x@Zanzibar\r\n\r\n",
                "GET /Zanzibar HTTP/1.1\r\nHost: x\r\nZanzibar\r\n\r\n",
                "GET /Zanzibar HTTP/1.1\r\nHost: x\r\nContent-Length: Zanzibar\r\n\r\n",
                "GET /Zanzibar HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: Zanzibar\r\n\r\n",
                "Zanzi@bar / HTTP/1.1\r\nHost: x\r\n\r\n",
                "GET / HTTP/Zanzibar\r\nHost: x\r\n\r\n",
                "Zanzibar\r\n\r\n",
            })
    void answerWhatTheContainerCannotReadWithoutRepeatingIt(String request) throws IOException {
        try (Socket socket = new Socket("localhost", port)) {
            socket.setSoTimeout(30_000);
            socket.getOutputStream()
                    .write(request.replace("Host: x\r", "Host: x\r\nConnection: close\r")
                            .getBytes(StandardCharsets.ISO_8859_1));
            socket.getOutputStream().flush();

            String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);

            assertThat(answer).matches("(?s)HTTP/1.1 400 .*").doesNotContain("Zanzibar", "Apache", "Tomcat", "<html");
            if (!answer.endsWith("\r\n\r\n")) {
                assertThat(answer)
                        .contains(
                                "Content-Type: application/problem+json",
                                "X-Content-Type-Options: nosniff",
                                "Referrer-Policy: no-referrer");
            }
        }
    }
}
