package entrapment.registry.http;

import jakarta.servlet.DispatcherType;
import jakarta.servlet.FilterChain;
import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.regex.Pattern;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * What a browser may do with an answer, on every answer there is: those of the firewall and of the error page too,
 * which is why this stands in front of the security filters and not among them.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE)
class SecurityHeaders extends OncePerRequestFilter {

    /** Data is for programs; a browser that is led to it runs nothing of it. */
    private static final String DATA = "default-src 'none'; frame-ancestors 'none'";

    /** Pages use scripts, styles and pictures of this server alone, none of them written into the page. */
    private static final String PAGES = "default-src 'self'; img-src 'self' data:; object-src 'none'; base-uri 'none'; "
            + "frame-ancestors 'none'; form-action 'self'";

    /** Parts of pages, and what is the same for everybody. */
    private static final Pattern FOR_ALL = Pattern.compile("^/(assets|webjars|problems)/");

    @Override
    protected boolean shouldNotFilterErrorDispatch() {
        return false;
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        String path = path(request);
        boolean data = path.startsWith("/api");
        write(response, data);
        if (!data && !FOR_ALL.matcher(path).find()) {
            // What one person sees is not for who sits at the machine next.
            response.setHeader(HttpHeaders.CACHE_CONTROL, "no-store");
        }
        if (request.isSecure()) {
            response.setHeader("Strict-Transport-Security", "max-age=31536000");
        }
        chain.doFilter(request, response);
    }

    /** The path that was asked for, of an error too. */
    private static String path(HttpServletRequest request) {
        return request.getDispatcherType() == DispatcherType.ERROR
                        && request.getAttribute(RequestDispatcher.ERROR_REQUEST_URI) instanceof String asked
                ? asked
                : request.getRequestURI();
    }

    /** @param data whether what is answered is for programs, and to be kept by nobody on the way */
    static void write(HttpServletResponse response, boolean data) {
        response.setHeader("Content-Security-Policy", data ? DATA : PAGES);
        response.setHeader("X-Content-Type-Options", "nosniff");
        response.setHeader("Referrer-Policy", "no-referrer");
        response.setHeader("Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()");
        response.setHeader("Cross-Origin-Opener-Policy", "same-origin");
        response.setHeader("Cross-Origin-Resource-Policy", "same-origin");
        if (data) {
            response.setHeader(HttpHeaders.CACHE_CONTROL, "no-store");
        }
    }
}
