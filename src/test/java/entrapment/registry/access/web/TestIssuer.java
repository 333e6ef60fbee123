package entrapment.registry.access.web;

import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JOSEObjectType;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.JWSSigner;
import com.nimbusds.jose.crypto.RSASSASigner;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.RSAKey;
import com.nimbusds.jose.jwk.gen.RSAKeyGenerator;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.SignedJWT;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import entrapment.registry.intake.Fingerprint;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Base64;
import java.util.Date;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.springframework.web.util.UriComponents;
import org.springframework.web.util.UriComponentsBuilder;
import org.springframework.web.util.UriUtils;

/** An OpenID Connect issuer with one client, at which whoever comes is the person that the test has set. */
final class TestIssuer {

    static final String CLIENT = "registry-client";
    static final String SECRET = "a secret of the tests";

    private final RSAKey key = rsaKey("of-the-issuer");
    private final HttpServer server;
    private final Map<String, Map<String, String>> codes = new ConcurrentHashMap<>();
    private volatile UnaryOperator<JWTClaimsSet.Builder> person = claims -> claims;

    TestIssuer() {
        try {
            server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        }
        server.createContext(
                "/.well-known/openid-configuration", exchange -> answer(exchange, 200, """
                {"issuer": "%1$s", "authorization_endpoint": "%1$s/authorize", "token_endpoint": "%1$s/token",
                 "jwks_uri": "%1$s/jwks", "response_types_supported": ["code"], "subject_types_supported": ["public"],
                 "id_token_signing_alg_values_supported": ["RS256"],
                 "code_challenge_methods_supported": ["S256"]}""".formatted(address())));
        server.createContext("/jwks", exchange -> answer(exchange, 200, new JWKSet(key.toPublicJWK()).toString()));
        server.createContext("/authorize", this::authorize);
        server.createContext("/token", this::token);
        server.start();
    }

    static RSAKey rsaKey(String id) {
        try {
            return new RSAKeyGenerator(2048).keyID(id).generate();
        } catch (JOSEException failure) {
            throw new IllegalStateException(failure);
        }
    }

    String address() {
        return "http://127.0.0.1:" + server.getAddress().getPort();
    }

    RSAKey key() {
        return key;
    }

    /** Who signs in from now on. */
    void person(UnaryOperator<JWTClaimsSet.Builder> claims) {
        person = claims;
    }

    /** Claims of a good token without a role: for the registry, by this issuer, good for five minutes. */
    JWTClaimsSet.Builder claims() {
        return new JWTClaimsSet.Builder()
                .issuer(address())
                .audience(CLIENT)
                .issueTime(Date.from(Instant.now()))
                .expirationTime(Date.from(Instant.now().plusSeconds(300)));
    }

    String signed(JWTClaimsSet claims) {
        try {
            return signed(claims, JWSAlgorithm.RS256, new RSASSASigner(key));
        } catch (JOSEException failure) {
            throw new IllegalStateException(failure);
        }
    }

    static String signed(JWTClaimsSet claims, JWSAlgorithm algorithm, JWSSigner signer) {
        try {
            SignedJWT token = new SignedJWT(
                    new JWSHeader.Builder(algorithm)
                            .type(JOSEObjectType.JWT)
                            .keyID("of-the-issuer")
                            .build(),
                    claims);
            token.sign(signer);
            return token.serialize();
        } catch (JOSEException failure) {
            throw new IllegalStateException(failure);
        }
    }

    /** Asks nobody, and sends the browser back with a code. */
    private void authorize(HttpExchange exchange) throws IOException {
        UriComponents asked =
                UriComponentsBuilder.fromUri(exchange.getRequestURI()).build();
        Map<String, String> query = decoded(asked.getQueryParams().toSingleValueMap());
        if (!"code".equals(query.get("response_type"))
                || !CLIENT.equals(query.get("client_id"))
                || !"openid".equals(query.get("scope"))
                || !"S256".equals(query.get("code_challenge_method"))
                || query.get("nonce") == null
                || query.get("code_challenge") == null) {
            answer(exchange, 400, "");
            return;
        }
        String code = UUID.randomUUID().toString();
        codes.put(code, query);
        exchange.getResponseHeaders()
                .set(
                        "Location",
                        query.get("redirect_uri") + "?code=" + code + "&state="
                                + UriUtils.encode(String.valueOf(query.get("state")), StandardCharsets.UTF_8));
        exchange.sendResponseHeaders(302, -1);
        exchange.close();
    }

    /** Each code is good once, for the client that knows its secret and can prove that it was the one who asked. */
    private void token(HttpExchange exchange) throws IOException {
        String body = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
        Map<String, String> form = decoded(UriComponentsBuilder.newInstance()
                .query(body.replace("+", "%20"))
                .build()
                .getQueryParams()
                .toSingleValueMap());
        Map<String, String> asked = codes.remove(String.valueOf(form.get("code")));
        String challenge = Base64.getUrlEncoder()
                .withoutPadding()
                .encodeToString(Fingerprint.bytes(String.valueOf(form.get("code_verifier"))));
        if (asked == null
                || !challenge.equals(asked.get("code_challenge"))
                || !Objects.equals(asked.get("redirect_uri"), form.get("redirect_uri"))
                || !isClient(exchange.getRequestHeaders().getFirst("Authorization"))) {
            answer(exchange, 400, "{\"error\": \"invalid_grant\"}");
            return;
        }
        String idToken =
                signed(person.apply(claims().claim("nonce", asked.get("nonce"))).build());
        answer(exchange, 200, """
                {"access_token": "not-used", "token_type": "Bearer", "expires_in": 300, "id_token": "%s"}""".formatted(idToken));
    }

    private static boolean isClient(@Nullable String header) {
        // RFC 6749, 2.3.1: both are form-encoded before they are joined.
        String pair = CLIENT + ":" + SECRET.replace(" ", "+");
        return ("Basic " + Base64.getEncoder().encodeToString(pair.getBytes(StandardCharsets.UTF_8))).equals(header);
    }

    private static Map<String, String> decoded(Map<String, String> values) {
        Map<String, String> all = new ConcurrentHashMap<>();
        values.forEach((name, value) -> all.put(name, UriUtils.decode(value, StandardCharsets.UTF_8)));
        return all;
    }

    private static void answer(HttpExchange exchange, int status, String body) throws IOException {
        byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
        exchange.getResponseHeaders().set("Content-Type", "application/json");
        exchange.sendResponseHeaders(status, bytes.length == 0 ? -1 : bytes.length);
        exchange.getResponseBody().write(bytes);
        exchange.close();
    }
}
