package entrapment.registry.cases;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.JsonNode;

@RegistryTest
class CaseApiTests {

    private static final String KEY = "QK7-A4TZ";

    @Autowired
    private TestNetwork network;

    private TestCentre centre;
    private String path;

    @BeforeEach
    void takeACentreOfItsOwn() {
        centre = network.centre();
        path = centre.cases() + "/" + KEY;
    }

    @Test
    void makesOneVersionOfTheSameCaseSentTwice() {
        Answer first = centre.submitter().put(path, CaseSamples.aCase().json());
        Answer second = centre.submitter().put(path, CaseSamples.aCase().json());

        assertThat(first.status()).isEqualTo(201);
        assertThat(first.header("ETag")).isEqualTo("\"1\"");
        assertThat(second.status()).isEqualTo(200);
        assertThat(second.json()).isEqualTo(first.json());
        assertThat(centre.submitter().get(path + "/versions").json()).hasSize(1);
    }

    /** By it a case that is sent again is known; another one would make a second version of every case ever stored. */
    @Test
    void knowsTheSameContentByTheSameFingerprintForEver() {
        centre.submitter().put(path, CaseSamples.aCase().json());

        assertThat(network.database()
                        .sql("select content_hash from case_version where centre = :centre")
                        .param("centre", centre.code())
                        .query(String.class)
                        .single())
                .isEqualTo("d988542d5f07b8f33a23b256f28096d68ffa3f9425afcaca86e6e118e3b2987f");
    }

    @Test
    void answersEveryFieldOfTheCaseAsItWasSent() {
        JsonNode sent =
                CaseSamples.aCase().change(tree -> tree.putNull("procedureKey")).tree();

        JsonNode stored = centre.submitter().put(path, sent.toString()).json();

        sent.propertyStream()
                .filter(field -> !field.getKey().equals("attempts"))
                .forEach(field -> assertThat(stored.get(field.getKey()).toString())
                        .as(field.getKey())
                        .contains(field.getValue()
                                .toString()
                                .replaceAll("^\\{|\\}$", "")
                                .split(",", -1)[0]));
        assertThat(stored.at("/device/deviceSizeMm").decimalValue()).isEqualByComparingTo("1.25");
        assertThat(stored.at("/attempts/1/enablers").toString()).isEqualTo("[\"shaft-cut\",\"sheath-removed\"]");
        assertThat(stored.at("/attempts/1/minutesFromEntrapment").intValue()).isEqualTo(21);
        assertThat(centre.submitter().get(path).json()).isEqualTo(stored);
    }

    @Test
    void changesAStoredCaseOnlyForTheVersionThatIsNamed() {
        centre.submitter().put(path, CaseSamples.aCase().json());
        String corrected = CaseSamples.aCase().with("/outcome/harm", "moderate").json();

        assertThat(centre.submitter().put(path, corrected).status()).isEqualTo(428);
        Answer changed = centre.submitter().put(path, corrected, "If-Match", "\"1\"");
        Answer stale = centre.submitter().put(path, CaseSamples.aCase().json(), "If-Match", "\"1\"");

        assertThat(changed.status()).isEqualTo(200);
        assertThat(changed.header("ETag")).isEqualTo("\"2\"");
        assertThat(stale.status()).isEqualTo(412);
        assertThat(stale.json().required("type").asString()).isEqualTo("/problems/stale");
        assertThat(centre.submitter().get(path).json().at("/outcome/harm").asString())
                .isEqualTo("moderate");
        assertThat(centre.submitter().get(path + "/versions").json()).hasSize(2);
    }

    @Test
    void tellsEverythingThatIsWrongAtOnceAndStoresNothing() {
        String wrong = CaseSamples.aCase()
                .with("/lesion/calcification", "very hard")
                .with("/outcome/harm", "death")
                .with("/device/deviceSizeMm", 5.0)
                .change(tree -> tree.put("patientName", "Canary Marker"))
                .json();

        Answer refused = centre.submitter().put(path, wrong);

        assertThat(refused.status()).isEqualTo(422);
        assertThat(refused.header("Content-Type")).startsWith("application/problem+json");
        assertThat(refused.json().required("errors").valueStream())
                .extracting(error -> error.required("pointer").asString() + " "
                        + error.required("code").asString())
                .containsExactlyInAnyOrder(
                        "/lesion/calcification not-a-code",
                        "/outcome/harm death-is-in-hospital-death",
                        "/device/deviceSizeMm size-for-class",
                        "/patientName unknown-field");
        assertThat(refused.body()).doesNotContain("Canary", "very hard");
        assertThat(centre.submitter().get(path).status()).isEqualTo(404);
    }

    @Test
    void refusesAKeyThatMayIdentifyWithoutRepeatingIt() {
        Answer refused = centre.submitter()
                .put(centre.cases() + "/1950-03-12-AB", CaseSamples.aCase().json());

        assertThat(refused.status()).isEqualTo(422);
        assertThat(refused.json().at("/errors/0/code").asString()).isEqualTo("key-identifying");
        assertThat(refused.body()).doesNotContain("1950");
    }

    @Test
    void asksToLookAgainWithoutRefusing() {
        Answer stored = centre.submitter()
                .put(path, CaseSamples.aCase().with("/event/shockStage", "D").json());

        assertThat(stored.status()).isEqualTo(201);
        assertThat(stored.json().at("/queries/0/rule").asString()).isEqualTo("stable-with-shock");
        assertThat(stored.json().at("/queries/0/pointer").asString()).isEqualTo("/event/shockStage");
    }

    @Test
    void pointsAtTheRulesOnIncidentsWithoutJudging() {
        Answer stored = centre.submitter()
                .put(path, CaseSamples.aCase().with("/event/fractured", "yes").json());
        JsonNode read = centre.submitter().get(path).json();

        assertThat(stored.status()).isEqualTo(201);
        assertThat(stored.json().at("/notes/0").asString())
                .startsWith(
                        "For a case such as this (the device or wire broke apart) local device-incident rules may require");
        assertThat(read.required("notes")).hasSize(1).isEqualTo(stored.json().required("notes"));
        JsonNode unremarkable = centre.submitter()
                .put(centre.cases() + "/QK7-OTHER", CaseSamples.aCase().json())
                .json();
        assertThat(unremarkable.required("notes")).isEmpty();
    }

    @Test
    void answers400ToWhatIsNotJson() {
        Answer broken = centre.submitter().put(path, "{\"period\": \"2026-Q2\", \"name\": \"Canary");

        assertThat(broken.status()).isEqualTo(400);
        assertThat(broken.body()).doesNotContain("Canary");
    }

    @Test
    void keepsWhatWasWithdrawnInItsHistory() {
        centre.submitter().put(path, CaseSamples.aCase().json());
        String reason = "{\"reason\": \"duplicate\"}";

        assertThat(centre.submitter().delete(path, reason).status()).isEqualTo(428);
        Answer withdrawn = centre.submitter().delete(path, reason, "If-Match", "\"1\"");

        assertThat(withdrawn.status()).isEqualTo(200);
        assertThat(withdrawn.json().required("withdrawn").asString()).isEqualTo("duplicate");
        assertThat(centre.submitter().get(path).status()).isEqualTo(404);
        JsonNode versions = centre.submitter().get(path + "/versions").json();
        assertThat(versions).hasSize(2);
        assertThat(versions.at("/1/attempts")).hasSize(2);
        assertThat(centre.submitter().delete(path, reason, "If-Match", "\"2\"").status())
                .isEqualTo(404);
    }

    @Test
    void bringsBackAWithdrawnCaseOnlyOnPurposeAndNeverAgainstConsent() {
        centre.submitter().put(path, CaseSamples.aCase().json());
        centre.submitter().delete(path, "{\"reason\": \"entered-in-error\"}", "If-Match", "\"1\"");

        assertThat(centre.submitter().put(path, CaseSamples.aCase().json()).status())
                .isEqualTo(428);
        assertThat(centre.submitter()
                        .put(path, CaseSamples.aCase().json(), "If-Match", "\"2\"")
                        .status())
                .isEqualTo(200);
        centre.submitter().delete(path, "{\"reason\": \"consent-withdrawn\"}", "If-Match", "\"3\"");
        assertThat(centre.submitter()
                        .put(path, CaseSamples.aCase().json(), "If-Match", "\"4\"")
                        .status())
                .isEqualTo(422);
    }

    @Test
    void listsACentresCasesByPageFilterAndRevision() {
        for (String key : List.of("first-lad", "second-rca", "third-rca")) {
            centre.submitter()
                    .put(
                            centre.cases() + "/" + key,
                            CaseSamples.aCase()
                                    .with("/lesion/vessel", key.substring(key.length() - 3))
                                    .json());
        }
        long cut = centre.submitter()
                .get(centre.cases() + "?size=1")
                .json()
                .at("/dataCut/revision")
                .longValue();
        centre.submitter().put(path, CaseSamples.aCase().json());

        JsonNode page = centre.submitter().get(centre.cases() + "?size=2").json();
        assertThat(page.required("total").intValue()).isEqualTo(4);
        assertThat(page.required("cases")).hasSize(2);
        assertThat(centre.submitter()
                        .get(centre.cases() + "?vessel=rca&deviceSizeMm=1.25&asOf=" + cut)
                        .json()
                        .required("total")
                        .intValue())
                .isEqualTo(2);
        assertThat(centre.submitter()
                        .get(centre.cases() + "?vessel=elbow&colour=red")
                        .status())
                .isEqualTo(422);
    }

    @Test
    void showsNobodyAnotherCentresCase() {
        centre.submitter().put(path, CaseSamples.aCase().json());
        TestCentre other = network.centre();

        for (Answer answer : List.of(
                other.submitter().get(path),
                other.analyst().get(path),
                other.submitter().get(path + "/versions"),
                other.submitter().get(centre.cases()),
                other.submitter().put(path, CaseSamples.aCase().json()),
                other.submitter().delete(path, "{\"reason\": \"duplicate\"}", "If-Match", "*"),
                other.submitter()
                        .post(
                                centre.cases(),
                                "application/x-ndjson",
                                CaseSamples.aCase().line("KEY-A1")),
                other.submitter().put(centre.activity("2026-Q1"), "[]"),
                other.submitter().get("/api/centres/no-such-centre/cases/" + KEY))) {
            assertThat(answer.status()).isEqualTo(404);
            assertThat(answer.header("Content-Type")).startsWith("application/problem+json");
        }
        assertThat(network.steward().get(path).status()).isEqualTo(200);
    }

    @Test
    void letsAnAnalystReadAndNotSend() {
        centre.submitter().put(path, CaseSamples.aCase().json());

        assertThat(centre.analyst().get(path).status()).isEqualTo(200);
        assertThat(centre.analyst().put(path, CaseSamples.aCase().json()).status())
                .isEqualTo(403);
    }

    @Test
    void answers401WithoutAGoodKey() {
        for (String key : new String[] {null, "", "wrong"}) {
            Answer answer = network.nobody().with(key).get(path);

            assertThat(answer.status()).isEqualTo(401);
            assertThat(answer.header("Content-Type")).startsWith("application/problem+json");
            assertThat(answer.header("WWW-Authenticate")).isEqualTo("Bearer");
        }
    }
}
