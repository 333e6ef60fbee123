package entrapment.registry.access.web;

import entrapment.registry.access.AccessKeys;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.Optional;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.HttpHeaders;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.core.authority.AuthorityUtils;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.authentication.preauth.PreAuthenticatedAuthenticationToken;
import org.springframework.security.web.context.SecurityContextHolderFilter;
import org.springframework.security.web.firewall.RequestRejectedHandler;
import org.springframework.web.filter.OncePerRequestFilter;
import org.springframework.web.servlet.HandlerExceptionResolver;

/** Everything under /api needs a key; what a viewer may see and do is decided at each door. */
@Configuration(proxyBeanMethods = false)
class SecurityConfiguration {

    private static final String SCHEME = "Bearer ";

    @Bean
    SecurityFilterChain api(
            HttpSecurity http,
            AccessKeys keys,
            @Qualifier("handlerExceptionResolver") HandlerExceptionResolver problems) {
        http.csrf(AbstractHttpConfigurer::disable)
                .httpBasic(AbstractHttpConfigurer::disable)
                .formLogin(AbstractHttpConfigurer::disable)
                .logout(AbstractHttpConfigurer::disable)
                .requestCache(AbstractHttpConfigurer::disable)
                .sessionManagement(session -> session.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
                .authorizeHttpRequests(requests -> requests.requestMatchers("/api/**")
                        .authenticated()
                        .anyRequest()
                        .permitAll())
                .exceptionHandling(handling -> handling.authenticationEntryPoint(
                        (request, response, failure) -> refuse(problems, request, response)))
                .addFilterAfter(bearer(keys, problems), SecurityContextHolderFilter.class);
        return http.build();
    }

    /** What the firewall turns away (odd characters in a path) is answered without repeating any of it. */
    @Bean
    RequestRejectedHandler rejected(@Qualifier("handlerExceptionResolver") HandlerExceptionResolver problems) {
        return (request, response, rejection) -> problems.resolveException(
                request,
                response,
                null,
                Problem.UNREADABLE_BODY.refusal("The path holds characters that are not read here."));
    }

    /** A key that is sent must be good, even where none is needed. */
    private static OncePerRequestFilter bearer(AccessKeys keys, HandlerExceptionResolver problems) {
        return new OncePerRequestFilter() {
            @Override
            protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
                    throws ServletException, IOException {
                String header = request.getHeader(HttpHeaders.AUTHORIZATION);
                if (header != null) {
                    Optional<Viewer> viewer = header.startsWith(SCHEME)
                            ? keys.viewer(header.substring(SCHEME.length()).trim())
                            : Optional.empty();
                    if (viewer.isEmpty()) {
                        refuse(problems, request, response);
                        return;
                    }
                    SecurityContextHolder.getContext()
                            .setAuthentication(new PreAuthenticatedAuthenticationToken(
                                    viewer.get(), "", AuthorityUtils.NO_AUTHORITIES));
                }
                chain.doFilter(request, response);
            }
        };
    }

    private static void refuse(
            HandlerExceptionResolver problems, HttpServletRequest request, HttpServletResponse response) {
        Refusal refusal =
                Problem.KEY_REQUIRED.refusal("The request has no key, or the key is not (or no longer) valid.");
        response.setHeader(HttpHeaders.WWW_AUTHENTICATE, "Bearer");
        problems.resolveException(request, response, null, refusal);
    }
}
