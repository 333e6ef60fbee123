package entrapment.registry.cases;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RegistryTest
class CaseApiTests {

    @Autowired
    private TestNetwork network;

    @Test
    void makesOneVersionOfTheSameCaseSentTwice() {
        TestCentre centre = network.centre();
        String path = centre.cases() + "/QK7-A4TZ";

        Answer first = centre.submitter().put(path, CaseSamples.aCase().json());
        Answer second = centre.submitter().put(path, CaseSamples.aCase().json());

        assertThat(first.status()).isEqualTo(201);
        assertThat(first.header("ETag")).isEqualTo("\"1\"");
        assertThat(second.status()).isEqualTo(200);
        assertThat(second.json()).isEqualTo(first.json());
        assertThat(centre.submitter().get(path + "/versions").json()).hasSize(1);
    }
}
