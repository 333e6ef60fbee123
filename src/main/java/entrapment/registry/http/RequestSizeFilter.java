package entrapment.registry.http;

import entrapment.registry.intake.Problem;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;
import org.springframework.web.servlet.HandlerExceptionResolver;

/**
 * Refuses a body that says of itself that it is larger than any that is read here, before it is sent. What does not say
 * so is counted while it is read: each path that reads a body has a limit of its own.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE + 1)
class RequestSizeFilter extends OncePerRequestFilter {

    private static final long MOST = 512L * 1_024 * 1_024;

    private final HandlerExceptionResolver problems;

    RequestSizeFilter(@Qualifier("handlerExceptionResolver") HandlerExceptionResolver problems) {
        this.problems = problems;
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        if (request.getContentLengthLong() > MOST) {
            problems.resolveException(
                    request,
                    response,
                    null,
                    Problem.TOO_LARGE.refusal("The body may have at most " + MOST + " bytes."));
        } else {
            chain.doFilter(request, response);
        }
    }
}
