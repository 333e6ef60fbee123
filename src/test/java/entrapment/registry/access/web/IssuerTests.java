package entrapment.registry.access.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.security.oauth2.core.OAuth2TokenValidatorResult;
import org.springframework.security.oauth2.jwt.BadJwtException;
import org.springframework.security.oauth2.jwt.JwtDecoder;
import org.springframework.security.oauth2.jwt.JwtException;

/** An issuer that is not as it should be, and settings that would trust the wrong one. */
class IssuerTests {

    private final AtomicInteger asked = new AtomicInteger();
    private HttpServer server;
    private String configuration = "";

    @BeforeEach
    void start() throws IOException {
        server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/", exchange -> {
            asked.incrementAndGet();
            byte[] body = configuration.getBytes(StandardCharsets.UTF_8);
            exchange.sendResponseHeaders(body.length == 0 ? 503 : 200, body.length == 0 ? -1 : body.length);
            exchange.getResponseBody().write(body);
            exchange.close();
        });
        server.start();
    }

    @AfterEach
    void stop() {
        server.stop(0);
    }

    private String address() {
        return "http://127.0.0.1:" + server.getAddress().getPort();
    }

    @Test
    void isNotAskedForEveryTokenWhileItIsAway() {
        TestIssuer other = new TestIssuer();
        String token = other.signed(other.claims().build());
        JwtDecoder tokens = new Issuer(address()).tokens(any -> OAuth2TokenValidatorResult.success());

        for (int sent = 0; sent < 20; sent++) {
            assertThatThrownBy(() -> tokens.decode(token))
                    .isInstanceOf(JwtException.class)
                    .as("the token is not known to be bad")
                    .isNotInstanceOf(BadJwtException.class);
        }

        assertThat(asked).hasValueLessThanOrEqualTo(2);
    }

    @Test
    void isNotTakenForAnother() {
        configuration = "{\"issuer\": \"https://issuer.example\"}";

        assertThatThrownBy(() -> new Issuer(address()).configuration())
                .isInstanceOf(IOException.class)
                .hasMessageContaining("another issuer");
    }

    @ParameterizedTest
    @ValueSource(strings = {"http://issuer.example", "ftp://localhost", "issuer.example", "http://localhost.example"})
    void mustBeReachedByTls(String issuer) {
        assertThatThrownBy(() -> settings(issuer, "registry"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("https");
    }

    @ParameterizedTest
    @ValueSource(strings = {"https://issuer.example/network", "http://localhost:9000", "http://127.0.0.1:9000", ""})
    void mayBeOnThisMachineOrNone(String issuer) {
        assertThatCode(() -> settings(issuer, "registry")).doesNotThrowAnyException();
    }

    @Test
    void needsAnAudience() {
        assertThatThrownBy(() -> settings("https://issuer.example", ""))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("audience");
    }

    @Test
    void settingsDoNotPrintTheSecret() {
        assertThat(settings("https://issuer.example", "registry")).asString().doesNotContain("hidden");
    }

    private static SingleSignOnSettings settings(String issuer, String audience) {
        return new SingleSignOnSettings(issuer, "registry", "hidden", audience, "registry_role", "registry_centre");
    }
}
