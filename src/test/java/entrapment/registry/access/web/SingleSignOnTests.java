package entrapment.registry.access.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.crypto.MACSigner;
import com.nimbusds.jose.crypto.RSASSASigner;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.PlainJWT;
import entrapment.registry.RegistryClient;
import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.access.AccessKeys;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.CaseSamples;
import java.net.CookieManager;
import java.net.HttpCookie;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Base64;
import java.util.Date;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.test.context.TestComponent;
import org.springframework.boot.test.system.CapturedOutput;
import org.springframework.boot.test.system.OutputCaptureExtension;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.security.web.csrf.CsrfToken;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;
import org.springframework.transaction.support.TransactionTemplate;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.JsonNode;

/** People whom an issuer of the network's own vouches for, by tokens and by signing in. */
@RegistryTest
@Import(SingleSignOnTests.Page.class)
@ExtendWith(OutputCaptureExtension.class)
class SingleSignOnTests {

    /** What an issuer may say of a person, and the registry must forget. */
    private static final String NAME = "Quillon Brummagen";

    private static final String EMAIL = "quillon.brummagen@tarnoquill.example";
    private static final TestIssuer ISSUER = new TestIssuer();

    @Autowired
    private TestNetwork network;

    @Autowired
    private AccessKeys keys;

    /** As the service itself asks. */
    @Autowired
    private JdbcClient service;

    @Autowired
    private TransactionTemplate transaction;

    @Value("${local.server.port}")
    private int port;

    @DynamicPropertySource
    static void singleSignOn(DynamicPropertyRegistry settings) {
        settings.add("registry.sso.issuer", ISSUER::address);
        settings.add("registry.sso.client-id", () -> TestIssuer.CLIENT);
        settings.add("registry.sso.client-secret", () -> TestIssuer.SECRET);
        settings.add("server.forward-headers-strategy", () -> "native");
    }

    /** A page that says who sees it, and lets the viewer send something from it. */
    @TestComponent
    @RestController
    static class Page {

        @GetMapping("/page-of-the-tests")
        List<String> page(@AuthenticationPrincipal @Nullable Viewer viewer, CsrfToken token) {
            return List.of(
                    viewer == null ? "nobody" : viewer.keyId() + " " + viewer.role() + " " + viewer.centre(),
                    token.getToken());
        }
    }

    private static UnaryOperator<JWTClaimsSet.Builder> person(
            String subject, @Nullable String role, @Nullable String centre) {
        return claims -> claims.subject(subject)
                .claim("name", NAME)
                .claim("email", EMAIL)
                .claim("registry_role", role)
                .claim("registry_centre", centre);
    }

    private static JWTClaimsSet.Builder claims(String subject, @Nullable String role, @Nullable String centre) {
        return person(subject, role, centre).apply(ISSUER.claims());
    }

    private RegistryClient holder(JWTClaimsSet.Builder claims) {
        return network.nobody().with(ISSUER.signed(claims.build()));
    }

    private static String aSubject() {
        return "subject-" + UUID.randomUUID();
    }

    @Test
    void aTokenDoesWhatItsRoleMayAndNotMore() {
        TestCentre centre = network.centre();
        TestCentre other = network.centre();
        RegistryClient submitter = holder(claims(aSubject(), "submitter", centre.code()));
        RegistryClient analyst = holder(claims(aSubject(), "analyst", centre.code()));
        RegistryClient steward = holder(claims(aSubject(), "steward", null));
        String aCase = CaseSamples.aCase().json();

        assertThat(submitter.put(centre.cases() + "/signed-on-a", aCase).status())
                .isEqualTo(201);
        assertThat(submitter.get(other.cases()).status()).isEqualTo(404);
        assertThat(submitter.get("/api/keys").status()).isEqualTo(403);
        assertThat(analyst.get(centre.cases() + "/signed-on-a").status()).isEqualTo(200);
        assertThat(analyst.put(centre.cases() + "/signed-on-b", aCase).status()).isEqualTo(403);
        assertThat(analyst.get(other.cases()).status()).isEqualTo(404);
        assertThat(analyst.get("/api/keys").status()).isEqualTo(403);
        assertThat(steward.get("/api/keys").status()).isEqualTo(200);
        assertThat(steward.get(other.cases()).status()).isEqualTo(200);
        assertThat(steward.get("/actuator/prometheus").status()).isEqualTo(200);
        assertThat(submitter.get("/actuator/prometheus").status()).isEqualTo(403);
    }

    @Test
    void takesARoleSaidAsAListOfOne() {
        TestCentre centre = network.centre();

        assertThat(holder(claims(aSubject(), null, centre.code()).claim("registry_role", List.of("analyst")))
                        .get(centre.cases())
                        .status())
                .isEqualTo(200);
    }

    @Test
    void refusesEveryTokenThatIsNotWhollyGood() throws JOSEException {
        TestCentre centre = network.centre();
        String subject = aSubject();
        assertThat(holder(claims(subject, "submitter", centre.code()))
                        .get(centre.cases())
                        .status())
                .as("the token that each of the others differs from in one thing")
                .isEqualTo(200);
        long rows = signedInRows();
        Map<String, String> bad = badTokens(subject, centre.code());
        String usual = refusal(network.nobody().with("no-key").get(centre.cases()));
        Map<String, String> otherwise = new LinkedHashMap<>();
        bad.forEach((why, token) -> {
            String answered = refusal(network.nobody().with(token).get(centre.cases()));
            if (!answered.equals(usual)) {
                otherwise.put(why, answered);
            }
        });

        assertThat(usual).startsWith("401");
        assertThat(bad).hasSizeGreaterThan(20);
        assertThat(otherwise).isEmpty();
        assertThat(signedInRows()).as("no row for what was refused").isEqualTo(rows);
    }

    /** All that an answer says, but for the number of its request. */
    private static String refusal(Answer answer) {
        return answer.status()
                + answer.body().replace(answer.header("X-Request-Id"), "")
                + answer.response().headers().allValues("WWW-Authenticate");
    }

    private long signedInRows() {
        return network.database()
                .sql("select count(*) from access_key where id like 'sso-%'")
                .query(Long.class)
                .single();
    }

    private static Map<String, String> badTokens(String subject, String centre) throws JOSEException {
        JWTClaimsSet good = claims(subject, "submitter", centre).build();
        Map<String, String> bad = new LinkedHashMap<>();
        Map<String, JWTClaimsSet.Builder> claims = new LinkedHashMap<>();
        claims.put("wrong issuer", changed(good).issuer("https://issuer.example"));
        claims.put("no issuer", changed(good).issuer(null));
        claims.put("wrong audience", changed(good).audience("another-service"));
        claims.put("no audience", changed(good).audience((String) null));
        claims.put("expired", changed(good).issueTime(secondsFromNow(-420)).expirationTime(secondsFromNow(-120)));
        claims.put("no expiry", changed(good).expirationTime(null));
        claims.put("not yet good", changed(good).notBeforeTime(secondsFromNow(120)));
        claims.put("no subject", changed(good).subject(null));
        claims.put("unknown role", changed(good).claim("registry_role", "administrator"));
        claims.put("role in capitals", changed(good).claim("registry_role", "SUBMITTER"));
        claims.put("no role", changed(good).claim("registry_role", null));
        claims.put("two roles", changed(good).claim("registry_role", List.of("submitter", "steward")));
        claims.put("centre not in the network", changed(good).claim("registry_centre", "no-such-lab"));
        claims.put("every centre", changed(good).claim("registry_centre", "*"));
        claims.put("two centres in one", changed(good).claim("registry_centre", centre + ",no-such-lab"));
        claims.put("two centres", changed(good).claim("registry_centre", List.of(centre, "no-such-lab")));
        claims.put("no centre", changed(good).claim("registry_centre", null));
        claims.put("a steward with a centre", changed(good).claim("registry_role", "steward"));
        claims.put(
                "a steward with an empty centre",
                changed(good).claim("registry_role", "steward").claim("registry_centre", ""));
        claims.forEach((why, set) -> bad.put(why, ISSUER.signed(set.build())));
        bad.put("no signature", new PlainJWT(good).serialize());
        String[] parts = ISSUER.signed(good).split("\\.", -1);
        bad.put("signature left away", parts[0] + "." + parts[1] + ".");
        bad.put("none with the signature of another", none() + "." + parts[1] + "." + parts[2]);
        bad.put(
                "claims of another",
                parts[0] + "."
                        + ISSUER.signed(claims("another", "steward", null).build())
                                .split("\\.", -1)[1] + "."
                        + parts[2]);
        bad.put(
                "signed with the public key as a secret",
                TestIssuer.signed(
                        good,
                        JWSAlgorithm.HS256,
                        new MACSigner(ISSUER.key().toRSAPublicKey().getEncoded())));
        bad.put(
                "signed by somebody else",
                TestIssuer.signed(good, JWSAlgorithm.RS256, new RSASSASigner(TestIssuer.rsaKey("of-the-issuer"))));
        bad.put("not a token at all", "a.b.c");
        return bad;
    }

    private static JWTClaimsSet.Builder changed(JWTClaimsSet good) {
        return new JWTClaimsSet.Builder(good);
    }

    private static String none() {
        return Base64.getUrlEncoder()
                .withoutPadding()
                .encodeToString("{\"alg\":\"none\",\"kid\":\"of-the-issuer\"}".getBytes(StandardCharsets.UTF_8));
    }

    private static Date secondsFromNow(int seconds) {
        return Date.from(Instant.now().plusSeconds(seconds));
    }

    @Test
    void whatWasDoneHasADoerWhomTheStewardSeesAndCanEnd() {
        TestCentre centre = network.centre();
        String subject = aSubject();
        RegistryClient submitter = holder(claims(subject, "submitter", centre.code()));
        RegistryClient analyst = holder(claims(subject, "analyst", centre.code()));
        JsonNode stored = submitter
                .put(centre.cases() + "/signed-on-c", CaseSamples.aCase().json())
                .json();
        assertThat(analyst.get(centre.cases()).status()).isEqualTo(200);

        String id = network.database()
                .sql("select key_id from revision where :revision between first and last")
                .param("revision", stored.required("revision").longValue())
                .query(String.class)
                .single();
        JsonNode known = known(id);
        Stream<String> trail = network.steward()
                .get("/api/audit?size=1000")
                .json()
                .valueStream()
                .filter(entry -> entry.path("keyId").asString("").equals(id))
                .map(entry -> entry.required("action").asString() + " "
                        + entry.required("thing").asString());

        assertThat(id).startsWith("sso-");
        assertThat(known.required("label").asString()).isEqualTo("single sign-on");
        assertThat(known.required("role").asString()).isEqualTo("submitter");
        assertThat(known.required("centre").asString()).isEqualTo(centre.code());
        assertThat(known.required("lastUsedAt").asString()).endsWith(":00:00Z");
        assertThat(trail).contains("issue keys", "create cases");

        assertThat(network.steward().send("DELETE", "/api/keys/" + id, null).status())
                .isEqualTo(204);

        assertThat(submitter.get(centre.cases()).status()).isEqualTo(401);
        assertThat(holder(claims(subject, "submitter", centre.code()))
                        .get(centre.cases())
                        .status())
                .as("a fresh token of the same person")
                .isEqualTo(401);
        assertThat(analyst.get(centre.cases()).status()).as("another row").isEqualTo(200);
    }

    private JsonNode known(String id) {
        return network.steward()
                .get("/api/keys")
                .json()
                .valueStream()
                .filter(key -> key.required("id").asString().equals(id))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void eachCombinationOfPersonRoleAndCentreHasOneRow() {
        TestCentre centre = network.centre();
        String subject = aSubject();
        long before = signedInRows();

        // At once, so that each may think that it is the first.
        List<Integer> answered = IntStream.range(0, 8)
                .parallel()
                .mapToObj(request -> holder(claims(subject, "analyst", centre.code()))
                        .get(centre.cases())
                        .status())
                .toList();

        assertThat(answered).containsOnly(200);
        assertThat(signedInRows() - before).isEqualTo(1);
        holder(claims(subject, "submitter", centre.code())).get(centre.cases());
        holder(claims(subject, "analyst", network.centre().code())).get(centre.cases());
        holder(claims(subject, "steward", null)).get(centre.cases());
        assertThat(signedInRows() - before).isEqualTo(4);
    }

    @Test
    void nothingThatIsSentAsAKeyIsTakenForSomebodyWhoIsSignedIn() {
        TestCentre centre = network.centre();
        String subject = aSubject();
        holder(claims(subject, "submitter", centre.code())).get(centre.cases());
        byte[] stored = network.database()
                .sql("select hash from access_key where centre = :centre and id like 'sso-%'")
                .param("centre", centre.code())
                .query(byte[].class)
                .single();
        String text = String.join("\0", "submitter", centre.code(), ISSUER.address(), subject);

        assertThat(keys.viewer(text)).isEmpty();
        assertThat(keys.viewer("\u00ff" + text)).isEmpty();
        assertThat(keys.viewer(HexFormat.of().formatHex(stored))).isEmpty();
    }

    @Test
    void aStewardWhoIsSignedInIsNoStewardKey() {
        holder(claims(aSubject(), "steward", null)).get("/api/keys");
        String id = network.database()
                .sql("select id from access_key where id like 'sso-%' and role = 'steward' order by created_at desc")
                .query(String.class)
                .list()
                .get(0);

        assertThat(network.steward().post("/api/keys/" + id + "/rotation", "{}").status())
                .as("there is no key to replace")
                .isEqualTo(404);
        transaction.executeWithoutResult(undone -> {
            undone.setRollbackOnly();
            service.sql("select set_config('registry.centres', '*', true)")
                    .query(String.class)
                    .single();
            service.sql("update access_key set revoked_at = now() where role = 'steward' and id like 'key-%'")
                    .update();
            assertThat(keys.steward()).isEmpty();
            assertThat(keys.makeFirst())
                    .as("single sign-on may be switched off, and somebody must hold a key then")
                    .isPresent();
        });
    }

    @Test
    void keepsAndLogsNothingOfThePerson(CapturedOutput output) throws Exception {
        TestCentre centre = network.centre();
        String subject = aSubject();
        String token = ISSUER.signed(claims(subject, "submitter", centre.code()).build());
        network.nobody().with(token).put(centre.cases() + "/signed-on-d", "{");
        network.nobody()
                .with(token)
                .put(centre.cases() + "/signed-on-d", CaseSamples.aCase().json());
        holder(claims(subject, "nonsense", centre.code())).get(centre.cases());
        ISSUER.person(person(subject, "submitter", centre.code()));
        Browser browser = new Browser();
        browser.signIn();

        List<String> tables = network.database()
                .sql("select table_name::text from information_schema.tables"
                        + " where table_schema = 'public' and table_type = 'BASE TABLE'")
                .query(String.class)
                .list();
        String dump = tables.stream()
                .flatMap(
                        table -> network
                                .database()
                                .sql("select to_jsonb(t)::text from " + table + " t")
                                .query(String.class)
                                .list()
                                .stream())
                .collect(Collectors.joining("\n"));

        assertThat(tables).contains("access_key", "audit_entry", "revision");
        assertThat(dump).contains("sso-", centre.code()).doesNotContain(subject, "rummagen", ISSUER.address());
        assertThat(output.getAll()).contains("refused").doesNotContain(subject, "rummagen", token);
    }

    @Test
    void signsInIntoASessionThatSeesPagesAndEndsByLogout() throws Exception {
        TestCentre centre = network.centre();
        ISSUER.person(person(aSubject(), "analyst", centre.code()));
        Browser browser = new Browser();
        assertThat(browser.page()[0]).isEqualTo("nobody");
        browser.get("/sign-in", "Accept", "text/html");
        String before = browser.session().getValue();

        HttpResponse<String> home = browser.signIn();

        assertThat(home.statusCode()).isEqualTo(302);
        assertThat(home.headers().firstValue("Location")).hasValue("/");
        assertThat(home.headers().firstValue("X-Content-Type-Options")).hasValue("nosniff");
        assertThat(home.headers().firstValue("X-Request-Id")).isPresent();
        assertThat(home.headers().firstValue("Set-Cookie").orElseThrow())
                .startsWith("registry-session=")
                .contains("HttpOnly", "SameSite=Lax");
        assertThat(browser.session().getValue()).as("another at login").isNotEqualTo(before);
        String[] page = browser.page();
        assertThat(page[0]).matches("sso-.{12} ANALYST " + centre.code());

        assertThat(browser.get("/api/centres").statusCode())
                .as("data is not to be had with a cookie")
                .isEqualTo(401);
        assertThat(browser.post("/sign-out", "").statusCode())
                .as("from elsewhere")
                .isEqualTo(403);
        assertThat(browser.page()[0]).startsWith("sso-");
        HttpResponse<String> out = browser.post("/sign-out", "_csrf=" + page[1]);
        assertThat(out.statusCode()).isEqualTo(302);
        assertThat(browser.page()[0]).isEqualTo("nobody");
    }

    @Test
    void behindAProxyThatSpeaksTlsTheCookieIsForTlsAlone() throws Exception {
        HttpResponse<String> begun = new Browser().get("/oauth2/authorization/registry", "X-Forwarded-Proto", "https");

        assertThat(begun.headers().firstValue("Set-Cookie").orElseThrow()).contains("; Secure");
        assertThat(location(begun)).contains("redirect_uri=https://localhost");
        assertThat(new Browser()
                        .get("/oauth2/authorization/registry")
                        .headers()
                        .firstValue("Set-Cookie")
                        .orElseThrow())
                .doesNotContain("Secure");
    }

    @Test
    void aSessionEndsWhenTheStewardEndsIt() throws Exception {
        TestCentre centre = network.centre();
        ISSUER.person(person(aSubject(), "submitter", centre.code()));
        Browser browser = new Browser();
        browser.signIn();
        String id = browser.page()[0].split(" ", 2)[0];

        network.steward().send("DELETE", "/api/keys/" + id, null);

        assertThat(browser.page()[0]).isEqualTo("nobody");
        assertThat(browser.signIn().statusCode()).as("nor does it begin again").isEqualTo(401);
    }

    @Test
    void aKeyThatIsSentInASessionDoesNotStayInIt() throws Exception {
        TestCentre centre = network.centre();
        ISSUER.person(person(aSubject(), "submitter", centre.code()));
        Browser browser = new Browser();
        browser.signIn();

        assertThat(browser.page("Authorization", "Bearer " + network.stewardKey())[0])
                .contains("STEWARD");
        assertThat(browser.page()[0]).contains("SUBMITTER");
    }

    @Test
    void doesNotSignInWhomTheIssuerGivesNoRoleOrADoubtfulToken() throws Exception {
        TestCentre centre = network.centre();
        UnaryOperator<JWTClaimsSet.Builder> good = person(aSubject(), "submitter", centre.code());
        for (UnaryOperator<JWTClaimsSet.Builder> person : List.<UnaryOperator<JWTClaimsSet.Builder>>of(
                person(aSubject(), null, null),
                person(aSubject(), "submitter", "no-such-lab"),
                claims -> good.apply(claims).claim("nonce", "another"),
                claims -> good.apply(claims).audience("another-service"),
                claims -> good.apply(claims).issuer("https://issuer.example"),
                claims -> good.apply(claims).issueTime(secondsFromNow(-420)).expirationTime(secondsFromNow(-120)))) {
            ISSUER.person(person);
            Browser browser = new Browser();

            assertThat(browser.signIn().statusCode()).isEqualTo(401);
            assertThat(browser.page()[0]).isEqualTo("nobody");
        }
    }

    @Test
    void doesNotFinishForABrowserThatDidNotBegin() throws Exception {
        TestCentre centre = network.centre();
        ISSUER.person(person(aSubject(), "submitter", centre.code()));
        Browser attacker = new Browser();
        String back = location(attacker.get(location(attacker.get("/oauth2/authorization/registry"))));
        Browser victim = new Browser();

        assertThat(victim.get(back).statusCode()).isEqualTo(401);
        assertThat(victim.page()[0]).isEqualTo("nobody");
    }

    @Test
    void offersNoPagesOfTheFramework() throws Exception {
        Browser browser = new Browser();

        for (String path : List.of("/login", "/oauth2/authorization/another")) {
            assertThat(browser.get(path).statusCode()).as(path).isEqualTo(404);
        }
        assertThat(browser.get("/logout").statusCode()).isEqualTo(401);
    }

    private static String location(HttpResponse<String> answer) {
        assertThat(answer.statusCode()).isEqualTo(302);
        return answer.headers().firstValue("Location").orElseThrow();
    }

    /** Keeps cookies, and follows a redirect only when it is told to. */
    private final class Browser {

        private final CookieManager cookies = new CookieManager();
        private final HttpClient http =
                HttpClient.newBuilder().cookieHandler(cookies).build();

        HttpResponse<String> get(String address, String... headers) throws Exception {
            return send(HttpRequest.newBuilder(absolute(address)).GET(), headers);
        }

        HttpResponse<String> post(String address, String form) throws Exception {
            return send(
                    HttpRequest.newBuilder(absolute(address)).POST(HttpRequest.BodyPublishers.ofString(form)),
                    "Content-Type",
                    "application/x-www-form-urlencoded");
        }

        private HttpResponse<String> send(HttpRequest.Builder request, String... headers) throws Exception {
            if (headers.length > 0) {
                request.headers(headers);
            }
            return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
        }

        private URI absolute(String address) {
            return URI.create(address.startsWith("/") ? "http://localhost:" + port + address : address);
        }

        /** To the issuer and back; the answer is the one that ends the journey. */
        HttpResponse<String> signIn() throws Exception {
            return get(location(get(location(get("/oauth2/authorization/registry")))));
        }

        /** Who sees the page, and the token to send from it. */
        String[] page(String... headers) throws Exception {
            HttpResponse<String> answer = get("/page-of-the-tests", headers);
            if (answer.statusCode() == 401) {
                return new String[] {"nobody", ""};
            }
            return answer.body().replaceAll("[\\[\\]\"]", "").split(",", -1);
        }

        HttpCookie session() {
            return cookies.getCookieStore().getCookies().get(0);
        }
    }
}
