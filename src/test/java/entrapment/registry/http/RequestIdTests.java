package entrapment.registry.http;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.system.CapturedOutput;
import org.springframework.boot.test.system.OutputCaptureExtension;

@RegistryTest
@ExtendWith(OutputCaptureExtension.class)
class RequestIdTests {

    private static final String OWN = "0e0e0e0e-1111-4222-8333-zanzibarzanz";

    @Autowired
    private TestNetwork network;

    @Test
    void standsInTheAnswerTheProblemAndTheLogLine(CapturedOutput output) {
        TestCentre centre = network.centre();

        for (Answer problem : List.of(
                centre.submitter().put(centre.cases() + "/number-a1", "{"),
                centre.submitter().get("/api/reports/incidence", "Accept", "image/png"),
                network.nobody().get("/api/centres"),
                centre.submitter().get(centre.cases() + "/odd;x=1"),
                centre.submitter().get("/api/nothing-here"))) {
            String id = problem.header(RequestId.HEADER);

            assertThat(UUID.fromString(id)).hasToString(id);
            assertThat(problem.json().required("instance").asString()).isEqualTo("urn:uuid:" + id);
            assertThat(output).contains("[" + id + "]");
        }
    }

    @Test
    void isAnotherForEveryAnswer() {
        TestCentre centre = network.centre();

        assertThat(centre.submitter().get(centre.cases()).header(RequestId.HEADER))
                .matches("[0-9a-f-]{36}")
                .isNotEqualTo(centre.submitter().get(centre.cases()).header(RequestId.HEADER));
    }

    @Test
    void isNeverTheCallersOwn(CapturedOutput output) {
        Answer refused = network.nobody().get("/api/centres", RequestId.HEADER, OWN);

        assertThat(refused.response().headers().allValues(RequestId.HEADER))
                .hasSize(1)
                .doesNotContain(OWN);
        assertThat(refused.body()).doesNotContain(OWN);
        assertThat(output).doesNotContain(OWN);
    }
}
