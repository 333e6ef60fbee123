package entrapment.registry.access.web;

import com.nimbusds.jose.JOSEObjectType;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.source.JWKSetCacheRefreshEvaluator;
import com.nimbusds.jose.jwk.source.JWKSetRetrievalException;
import com.nimbusds.jose.jwk.source.JWKSetSource;
import com.nimbusds.jose.jwk.source.JWKSource;
import com.nimbusds.jose.jwk.source.JWKSourceBuilder;
import com.nimbusds.jose.proc.DefaultJOSEObjectTypeVerifier;
import com.nimbusds.jose.proc.JWSVerificationKeySelector;
import com.nimbusds.jose.proc.SecurityContext;
import com.nimbusds.jose.util.DefaultResourceRetriever;
import com.nimbusds.jose.util.JSONObjectUtils;
import com.nimbusds.jose.util.ResourceRetriever;
import com.nimbusds.jwt.proc.DefaultJWTProcessor;
import java.io.IOException;
import java.net.URI;
import java.text.ParseException;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.security.oauth2.core.OAuth2TokenValidator;
import org.springframework.security.oauth2.jwt.Jwt;
import org.springframework.security.oauth2.jwt.JwtDecoder;
import org.springframework.security.oauth2.jwt.NimbusJwtDecoder;

/**
 * The network's OpenID Connect issuer: what it says of itself and the keys with which it signs. Asked when first needed,
 * so that the registry starts without it; keys are kept for five minutes, and asked for no more than twice in half a
 * minute whatever is sent here.
 */
final class Issuer implements JWKSetSource<SecurityContext> {

    /** Signatures that only the issuer can make: neither none nor a shared secret, which its public key could be. */
    private static final Set<JWSAlgorithm> ALGORITHMS = Set.of(
            JWSAlgorithm.RS256,
            JWSAlgorithm.RS384,
            JWSAlgorithm.RS512,
            JWSAlgorithm.PS256,
            JWSAlgorithm.PS384,
            JWSAlgorithm.PS512,
            JWSAlgorithm.ES256,
            JWSAlgorithm.ES384,
            JWSAlgorithm.ES512);

    /** RFC 9068 names the type of an access token; most issuers say JWT, or nothing. */
    private static final JOSEObjectType ACCESS_TOKEN = new JOSEObjectType("at+jwt");

    private static final int LONGEST_WAIT_MILLIS = 5_000;
    private static final int LARGEST_ANSWER = 1_000_000;

    private final String address;
    private final ResourceRetriever http =
            new DefaultResourceRetriever(LONGEST_WAIT_MILLIS, LONGEST_WAIT_MILLIS, LARGEST_ANSWER);
    private final JWKSource<SecurityContext> keys = JWKSourceBuilder.<SecurityContext>create(this)
            .refreshAheadCache(false)
            .build();
    private volatile @Nullable Map<String, Object> configuration;

    Issuer(String address) {
        this.address = address;
    }

    /** What it says of itself (OpenID Connect Discovery 1.0, section 4). */
    Map<String, Object> configuration() throws IOException {
        Map<String, Object> known = configuration;
        if (known == null) {
            try {
                known = JSONObjectUtils.parse(
                        read(address.replaceFirst("/$", "") + "/.well-known/openid-configuration"));
            } catch (ParseException unreadable) {
                throw new IOException("the issuer's configuration is not JSON", unreadable);
            }
            if (!address.equals(known.get("issuer"))) {
                throw new IOException("the issuer's configuration is that of another issuer");
            }
            configuration = known;
        }
        return known;
    }

    /** Reads its tokens, if they are signed with its keys and the validator finds nothing wrong with the claims. */
    JwtDecoder tokens(OAuth2TokenValidator<Jwt> validator) {
        DefaultJWTProcessor<SecurityContext> processor = new DefaultJWTProcessor<>();
        processor.setJWSTypeVerifier(new DefaultJOSEObjectTypeVerifier<>(JOSEObjectType.JWT, ACCESS_TOKEN, null));
        processor.setJWSKeySelector(new JWSVerificationKeySelector<>(ALGORITHMS, keys));
        processor.setJWTClaimsSetVerifier((claims, context) -> {
            // The validator does it.
        });
        NimbusJwtDecoder decoder = new NimbusJwtDecoder(processor);
        decoder.setJwtValidator(validator);
        return decoder;
    }

    @Override
    public JWKSet getJWKSet(JWKSetCacheRefreshEvaluator refresh, long now, @Nullable SecurityContext context)
            throws JWKSetRetrievalException {
        try {
            return JWKSet.parse(read(String.valueOf(configuration().get("jwks_uri"))));
        } catch (IOException | ParseException | IllegalArgumentException unreadable) {
            throw new JWKSetRetrievalException("the issuer's keys cannot be read", unreadable);
        }
    }

    private String read(String from) throws IOException {
        return http.retrieveResource(URI.create(from).toURL()).getContent();
    }

    @Override
    public void close() {
        // Nothing is held open.
    }
}
