package entrapment.registry.access.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Problem;
import io.github.bucket4j.TimeMeter;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import jakarta.servlet.http.HttpSession;
import java.io.IOException;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import org.springframework.dao.DataAccessException;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpMethod;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.authority.AuthorityUtils;
import org.springframework.security.core.context.SecurityContext;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.core.context.SecurityContextImpl;
import org.springframework.security.web.authentication.preauth.PreAuthenticatedAuthenticationToken;
import org.springframework.transaction.TransactionException;
import org.springframework.web.filter.OncePerRequestFilter;
import org.springframework.web.servlet.HandlerExceptionResolver;
import org.springframework.web.util.UriUtils;

/**
 * Turns a key or a token into the viewer who holds it, and lets each ask so often and no more; requests without a good
 * one count by the address they come from, and may ask far less often. A session is looked at again with each request,
 * and counts as the key it was opened with. Nothing of the body has been read by then.
 */
final class KeyFilter extends OncePerRequestFilter {

    private static final String SCHEME = "Bearer ";

    /** Where sessions begin; the pages themselves may be asked for without being counted. */
    private static final List<String> COUNTED = List.of("/api", "/oauth2/", "/login/");

    private final Function<String, Optional<Viewer>> keys;
    private final Predicate<Viewer> stillGood;
    private final Duration longest;
    private final Clock clock;
    private final RateLimit byKey;
    private final RateLimit byAddress;
    private final HandlerExceptionResolver problems;

    /**
     * @param keys who holds what was sent
     * @param stillGood whether what a session was opened with has not ended since
     * @param longest that a session lasts
     */
    KeyFilter(
            Function<String, Optional<Viewer>> keys,
            Predicate<Viewer> stillGood,
            Duration longest,
            Clock clock,
            RateLimits limits,
            TimeMeter time,
            HandlerExceptionResolver problems) {
        this.keys = keys;
        this.stillGood = stillGood;
        this.longest = longest;
        this.clock = clock;
        this.byKey = new RateLimit(limits.withKey(), time);
        this.byAddress = new RateLimit(limits.withoutKey(), time);
        this.problems = problems;
    }

    /** Requests a minute of one key, and of one address without a good key. */
    record RateLimits(long withKey, long withoutKey) {}

    /** Pages and health need no key and are not counted; a key that is sent must be good, even where none is needed. */
    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        String header = request.getHeader(HttpHeaders.AUTHORIZATION);
        Optional<Viewer> viewer;
        try {
            viewer = header == null ? ofSession(request) : ofHeader(header);
        } catch (DataAccessException | TransactionException noDatabase) {
            refuse(noDatabase, request, response);
            return;
        }
        if (header == null && viewer.isEmpty() && !isCounted(request)) {
            chain.doFilter(request, response);
            return;
        }
        long wait = viewer.isPresent()
                ? byKey.secondsToWait(viewer.get().keyId())
                : byAddress.secondsToWait(network(request.getRemoteAddr()));
        if (wait > 0) {
            response.setHeader(HttpHeaders.RETRY_AFTER, Long.toString(wait));
            refuse(Problem.TOO_OFTEN.refusal("Ask again in " + wait + " s."), request, response);
        } else if (header != null && viewer.isEmpty()) {
            keyRequired(request, response);
        } else {
            // A context of its own: that of a session would keep the key's holder.
            viewer.ifPresent(known -> SecurityContextHolder.setContext(contextOf(known)));
            chain.doFilter(request, response);
        }
    }

    private Optional<Viewer> ofHeader(String header) {
        return header.startsWith(SCHEME)
                ? keys.apply(header.substring(SCHEME.length()).trim())
                : Optional.empty();
    }

    private boolean isYoung(HttpSession session) {
        return clock.millis() - session.getCreationTime() < longest.toMillis();
    }

    /** Ends a session that is too old, or whose key was revoked or has expired; the request goes on as nobody's. */
    private Optional<Viewer> ofSession(HttpServletRequest request) {
        Authentication authentication = SecurityContextHolder.getContext().getAuthentication();
        if (authentication == null || !(authentication.getPrincipal() instanceof Viewer viewer)) {
            return Optional.empty();
        }
        if (isYoung(request.getSession()) && stillGood.test(viewer)) {
            return Optional.of(viewer);
        }
        SecurityContextHolder.clearContext();
        request.getSession().invalidate();
        return Optional.empty();
    }

    /** What may cost more than a page: data, what begins a session, and what is sent rather than asked for. */
    private static boolean isCounted(HttpServletRequest request) {
        String path = UriUtils.decode(request.getRequestURI(), StandardCharsets.UTF_8);
        boolean asks = HttpMethod.GET.matches(request.getMethod()) || HttpMethod.HEAD.matches(request.getMethod());
        return !asks || COUNTED.stream().anyMatch(path::startsWith);
    }

    /** The viewer as the framework carries it. */
    static SecurityContext contextOf(Viewer viewer) {
        return new SecurityContextImpl(
                new PreAuthenticatedAuthenticationToken(viewer, "", AuthorityUtils.NO_AUTHORITIES));
    }

    /** Answers a request that has no good key. */
    void keyRequired(HttpServletRequest request, HttpServletResponse response) {
        response.setHeader(HttpHeaders.WWW_AUTHENTICATE, "Bearer");
        refuse(
                Problem.KEY_REQUIRED.refusal("The request has no key, or the key is not (or no longer) valid."),
                request,
                response);
    }

    private void refuse(RuntimeException why, HttpServletRequest request, HttpServletResponse response) {
        problems.resolveException(request, response, null, why);
    }

    /** One caller has a whole /64 of IPv6 addresses at hand (RFC 4291), so these count as one. */
    private static String network(String address) throws IOException {
        byte[] bytes = InetAddress.getByName(address).getAddress();
        return bytes.length == 4 ? address : Arrays.toString(Arrays.copyOf(bytes, 8));
    }
}
