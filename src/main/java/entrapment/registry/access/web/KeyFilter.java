package entrapment.registry.access.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Problem;
import io.github.bucket4j.TimeMeter;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.net.InetAddress;
import java.util.Arrays;
import java.util.Optional;
import java.util.function.Function;
import org.springframework.dao.DataAccessException;
import org.springframework.http.HttpHeaders;
import org.springframework.security.core.authority.AuthorityUtils;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.web.authentication.preauth.PreAuthenticatedAuthenticationToken;
import org.springframework.transaction.TransactionException;
import org.springframework.web.filter.OncePerRequestFilter;
import org.springframework.web.servlet.HandlerExceptionResolver;

/**
 * Turns a key into the viewer who holds it, and lets each key ask so often and no more; requests without a good key
 * count by the address they come from, and may ask far less often. Nothing of the body has been read by then.
 */
final class KeyFilter extends OncePerRequestFilter {

    private static final String SCHEME = "Bearer ";

    private final Function<String, Optional<Viewer>> keys;
    private final RateLimit byKey;
    private final RateLimit byAddress;
    private final HandlerExceptionResolver problems;

    KeyFilter(
            Function<String, Optional<Viewer>> keys,
            RateLimits limits,
            TimeMeter time,
            HandlerExceptionResolver problems) {
        this.keys = keys;
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
        if (header == null && !request.getRequestURI().startsWith("/api")) {
            chain.doFilter(request, response);
            return;
        }
        Optional<Viewer> viewer;
        try {
            viewer = header != null && header.startsWith(SCHEME)
                    ? keys.apply(header.substring(SCHEME.length()).trim())
                    : Optional.empty();
        } catch (DataAccessException | TransactionException noDatabase) {
            refuse(noDatabase, request, response);
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
            viewer.ifPresent(known -> SecurityContextHolder.getContext()
                    .setAuthentication(
                            new PreAuthenticatedAuthenticationToken(known, "", AuthorityUtils.NO_AUTHORITIES)));
            chain.doFilter(request, response);
        }
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
