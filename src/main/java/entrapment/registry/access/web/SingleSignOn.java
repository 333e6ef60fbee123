package entrapment.registry.access.web;

import entrapment.registry.access.AccessKeys;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.vocabulary.Code;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Clock;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.security.oauth2.client.oidc.authentication.OidcIdTokenValidator;
import org.springframework.security.oauth2.client.registration.ClientRegistration;
import org.springframework.security.oauth2.client.registration.ClientRegistrations;
import org.springframework.security.oauth2.core.ClaimAccessor;
import org.springframework.security.oauth2.core.DelegatingOAuth2TokenValidator;
import org.springframework.security.oauth2.core.OAuth2TokenValidator;
import org.springframework.security.oauth2.jwt.BadJwtException;
import org.springframework.security.oauth2.jwt.Jwt;
import org.springframework.security.oauth2.jwt.JwtClaimNames;
import org.springframework.security.oauth2.jwt.JwtClaimValidator;
import org.springframework.security.oauth2.jwt.JwtDecoder;
import org.springframework.security.oauth2.jwt.JwtException;
import org.springframework.security.oauth2.jwt.JwtTimestampValidator;
import org.springframework.stereotype.Component;

/**
 * Makes the viewer of what the network's issuer says of somebody: the role and the centre, and nothing else of it is
 * kept.
 */
@Component
@EnableConfigurationProperties(SingleSignOnSettings.class)
class SingleSignOn {

    /** Last part of the paths at which signing in begins and ends. */
    static final String REGISTRATION = "registry";

    private static final Logger LOG = LoggerFactory.getLogger(SingleSignOn.class);

    private final SingleSignOnSettings settings;
    private final AccessKeys keys;
    private final Issuer issuer;
    private final JwtDecoder tokens;

    SingleSignOn(SingleSignOnSettings settings, AccessKeys keys, Clock clock) {
        this.settings = settings;
        this.keys = keys;
        this.issuer = new Issuer(settings.issuer());
        this.tokens = issuer.tokens(validator(settings, clock));
    }

    private static OAuth2TokenValidator<Jwt> validator(SingleSignOnSettings settings, Clock clock) {
        JwtTimestampValidator times = new JwtTimestampValidator();
        times.setAllowEmptyExpiryClaim(false);
        times.setClock(clock);
        return new DelegatingOAuth2TokenValidator<>(
                times,
                new JwtClaimValidator<>(
                        JwtClaimNames.ISS, said -> settings.issuer().equals(String.valueOf(said))),
                new JwtClaimValidator<@Nullable List<String>>(
                        JwtClaimNames.AUD, said -> said != null && said.contains(settings.audience())));
    }

    /** Whether people can sign in. */
    boolean signsIn() {
        return settings.signsIn();
    }

    /** Whether this, sent as a key, is a token to be judged here; a key has no dots. */
    boolean judges(String bearer) {
        return settings.on() && bearer.split("\\.", -1).length == 3;
    }

    /** Whom a token is about, if it is good and names a role, and a centre where the role has one. */
    Optional<Viewer> viewer(String token) {
        try {
            return viewer(tokens.decode(token));
        } catch (BadJwtException bad) {
            return Optional.empty();
        } catch (JwtException notJudged) {
            LOG.warn("a token could not be judged: the issuer's keys are not to be had, or were asked for too often");
            return Optional.empty();
        }
    }

    /** Whom claims are about, whose signature, issuer, audience and expiry have been found good. */
    Optional<Viewer> viewer(ClaimAccessor claims) {
        String subject = claims.getClaimAsString(JwtClaimNames.SUB);
        Object role = one(claims, settings.roleClaim());
        Object centre = one(claims, settings.centreClaim());
        if (subject == null || !(role instanceof String code) || (centre != null && !(centre instanceof String))) {
            return Optional.empty();
        }
        return Code.of(Role.class, code)
                .flatMap(known -> keys.signedIn(settings.issuer(), subject, known, (String) centre));
    }

    /** Some issuers can say a claim only as a list. */
    private static @Nullable Object one(ClaimAccessor claims, String name) {
        Object said = claims.getClaims().get(name);
        return said instanceof Collection<?> list && list.size() == 1
                ? list.iterator().next()
                : said;
    }

    /** As what the registry asks the issuer to sign people in: by code and proof key, and for no more than who it is. */
    ClientRegistration registration() {
        try {
            return ClientRegistrations.fromOidcConfiguration(issuer.configuration())
                    .registrationId(REGISTRATION)
                    .clientId(settings.clientId())
                    .clientSecret(settings.clientSecret())
                    .scope("openid")
                    .redirectUri("{baseUrl}/login/oauth2/code/{registrationId}")
                    .clientSettings(ClientRegistration.ClientSettings.builder()
                            .requireProofKey(true)
                            .build())
                    .build();
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }

    /** Reads what the issuer says of somebody who has signed in. */
    JwtDecoder idTokens(ClientRegistration registration) {
        return issuer.tokens(new OidcIdTokenValidator(registration));
    }
}
