package entrapment.registry.access.web;

import entrapment.registry.access.AccessKeys;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Problem;
import io.github.bucket4j.TimeMeter;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.security.authorization.AuthorizationDecision;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.core.Authentication;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.context.SecurityContextHolderFilter;
import org.springframework.security.web.firewall.RequestRejectedHandler;
import org.springframework.web.servlet.HandlerExceptionResolver;

/** Everything under /api needs a key; what a viewer may see and do is decided at each door. */
@Configuration(proxyBeanMethods = false)
class SecurityConfiguration {

    @Bean
    SecurityFilterChain api(
            HttpSecurity http,
            AccessKeys keys,
            @Value("${registry.rate-limit.requests-per-minute}") long withKey,
            @Value("${registry.rate-limit.requests-per-minute-without-key}") long withoutKey,
            @Qualifier("handlerExceptionResolver") HandlerExceptionResolver problems) {
        KeyFilter key = new KeyFilter(
                keys::viewer, new KeyFilter.RateLimits(withKey, withoutKey), TimeMeter.SYSTEM_NANOTIME, problems);
        http.csrf(AbstractHttpConfigurer::disable)
                .httpBasic(AbstractHttpConfigurer::disable)
                .formLogin(AbstractHttpConfigurer::disable)
                .logout(AbstractHttpConfigurer::disable)
                // A filter of the service writes them, in front of the firewall.
                .headers(AbstractHttpConfigurer::disable)
                .requestCache(AbstractHttpConfigurer::disable)
                .sessionManagement(session -> session.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
                .authorizeHttpRequests(requests -> requests.requestMatchers("/api/**")
                        .authenticated()
                        .requestMatchers("/actuator/prometheus")
                        .access((who, what) -> new AuthorizationDecision(isSteward(who.get())))
                        .anyRequest()
                        .permitAll())
                .exceptionHandling(handling -> handling.authenticationEntryPoint(
                                (request, response, failure) -> key.keyRequired(request, response))
                        .accessDeniedHandler((request, response, denied) -> problems.resolveException(
                                request,
                                response,
                                null,
                                Problem.NOT_YOUR_ROLE.refusal("Only the network's steward may do this."))))
                .addFilterAfter(key, SecurityContextHolderFilter.class);
        return http.build();
    }

    private static boolean isSteward(@Nullable Authentication who) {
        return who != null && who.getPrincipal() instanceof Viewer viewer && viewer.isSteward();
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
}
