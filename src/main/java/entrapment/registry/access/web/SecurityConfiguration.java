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
import org.springframework.core.annotation.Order;
import org.springframework.security.authorization.AuthorizationDecision;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.core.Authentication;
import org.springframework.security.oauth2.client.registration.ClientRegistration;
import org.springframework.security.oauth2.jwt.JwtDecoderFactory;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.context.SecurityContextHolderFilter;
import org.springframework.security.web.firewall.RequestRejectedHandler;
import org.springframework.web.servlet.HandlerExceptionResolver;

/**
 * Everything under /api needs a key or a token with each request and knows no session, so that no other site can ask in
 * somebody's name; pages have sessions. What a viewer may see and do is decided at each door.
 */
@Configuration(proxyBeanMethods = false)
class SecurityConfiguration {

    private final KeyFilter key;
    private final SingleSignOn signOn;
    private final HandlerExceptionResolver problems;

    SecurityConfiguration(
            AccessKeys keys,
            SingleSignOn signOn,
            @Value("${registry.rate-limit.requests-per-minute}") long withKey,
            @Value("${registry.rate-limit.requests-per-minute-without-key}") long withoutKey,
            @Qualifier("handlerExceptionResolver") HandlerExceptionResolver problems) {
        this.key = new KeyFilter(
                bearer -> signOn.judges(bearer) ? signOn.viewer(bearer) : keys.viewer(bearer),
                keys::isGood,
                new KeyFilter.RateLimits(withKey, withoutKey),
                TimeMeter.SYSTEM_NANOTIME,
                problems);
        this.signOn = signOn;
        this.problems = problems;
    }

    @Bean
    @Order(1)
    SecurityFilterChain api(HttpSecurity http) {
        http.securityMatcher("/api/**", "/actuator/**")
                .csrf(AbstractHttpConfigurer::disable)
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

    @Bean
    @Order(2)
    SecurityFilterChain pages(HttpSecurity http) {
        http.httpBasic(AbstractHttpConfigurer::disable)
                .formLogin(AbstractHttpConfigurer::disable)
                .headers(AbstractHttpConfigurer::disable)
                // Would open a session for whoever asks for a page that is not there.
                .requestCache(AbstractHttpConfigurer::disable)
                .logout(logout -> logout.logoutSuccessUrl("/"))
                .authorizeHttpRequests(requests -> requests.anyRequest().permitAll())
                .exceptionHandling(handling ->
                        handling.accessDeniedHandler((request, response, denied) -> problems.resolveException(
                                request,
                                response,
                                null,
                                Problem.NOT_YOUR_ROLE.refusal(
                                        "This was not sent from a page of this session; open the page again."))))
                .addFilterAfter(key, SecurityContextHolderFilter.class);
        if (signOn.signsIn()) {
            http.oauth2Login(new OpenIdLogin(signOn, problems));
        }
        return http.build();
    }

    /** Signing in looks for it among the beans. */
    @Bean
    JwtDecoderFactory<ClientRegistration> idTokens() {
        return signOn::idTokens;
    }

    private static boolean isSteward(@Nullable Authentication who) {
        return who != null && who.getPrincipal() instanceof Viewer viewer && viewer.isSteward();
    }

    /** What the firewall turns away (odd characters in a path) is answered without repeating any of it. */
    @Bean
    RequestRejectedHandler rejected() {
        return (request, response, rejection) -> problems.resolveException(
                request,
                response,
                null,
                Problem.UNREADABLE_BODY.refusal("The path holds characters that are not read here."));
    }
}
