package entrapment.registry.access.web;

import entrapment.registry.access.AuditTrail;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Problem;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.HttpMethod;
import org.springframework.security.core.Authentication;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.HandlerMapping;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/**
 * Brings into the audit trail what was read and what was refused; what was changed is there already, brought by the
 * transaction that changed it.
 */
@Configuration(proxyBeanMethods = false)
class AuditConfiguration implements WebMvcConfigurer {

    /** They tell nothing that the registry holds, and change nothing. */
    private static final Set<String> NOTHING_OF_THE_REGISTRY = Set.of("vocabulary", "calculations");

    private final AuditTrail audit;

    AuditConfiguration(AuditTrail audit) {
        this.audit = audit;
    }

    @Override
    public void addInterceptors(InterceptorRegistry registry) {
        registry.addInterceptor(new HandlerInterceptor() {
                    @Override
                    public void afterCompletion(
                            HttpServletRequest request,
                            HttpServletResponse response,
                            Object handler,
                            @Nullable Exception failure) {
                        happened(request, response);
                    }
                })
                .excludePathPatterns("/assets/**", "/webjars/**", "/problems/**", "/sign-in");
    }

    private void happened(HttpServletRequest request, HttpServletResponse response) {
        String thing = thing(String.valueOf(request.getAttribute(HandlerMapping.BEST_MATCHING_PATTERN_ATTRIBUTE)));
        boolean read = HttpMethod.GET.matches(request.getMethod()) || HttpMethod.HEAD.matches(request.getMethod());
        Optional<String> problem = Problem.ofStatus(response.getStatus()).map(Problem::slug);
        if (request.getUserPrincipal() instanceof Authentication authentication
                && authentication.getPrincipal() instanceof Viewer viewer
                && !NOTHING_OF_THE_REGISTRY.contains(thing)
                && !thing.isEmpty()
                && (read || problem.isPresent())) {
            audit.happened(
                    viewer,
                    viewer.isSteward() ? centre(request) : viewer.centre(),
                    read ? AuditTrail.Action.READ : AuditTrail.Action.SEND,
                    thing,
                    problem.orElse(null));
        }
    }

    private static @Nullable String centre(HttpServletRequest request) {
        return request.getAttribute(HandlerMapping.URI_TEMPLATE_VARIABLES_ATTRIBUTE) instanceof Map<?, ?> variables
                ? (String) variables.get("centre")
                : null;
    }

    /**
     * The noun of a mapping: {@code cases} of {@code /api/centres/{centre}/cases/{caseKey}/versions}, or of a page the
     * first part of its path.
     */
    private static String thing(String pattern) {
        String[] parts = pattern.split("/", -1);
        if (parts.length > 1 && !parts[1].equals("api")) {
            return parts[1].startsWith("{") || parts[1].equals("**") ? "" : parts[1];
        }
        boolean ofCentre = parts.length > 4 && parts[2].equals("centres");
        return parts.length < 3 ? "" : parts[ofCentre ? 4 : 2];
    }
}
