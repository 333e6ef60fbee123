package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RegistryTest
class MetricsTests {

    private static final String MARK = "Zanzibar-Canary";

    @Autowired
    private TestNetwork network;

    @Test
    void areTheStewardsAlone() {
        TestCentre centre = network.centre();

        assertThat(network.nobody().get("/actuator/prometheus").status()).isEqualTo(401);
        assertThat(centre.submitter().get("/actuator/prometheus").status()).isEqualTo(403);
        assertThat(centre.analyst()
                        .get("/actuator/prometheus")
                        .json()
                        .required("type")
                        .asString())
                .isEqualTo("/problems/not-your-role");
        assertThat(network.steward().get("/actuator/prometheus").body())
                .contains("hikaricp_connections_active", "jvm_memory_used_bytes");
    }

    @Test
    void countByThePatternOfAPathAndHoldNothingThatWasSent() {
        TestCentre centre = network.centre();
        String key = network.stewardKey();
        RegistryClient steward = network.nobody().with(key);
        String path = centre.cases() + "/" + MARK;
        for (Answer answer : List.of(
                centre.submitter().put(path + "-a1", CaseSamples.aCase().json()),
                centre.submitter().get(path + "?" + MARK + "=" + MARK, MARK, MARK),
                steward.get("/" + MARK),
                steward.get("/api/" + MARK),
                steward.get("/problems/" + MARK),
                steward.get("/actuator/" + MARK),
                steward.get("/actuator/health/" + MARK),
                steward.get(path + ";" + MARK),
                steward.get(path + "%2f.."),
                steward.send(MARK, path, null),
                steward.post("/api/calculations/" + MARK, "{}"),
                steward.post(path, MARK + "/" + MARK, MARK),
                network.nobody().with(MARK).get("/api/centres"))) {
            assertThat(answer.status()).isNotEqualTo(500);
        }

        assertThat(steward.get("/actuator/prometheus").body())
                .contains("uri=\"/api/centres/{centre}/cases/{caseKey}\"")
                .doesNotContain(MARK, MARK.toUpperCase(Locale.ROOT), centre.code(), key);
    }

    @Test
    void healthSaysNoMoreThanWhetherItIsWell() {
        for (String path : List.of("/actuator/health/liveness", "/actuator/health/readiness")) {
            assertThat(network.nobody().get(path).body()).isEqualTo("{\"status\":\"UP\"}");
        }
        assertThat(network.nobody().get("/actuator/health/readiness/db").status())
                .isEqualTo(404);
        for (String other :
                List.of("", "env", "beans", "heapdump", "loggers", "metrics", "threaddump", "info", "sbom")) {
            assertThat(network.steward().get("/actuator/" + other).status()).isEqualTo(404);
        }
    }
}
