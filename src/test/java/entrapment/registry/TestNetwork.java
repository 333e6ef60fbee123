package entrapment.registry;

import entrapment.registry.access.AccessKeys;
import entrapment.registry.access.Viewer;
import java.util.concurrent.atomic.AtomicInteger;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.test.context.TestConfiguration;
import org.springframework.core.env.Environment;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Makes centres and keys for tests that share one registry: each test works in centres of its own. */
@TestConfiguration(proxyBeanMethods = false)
public class TestNetwork {

    private static final AtomicInteger NEXT = new AtomicInteger();

    private final AccessKeys keys;
    private final Environment environment;
    private @Nullable String stewardKey;

    TestNetwork(AccessKeys keys, Environment environment) {
        this.keys = keys;
        this.environment = environment;
    }

    /** A centre that nobody has used, with a client for each of its roles. */
    public record TestCentre(String code, RegistryClient submitter, RegistryClient analyst) {

        public String cases() {
            return "/api/centres/" + code + "/cases";
        }

        public String activity(String period) {
            return "/api/centres/" + code + "/activity/" + period;
        }
    }

    /** The registry without a key. */
    public RegistryClient nobody() {
        return new RegistryClient(environment.getRequiredProperty("local.server.port", Integer.class), null);
    }

    public RegistryClient steward() {
        return nobody().with(stewardKey());
    }

    /** The same for all tests, none of which ends it; a key for each call would be a thousand of them. */
    public synchronized String stewardKey() {
        if (stewardKey == null) {
            Viewer steward = keys.steward().orElseThrow();
            stewardKey =
                    keys.issueSteward("test", AccessKeys.DEFAULT_DAYS, steward).key();
        }
        return stewardKey;
    }

    /** What is stored, as the owner of the database sees it, past row security. */
    public JdbcClient database() {
        return database(ownerOf("postgres"));
    }

    public JdbcClient database(DataSource source) {
        return JdbcClient.create(source);
    }

    /** Another database of the same server, as its owner. */
    public DataSource ownerOf(String database) {
        return TestDatabase.asOwner(database);
    }

    public TestCentre centre() {
        String code = "test-centre-" + NEXT.incrementAndGet();
        RegistryClient steward = steward();
        steward.put("/api/centres/" + code, "{\"name\": \"A centre of the tests\"}");
        return new TestCentre(code, key(steward, code, "submitter"), key(steward, code, "analyst"));
    }

    private RegistryClient key(RegistryClient steward, String centre, String role) {
        return nobody().with(steward.post(
                        "/api/centres/" + centre + "/keys", "{\"role\": \"%s\", \"label\": \"test\"}".formatted(role))
                .json()
                .required("key")
                .asString());
    }
}
