package entrapment.registry.access.web;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import io.github.bucket4j.TimeMeter;
import jakarta.servlet.FilterChain;
import java.time.Clock;
import java.time.Duration;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.http.HttpHeaders;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.mock.web.MockHttpSession;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.web.servlet.ModelAndView;

class KeyFilterTests {

    private static final int WITH_KEY = 6;
    private static final int WITHOUT_KEY = 2;
    private static final Set<String> GOOD = Set.of("good-one", "good-two");
    private static final int WENT_ON = 299;

    private final Minutes time = new Minutes();

    private final KeyFilter filter = new KeyFilter(
            key -> Optional.of(key).filter(GOOD::contains).map(KeyFilterTests::holder),
            viewer -> GOOD.contains(viewer.keyId()),
            Duration.ofHours(12),
            Clock.systemUTC(),
            new KeyFilter.RateLimits(WITH_KEY, WITHOUT_KEY),
            time,
            (request, response, handler, refused) -> {
                Problem problem = ((Refusal) refused).problem();
                response.setStatus(problem.status());
                return new ModelAndView();
            });

    /** Time that passes only when the test says so. */
    private static final class Minutes implements TimeMeter {

        private long nanos;

        void pass(Duration duration) {
            nanos += duration.toNanos();
        }

        @Override
        public long currentTimeNanos() {
            return nanos;
        }

        @Override
        public boolean isWallClockBased() {
            return false;
        }
    }

    @AfterEach
    void forgetTheViewer() {
        SecurityContextHolder.clearContext();
    }

    @Test
    void letsAKeyAskAsOftenAsAMinuteAllowsAndThenSaysHowLongToWait() throws Exception {
        exhaust(WITH_KEY, "Bearer good-one", "192.0.2.1");

        MockHttpServletResponse refused = ask("Bearer good-one", "192.0.2.1", "/api/centres");

        assertThat(refused.getStatus()).isEqualTo(429);
        assertThat(refused.getHeader(HttpHeaders.RETRY_AFTER)).isEqualTo("10");
        assertThat(ask("Bearer good-one", "198.51.100.7", "/api/centres").getStatus())
                .as("the same key from elsewhere")
                .isEqualTo(429);
    }

    @Test
    void letsItAskAgainAfterTheSecondsItNamed() throws Exception {
        exhaust(WITH_KEY, "Bearer good-one", "192.0.2.1");
        time.pass(Duration.ofMillis(9_999));
        MockHttpServletResponse tooEarly = ask("Bearer good-one", "192.0.2.1", "/api/centres");
        time.pass(Duration.ofMillis(1));

        assertThat(tooEarly.getStatus()).isEqualTo(429);
        assertThat(tooEarly.getHeader(HttpHeaders.RETRY_AFTER)).isEqualTo("1");
        assertThat(ask("Bearer good-one", "192.0.2.1", "/api/centres").getStatus())
                .isEqualTo(WENT_ON);
        time.pass(Duration.ofHours(1));
        exhaust(WITH_KEY, "Bearer good-one", "192.0.2.1");
        assertThat(ask("Bearer good-one", "192.0.2.1", "/api/centres").getStatus())
                .as("an hour of silence saves up no more than a minute")
                .isEqualTo(429);
    }

    @Test
    void countsEachKeyByItself() throws Exception {
        exhaust(WITH_KEY, "Bearer good-one", "192.0.2.1");

        assertThat(ask("Bearer good-two", "192.0.2.1", "/api/centres").getStatus())
                .isEqualTo(WENT_ON);
    }

    @Test
    void countsRequestsWithoutAGoodKeyByTheirAddress() throws Exception {
        assertThat(ask(null, "192.0.2.1", "/api/centres").getStatus())
                .as("refused further on")
                .isEqualTo(WENT_ON);
        assertThat(ask("Bearer bad", "192.0.2.1", "/api/centres").getStatus()).isEqualTo(401);

        assertThat(ask("Bearer worse", "192.0.2.1", "/api/centres").getStatus()).isEqualTo(429);
        assertThat(ask(null, "192.0.2.1", "/api/centres").getStatus()).isEqualTo(429);
        assertThat(ask("Basic YTpi", "192.0.2.1", "/problems/stale").getStatus())
                .isEqualTo(429);
        assertThat(ask("Bearer bad", "192.0.2.2", "/api/centres").getStatus()).isEqualTo(401);
        assertThat(ask("Bearer good-one", "192.0.2.1", "/api/centres").getStatus())
                .as("a good key behind the same address")
                .isEqualTo(WENT_ON);
    }

    @ParameterizedTest
    @CsvSource({"2001:db8:0:1::1, 2001:db8:0:1:ffff::2, 429", "2001:db8:0:1::1, 2001:db8:0:2::1, 401"})
    void countsTheIpv6AddressesOfOneCallerTogether(String first, String second, int status) throws Exception {
        exhaust(WITHOUT_KEY, "Bearer bad", first);

        assertThat(ask("Bearer bad", second, "/api/centres").getStatus()).isEqualTo(status);
    }

    @Test
    void doesNotCountPagesAndHealth() throws Exception {
        for (int request = 0; request < 10 * WITHOUT_KEY; request++) {
            assertThat(ask(null, "192.0.2.1", "/actuator/health").getStatus()).isEqualTo(WENT_ON);
        }
        assertThat(ask("Bearer bad", "192.0.2.1", "/api/centres").getStatus()).isEqualTo(401);
    }

    @Test
    void countsASessionAsTheKeyItWasOpenedWith() throws Exception {
        exhaust(WITH_KEY, "Bearer good-one", "192.0.2.1");
        SecurityContextHolder.setContext(KeyFilter.contextOf(holder("good-one")));

        assertThat(ask(null, "192.0.2.1", "/some-page").getStatus()).isEqualTo(429);
        SecurityContextHolder.setContext(KeyFilter.contextOf(holder("good-two")));
        assertThat(ask(null, "192.0.2.1", "/some-page").getStatus()).isEqualTo(WENT_ON);
    }

    @Test
    void endsASessionWhoseKeyHasEnded() throws Exception {
        SecurityContextHolder.setContext(KeyFilter.contextOf(holder("revoked")));
        MockHttpServletRequest request = new MockHttpServletRequest("GET", "/some-page");
        MockHttpSession session = new MockHttpSession();
        request.setSession(session);

        filter.doFilter(request, new MockHttpServletResponse(), (passed, answer) -> {
            assertThat(SecurityContextHolder.getContext().getAuthentication()).isNull();
        });

        assertThat(session.isInvalid()).isTrue();
    }

    @ParameterizedTest
    @CsvSource({
        "GET, /oauth2/authorization/registry",
        "GET, /%6Fauth2/authorization/registry",
        "GET, /login/oauth2/code/registry",
        "GET, /%61pi/centres",
        "POST, /some-page",
        "PUT, /some-page"
    })
    void countsWhatBeginsASessionAndWhatIsSent(String method, String path) throws Exception {
        for (int request = 0; request < WITHOUT_KEY; request++) {
            assertThat(ask(method, null, "192.0.2.1", path).getStatus()).isEqualTo(WENT_ON);
        }
        assertThat(ask(method, null, "192.0.2.1", path).getStatus()).isEqualTo(429);
    }

    private static Viewer holder(String key) {
        return new Viewer(key, Role.STEWARD, null);
    }

    private void exhaust(int requests, String key, String address) throws Exception {
        for (int request = 0; request < requests; request++) {
            assertThat(ask(key, address, "/api/centres").getStatus()).isNotEqualTo(429);
        }
    }

    private MockHttpServletResponse ask(@Nullable String key, String address, String path) throws Exception {
        return ask("GET", key, address, path);
    }

    private MockHttpServletResponse ask(String method, @Nullable String key, String address, String path)
            throws Exception {
        MockHttpServletRequest request = new MockHttpServletRequest(method, path);
        request.setRemoteAddr(address);
        if (key != null) {
            request.addHeader(HttpHeaders.AUTHORIZATION, key);
        }
        MockHttpServletResponse response = new MockHttpServletResponse();
        FilterChain on = (passed, answer) -> ((MockHttpServletResponse) answer).setStatus(WENT_ON);
        filter.doFilter(request, response, on);
        return response;
    }
}
