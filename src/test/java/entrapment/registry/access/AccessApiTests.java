package entrapment.registry.access;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient;
import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.JsonNode;

@RegistryTest
class AccessApiTests {

    @Autowired
    private TestNetwork network;

    @Test
    void onlyTheStewardTakesInCentresAndMakesKeys() {
        TestCentre centre = network.centre();

        for (RegistryClient client : List.of(centre.submitter(), centre.analyst())) {
            assertThat(client.put("/api/centres/new-lab", "{\"name\": \"New laboratory\"}")
                            .status())
                    .isEqualTo(403);
            assertThat(client.post(
                                    "/api/centres/" + centre.code() + "/keys",
                                    "{\"role\": \"analyst\", \"label\": \"mine\"}")
                            .status())
                    .isEqualTo(403);
            assertThat(client.get("/api/keys").status()).isEqualTo(403);
            assertThat(client.get("/api/centres").json().valueStream())
                    .extracting(seen -> seen.required("code").asString())
                    .containsExactly(centre.code());
        }
    }

    @Test
    void aCentreIsRenamedByPuttingItAgain() {
        RegistryClient steward = network.steward();

        assertThat(steward.put("/api/centres/river-lab", "{\"name\": \"River laboratory\"}")
                        .status())
                .isEqualTo(201);
        assertThat(steward.put("/api/centres/river-lab", "{\"name\": \"River hall\"}")
                        .status())
                .isEqualTo(200);
        assertThat(steward.get("/api/centres").body()).contains("River hall").doesNotContain("River laboratory");
        assertThat(steward.put("/api/centres/River_Lab", "{\"name\": \"x\"}")
                        .json()
                        .at("/errors/0/code")
                        .asString())
                .isEqualTo("centre-format");
    }

    @Test
    void aRevokedKeyIsNoKey() {
        TestCentre centre = network.centre();
        RegistryClient steward = network.steward();
        JsonNode issued = steward.post(
                        "/api/centres/" + centre.code() + "/keys",
                        "{\"role\": \"submitter\", \"label\": \"night shift\"}")
                .json();
        RegistryClient holder = network.nobody().with(issued.required("key").asString());

        assertThat(holder.get(centre.cases()).status()).isEqualTo(200);
        assertThat(steward.send("DELETE", "/api/keys/" + issued.required("id").asString(), null)
                        .status())
                .isEqualTo(204);
        assertThat(holder.get(centre.cases()).status()).isEqualTo(401);
    }

    @Test
    void aKeyThatWasReplacedIsGoodForTheOverlapAndNoLonger() {
        TestCentre centre = network.centre();
        RegistryClient steward = network.steward();
        JsonNode old = steward.post(
                        "/api/centres/" + centre.code() + "/keys",
                        "{\"role\": \"submitter\", \"label\": \"nightly export\", \"validDays\": 30}")
                .json();
        String rotation = "/api/keys/" + old.required("id").asString() + "/rotation";

        JsonNode replaced = steward.post(rotation, "{\"overlapDays\": 3}").json();

        for (JsonNode issued : List.of(old, replaced)) {
            assertThat(network.nobody()
                            .with(issued.required("key").asString())
                            .get(centre.cases())
                            .status())
                    .isEqualTo(200);
        }
        JsonNode known = steward.get("/api/keys")
                .json()
                .valueStream()
                .filter(key -> key.required("id").equals(old.required("id")))
                .findFirst()
                .orElseThrow();
        assertThat(Duration.between(
                        Instant.now(), Instant.parse(known.required("expiresAt").asString())))
                .isBetween(Duration.ofDays(2), Duration.ofDays(3));
        assertThat(known.required("lastUsedAt").asString()).endsWith(":00:00Z");
        assertThat(replaced.required("role").asString()).isEqualTo("submitter");
        network.database()
                .sql("update access_key set expires_at = now() where id = :id")
                .param("id", old.required("id").asString())
                .update();
        assertThat(network.nobody()
                        .with(old.required("key").asString())
                        .get(centre.cases())
                        .status())
                .isEqualTo(401);
        assertThat(steward.post(rotation, "{}").status()).isEqualTo(404);
    }

    @Test
    void keepsNoKeyThatCouldBeUsed() {
        TestCentre centre = network.centre();
        String key = network.steward()
                .post("/api/centres/" + centre.code() + "/keys", "{\"role\": \"analyst\", \"label\": \"reader\"}")
                .json()
                .required("key")
                .asString();

        assertThat(network.database()
                        .sql("select to_jsonb(k)::text from access_key k")
                        .query(String.class)
                        .list())
                .isNotEmpty()
                .noneMatch(row -> row.contains(key));
        assertThat(network.steward().get("/api/keys").body()).doesNotContain(key);
    }

    @Test
    void withoutSingleSignOnATokenIsABadKeyAndNobodyCanSignIn() {
        String token = "eyJhbGciOiJub25lIn0.eyJyZWdpc3RyeV9yb2xlIjoic3Rld2FyZCJ9.";

        assertThat(network.nobody().with(token).get("/api/keys").status()).isEqualTo(401);
        assertThat(network.nobody().with(token + "c2lnbmVk").get("/api/keys").status())
                .isEqualTo(401);
        for (String path : List.of("/oauth2/authorization/registry", "/login/oauth2/code/registry", "/login")) {
            assertThat(network.nobody().get(path).status()).as(path).isEqualTo(404);
        }
    }

    @Test
    void aCentresKeyHasOneOfTwoRoles() {
        TestCentre centre = network.centre();

        Answer refused = network.steward()
                .post("/api/centres/" + centre.code() + "/keys", "{\"role\": \"steward\", \"label\": \"too much\"}");

        assertThat(refused.status()).isEqualTo(422);
        assertThat(refused.json().at("/errors/0/pointer").asString()).isEqualTo("/role");
    }

    @Test
    void masksOtherCentresInTheAnalystsNetworkFigures() {
        TestCentre own = network.centre();
        TestCentre other = network.centre();
        for (TestCentre centre : List.of(own, other)) {
            centre.submitter()
                    .put(centre.cases() + "/mask-case-a", CaseSamples.aCase().json());
            centre.submitter()
                    .put(centre.activity("2026-Q2"), "[{\"deviceClass\": \"rotational-burr\", \"uses\": 100}]");
        }

        Answer answer = own.analyst().get("/api/reports/incidence?by=centre");

        assertThat(answer.body()).contains(own.code()).doesNotContain(other.code());
        assertThat(answer.json().required("groups").valueStream())
                .extracting(group -> group.at("/level/centre").asString())
                .containsExactlyInAnyOrder(own.code(), "other-centres");
        assertThat(own.analyst()
                        .get("/api/reports/incidence?centre=" + other.code())
                        .status())
                .isEqualTo(404);
    }

    @Test
    void aSubmittersReportIsAboutTheOwnCentreAlone() {
        TestCentre own = network.centre();
        own.submitter().put(own.activity("2026-Q2"), "[{\"deviceClass\": \"balloon\", \"uses\": 7}]");

        JsonNode report = own.submitter().get("/api/reports/incidence").json();

        assertThat(report.at("/groups/0/uses").intValue()).isEqualTo(7);
        assertThat(report.at("/filters/centre/0").asString()).isEqualTo(own.code());
    }

    @Test
    void tellsWithoutAKeyOnlyThatItIsUpAndWhatAProblemMeans() {
        RegistryClient nobody = network.nobody();

        assertThat(nobody.get("/actuator/health").json().required("status").asString())
                .isEqualTo("UP");
        assertThat(nobody.get("/problems/stale").body()).startsWith("412");
        for (String path : List.of("/api/vocabulary", "/api/centres", "/api/reports/incidence", "/api/nothing-here")) {
            assertThat(nobody.get(path).status()).as(path).isEqualTo(401);
        }
    }
}
