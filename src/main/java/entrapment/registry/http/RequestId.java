package entrapment.registry.http;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.UUID;
import org.slf4j.MDC;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Gives every request a random number that stands in its answer, in its problem and on each of its log lines. What a
 * caller sends as a number of its own is passed over: it could hold anything, and it would reach the log.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE)
class RequestId extends OncePerRequestFilter {

    static final String HEADER = "X-Request-Id";

    private static final String NAME = "requestId";

    /** The number of the request under way; a new one outside of any. */
    static UUID current() {
        String id = MDC.get(NAME);
        return id == null ? UUID.randomUUID() : UUID.fromString(id);
    }

    /** The container asks once more for the answer to an error, and that is the same request still. */
    @Override
    protected boolean shouldNotFilterErrorDispatch() {
        return false;
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        String id = request.getAttribute(HEADER) instanceof String earlier
                ? earlier
                : UUID.randomUUID().toString();
        request.setAttribute(HEADER, id);
        response.setHeader(HEADER, id);
        MDC.put(NAME, id);
        try {
            chain.doFilter(request, response);
        } finally {
            MDC.remove(NAME);
        }
    }
}
