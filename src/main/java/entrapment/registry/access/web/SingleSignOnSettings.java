package entrapment.registry.access.web;

import java.net.URI;
import java.util.Set;
import org.springframework.boot.context.properties.ConfigurationProperties;

/**
 * How the network's own issuer vouches for people; see src/docs/operations.md.
 *
 * @param issuer its OpenID Connect issuer identifier; empty for no single sign-on
 * @param clientId as which the registry signs people in; empty for tokens alone
 * @param clientSecret needed for signing in
 * @param audience which tokens must be made for
 * @param roleClaim where a token says the role
 * @param centreClaim where it says the centre
 */
@ConfigurationProperties("registry.sso")
record SingleSignOnSettings(
        String issuer, String clientId, String clientSecret, String audience, String roleClaim, String centreClaim) {

    private static final Set<String> THIS_MACHINE = Set.of("localhost", "127.0.0.1", "[::1]");

    SingleSignOnSettings {
        if (!issuer.isEmpty() && !isSafe(URI.create(issuer))) {
            throw new IllegalArgumentException(
                    "registry.sso.issuer must begin with https; only on this machine itself may it be http");
        }
        if (!issuer.isEmpty() && audience.isEmpty()) {
            throw new IllegalArgumentException("registry.sso.audience or registry.sso.client-id must be set");
        }
    }

    /** Whoever can change what the issuer says on its way can be anybody. */
    private static boolean isSafe(URI issuer) {
        return "https".equals(issuer.getScheme())
                || ("http".equals(issuer.getScheme()) && THIS_MACHINE.contains(String.valueOf(issuer.getHost())));
    }

    public boolean on() {
        return !issuer.isEmpty();
    }

    public boolean signsIn() {
        return on() && !clientId.isEmpty() && !clientSecret.isEmpty();
    }

    /** Without the secret. */
    @Override
    public String toString() {
        return "single sign-on by " + issuer;
    }
}
