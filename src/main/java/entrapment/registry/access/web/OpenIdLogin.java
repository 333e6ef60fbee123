package entrapment.registry.access.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Problem;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.net.http.HttpClient;
import java.time.Duration;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataAccessException;
import org.springframework.http.client.JdkClientHttpRequestFactory;
import org.springframework.http.converter.FormHttpMessageConverter;
import org.springframework.security.config.Customizer;
import org.springframework.security.config.ObjectPostProcessor;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.oauth2.client.OAuth2LoginConfigurer;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.authority.AuthorityUtils;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.oauth2.client.OAuth2AuthorizedClient;
import org.springframework.security.oauth2.client.endpoint.OAuth2AccessTokenResponseClient;
import org.springframework.security.oauth2.client.endpoint.OAuth2AuthorizationCodeGrantRequest;
import org.springframework.security.oauth2.client.endpoint.RestClientAuthorizationCodeTokenResponseClient;
import org.springframework.security.oauth2.client.http.OAuth2ErrorResponseErrorHandler;
import org.springframework.security.oauth2.client.registration.ClientRegistration;
import org.springframework.security.oauth2.client.web.OAuth2AuthorizationRequestRedirectFilter;
import org.springframework.security.oauth2.client.web.OAuth2AuthorizedClientRepository;
import org.springframework.security.oauth2.core.http.converter.OAuth2AccessTokenResponseHttpMessageConverter;
import org.springframework.security.oauth2.core.oidc.user.DefaultOidcUser;
import org.springframework.security.oauth2.core.oidc.user.OidcUser;
import org.springframework.security.web.context.HttpSessionSecurityContextRepository;
import org.springframework.security.web.context.NullSecurityContextRepository;
import org.springframework.security.web.context.SecurityContextRepository;
import org.springframework.transaction.TransactionException;
import org.springframework.web.client.RestClient;
import org.springframework.web.servlet.HandlerExceptionResolver;

/**
 * Signs people in at the network's issuer (OpenID Connect, authorization code with proof key), and keeps in the session
 * the viewer alone: neither what the issuer said of the person nor a token.
 */
final class OpenIdLogin implements Customizer<OAuth2LoginConfigurer<HttpSecurity>> {

    private static final Duration LONGEST_WAIT = Duration.ofSeconds(5);
    private static final String HOME = "/";

    private final SingleSignOn signOn;
    private final HandlerExceptionResolver problems;
    private final SecurityContextRepository session = new HttpSessionSecurityContextRepository();

    OpenIdLogin(SingleSignOn signOn, HandlerExceptionResolver problems) {
        this.signOn = signOn;
        this.problems = problems;
    }

    @Override
    public void customize(OAuth2LoginConfigurer<HttpSecurity> login) {
        login.loginPage(SignInPages.PATH)
                .clientRegistrationRepository(this::registration)
                .authorizedClientRepository(new NothingKept())
                .tokenEndpoint(endpoint -> endpoint.accessTokenResponseClient(tokenEndpoint()))
                // Nobody is asked for more of the person than the token says.
                .userInfoEndpoint(endpoint -> endpoint.oidcUserService(
                        request -> new DefaultOidcUser(AuthorityUtils.NO_AUTHORITIES, request.getIdToken())))
                .securityContextRepository(new NullSecurityContextRepository())
                .successHandler(this::signedIn)
                .failureHandler((request, response, failure) -> refuse(request, response))
                .addObjectPostProcessor(new ObjectPostProcessor<OAuth2AuthorizationRequestRedirectFilter>() {
                    @Override
                    public <O extends OAuth2AuthorizationRequestRedirectFilter> O postProcess(O redirect) {
                        redirect.setAuthenticationFailureHandler((request, response, failure) ->
                                problems.resolveException(request, response, null, reason(failure)));
                        return redirect;
                    }
                });
    }

    private ClientRegistration registration(String id) {
        if (!id.equals(SingleSignOn.REGISTRATION)) {
            throw Problem.NOT_FOUND.refusal("There is nowhere of this name to sign in.");
        }
        return signOn.registration();
    }

    private static Exception reason(Exception failure) {
        return failure.getCause() instanceof Exception cause ? cause : failure;
    }

    private static OAuth2AccessTokenResponseClient<OAuth2AuthorizationCodeGrantRequest> tokenEndpoint() {
        JdkClientHttpRequestFactory requests = new JdkClientHttpRequestFactory(
                HttpClient.newBuilder().connectTimeout(LONGEST_WAIT).build());
        requests.setReadTimeout(LONGEST_WAIT);
        RestClientAuthorizationCodeTokenResponseClient client = new RestClientAuthorizationCodeTokenResponseClient();
        client.setRestClient(RestClient.builder()
                .requestFactory(requests)
                .configureMessageConverters(converters -> converters
                        .addCustomConverter(new FormHttpMessageConverter())
                        .addCustomConverter(new OAuth2AccessTokenResponseHttpMessageConverter()))
                .defaultStatusHandler(new OAuth2ErrorResponseErrorHandler())
                .build());
        return client;
    }

    private void signedIn(HttpServletRequest request, HttpServletResponse response, Authentication person)
            throws IOException {
        SecurityContextHolder.clearContext();
        try {
            Optional<Viewer> viewer = person.getPrincipal() instanceof OidcUser user
                    ? signOn.viewer(user.getIdToken())
                    : Optional.empty();
            if (viewer.isPresent()) {
                session.saveContext(KeyFilter.contextOf(viewer.get()), request, response);
                response.sendRedirect(request.getContextPath() + HOME);
            } else {
                refuse(request, response);
            }
        } catch (DataAccessException | TransactionException noDatabase) {
            problems.resolveException(request, response, null, noDatabase);
        }
    }

    private void refuse(HttpServletRequest request, HttpServletResponse response) {
        problems.resolveException(
                request,
                response,
                null,
                Problem.KEY_REQUIRED.refusal("Signing in did not work, or gives no role in this network."));
    }

    /** The tokens that come with signing in are not used again. */
    private static final class NothingKept implements OAuth2AuthorizedClientRepository {

        @Override
        @SuppressWarnings("TypeParameterUnusedInFormals") // the interface has it
        public <T extends OAuth2AuthorizedClient> @Nullable T loadAuthorizedClient(
                String registration, Authentication person, HttpServletRequest request) {
            return null;
        }

        @Override
        public void saveAuthorizedClient(
                OAuth2AuthorizedClient client,
                Authentication person,
                HttpServletRequest request,
                HttpServletResponse response) {
            // Nothing is kept.
        }

        @Override
        public void removeAuthorizedClient(
                String registration, Authentication person, HttpServletRequest request, HttpServletResponse response) {
            // Nothing was kept.
        }
    }
}
