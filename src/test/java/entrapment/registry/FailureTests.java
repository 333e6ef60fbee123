package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.system.CapturedOutput;
import org.springframework.boot.test.system.OutputCaptureExtension;

/** Bad input of every kind: a clear problem, never a failure, and nothing of it in an answer or the log. */
@RegistryTest
@ExtendWith(OutputCaptureExtension.class)
class FailureTests {

    private static final String CANARY = "Zanzibar-Canary";

    @Autowired
    private TestNetwork network;

    @Test
    void repeatsNothingThatItRefused(CapturedOutput output) {
        TestCentre centre = network.centre();
        String path = centre.cases() + "/canary-a1";
        List<Answer> answers = List.of(
                centre.submitter().put(path, "{\"" + CANARY + "\": 1"),
                centre.submitter().put(path, "{\"" + CANARY + "\": 1}"),
                centre.submitter().put(path, "\"" + CANARY + "\""),
                centre.submitter()
                        .put(
                                path,
                                CaseSamples.aCase()
                                        .with("/lesion/vessel", CANARY)
                                        .json()),
                centre.submitter()
                        .put(
                                path,
                                CaseSamples.aCase()
                                        .with("/procedureKey", CANARY + "@x")
                                        .json()),
                centre.submitter()
                        .put(
                                path,
                                CaseSamples.aCase()
                                        .with("/device/deviceIdentifier", CANARY)
                                        .json()),
                centre.submitter()
                        .put(
                                centre.cases() + "/" + CANARY + "-1950-01-01",
                                CaseSamples.aCase().json()),
                centre.submitter().put(path, CaseSamples.aCase().json(), "If-Match", CANARY),
                centre.submitter().post(centre.cases(), "application/x-ndjson", "{\"caseKey\": \"" + CANARY + "\n"),
                centre.submitter().post(centre.cases(), "text/csv", "caseKey," + CANARY + "\nx,y\n"),
                centre.submitter().post(centre.cases(), "text/csv", "caseKey,period\n\"" + CANARY),
                centre.submitter().post(centre.cases() + "?accept=" + CANARY, "text/csv", "caseKey\n"),
                centre.submitter().put(centre.activity(CANARY), "[]"),
                centre.submitter().put(centre.activity("2026-Q1"), "[{\"deviceClass\": \"" + CANARY + "\"}]"),
                centre.submitter().get("/api/reports/incidence?by=" + CANARY),
                centre.submitter().get("/api/reports/incidence?" + CANARY + "=1"),
                centre.submitter().get("/api/reports/incidence?centre=" + CANARY),
                centre.submitter().get("/api/" + CANARY),
                centre.submitter().post("/api/calculations/proportion", "{\"events\": \"" + CANARY + "\"}"),
                network.steward().put("/api/centres/some-lab", "{\"name\": \"" + CANARY + " 1950-01-01\"}"),
                network.nobody().with(CANARY).get(path));

        assertThat(answers).allSatisfy(answer -> {
            assertThat(answer.status()).isBetween(400, 499);
            assertThat(answer.header("Content-Type")).startsWith("application/problem+json");
            assertThat(answer.body()).doesNotContain(CANARY);
        });
        assertThat(output.getAll()).doesNotContain(CANARY);
    }

    @Test
    void answersEveryMistakeInTheRequestLineAsAProblem() {
        TestCentre centre = network.centre();

        assertThat(centre.submitter().send("PATCH", centre.cases(), "{}").status())
                .isEqualTo(405);
        assertThat(centre.submitter()
                        .get("/api/reports/incidence", "Accept", "image/png")
                        .status())
                .isEqualTo(406);
        assertThat(centre.submitter()
                        .put(centre.cases() + "/large-a1", "{\"x\": \"" + "y".repeat(70_000) + "\"}")
                        .status())
                .isIn(400, 413);
        assertThat(centre.submitter().get("/api/reports/incidence?confidence=2").status())
                .isEqualTo(422);
        assertThat(centre.submitter()
                        .get("/api/reports/incidence?from=2026-Q2&to=2025-Q1")
                        .status())
                .isEqualTo(422);
        assertThat(centre.submitter().get(centre.cases() + "/%ff%fe").status()).isBetween(400, 499);
    }

    @Test
    void writesNothingWhoseAnswerNobodyCouldRead() {
        TestCentre centre = network.centre();
        String path = centre.cases() + "/unread-a1";

        Answer refused = centre.submitter().put(path, CaseSamples.aCase().json(), "Accept", "image/png");

        assertThat(refused.status()).isEqualTo(406);
        assertThat(centre.submitter().get(path).status()).isEqualTo(404);
    }

    @Test
    void answersWhatTheFirewallTurnsAwayAsAProblemWithoutThePath() {
        TestCentre centre = network.centre();

        for (Answer answer : List.of(
                centre.submitter().get(centre.cases() + "/" + CANARY + ";x=1"),
                centre.submitter().send("TRACE", centre.cases() + "/" + CANARY, null),
                centre.submitter().get(centre.cases() + "/..%2f" + CANARY))) {
            assertThat(answer.status()).isBetween(400, 499);
            assertThat(answer.body()).doesNotContain(CANARY);
        }
    }

    @Test
    void choosesBetweenJsonAndCsvByTheWeightsOfAccept() {
        TestCentre centre = network.centre();

        assertThat(centre.submitter()
                        .get("/api/reports/incidence", "Accept", "text/csv;q=0.5, application/json")
                        .header("Content-Type"))
                .startsWith("application/json");
        assertThat(centre.submitter()
                        .get("/api/reports/incidence", "Accept", "text/csv, */*;q=0.1")
                        .header("Content-Type"))
                .startsWith("text/csv");
    }

    @Test
    void anAcceptHeaderThatCannotBeReadIsNotAcceptable() {
        Answer answer = network.nobody().get("/actuator/health/no-such-group", "Accept", ",,,");

        assertThat(answer.status()).isEqualTo(406);
        assertThat(answer.json().required("type").asString()).isEqualTo("/problems/not-acceptable");
    }
}
