package entrapment.registry.access.web;

import entrapment.registry.access.AccessKeys;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Problem;
import io.github.bucket4j.TimeMeter;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.time.Clock;
import java.time.Duration;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpMethod;
import org.springframework.http.MediaType;
import org.springframework.security.authorization.AuthorizationDecision;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.oauth2.client.registration.ClientRegistration;
import org.springframework.security.oauth2.jwt.JwtDecoderFactory;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.access.AccessDeniedHandler;
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
            @Value("${registry.session.longest}") Duration longestSession,
            Clock clock,
            @Qualifier("handlerExceptionResolver") HandlerExceptionResolver problems) {
        this.key = new KeyFilter(
                bearer -> signOn.judges(bearer) ? signOn.viewer(bearer) : keys.viewer(bearer),
                keys::isGood,
                longestSession,
                clock,
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
                        .accessDeniedHandler(notYourRole("Only the network's steward may do this.")))
                .addFilterAfter(key, SecurityContextHolderFilter.class);
        return http.build();
    }

    /** Styles, scripts and pictures are the same for everybody: no session is looked at, and browsers may keep them. */
    @Bean
    @Order(2)
    SecurityFilterChain assets(HttpSecurity http) {
        http.securityMatcher("/assets/**", "/webjars/**")
                .csrf(AbstractHttpConfigurer::disable)
                .headers(AbstractHttpConfigurer::disable)
                .requestCache(AbstractHttpConfigurer::disable)
                .sessionManagement(session -> session.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
                .authorizeHttpRequests(requests -> requests.anyRequest().permitAll());
        return http.build();
    }

    @Bean
    @Order(3)
    SecurityFilterChain pages(HttpSecurity http) {
        http.httpBasic(AbstractHttpConfigurer::disable)
                .formLogin(AbstractHttpConfigurer::disable)
                .headers(AbstractHttpConfigurer::disable)
                // Would open a session for whoever asks for a page that is not there.
                .requestCache(AbstractHttpConfigurer::disable)
                .logout(logout -> logout.logoutUrl("/sign-out").logoutSuccessUrl(SignInPages.PATH + "?left"))
                .authorizeHttpRequests(requests -> requests.requestMatchers(
                                SignInPages.PATH, "/problems/**", "/error", "/oauth2/**", "/login/**")
                        .permitAll()
                        .anyRequest()
                        .authenticated())
                .exceptionHandling(handling -> handling.authenticationEntryPoint(this::signIn)
                        .accessDeniedHandler(
                                notYourRole("This was not sent from a page of this session; open the page again.")))
                .addFilterAfter(key, SecurityContextHolderFilter.class);
        if (signOn.signsIn()) {
            http.oauth2Login(new OpenIdLogin(signOn, problems));
        }
        return http.build();
    }

    private AccessDeniedHandler notYourRole(String detail) {
        return (request, response, denied) ->
                problems.resolveException(request, response, null, Problem.NOT_YOUR_ROLE.refusal(detail));
    }

    /** Sends a person to the page where one signs in and back; tells a program what it lacks. */
    private void signIn(HttpServletRequest request, HttpServletResponse response, AuthenticationException nobody)
            throws IOException {
        String accept = request.getHeader(HttpHeaders.ACCEPT);
        if (HttpMethod.GET.matches(request.getMethod())
                && accept != null
                && accept.contains(MediaType.TEXT_HTML_VALUE)) {
            response.sendRedirect(request.getContextPath() + SignInPages.backTo(request));
        } else {
            key.keyRequired(request, response);
        }
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
