package entrapment.registry.activity;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RegistryTest
class ReturnLimitsTests {

    @Autowired
    private TestNetwork network;

    @Test
    void refusesAPatternWhoseRowsAddUpToMoreThanOneRowMayHold() {
        TestCentre centre = network.centre();

        Answer answer = centre.submitter().put(centre.activity("2026-Q1"), """
                        [{"deviceClass": "balloon", "uses": 10000000}, {"deviceClass": "balloon", "uses": 1}]""");

        assertThat(answer.status()).isEqualTo(422);
    }

    @Test
    void noReturnOfOneCentreBreaksTheReportsOfAnother() {
        TestCentre centre = network.centre();
        TestCentre other = network.centre();
        StringBuilder rows = new StringBuilder("deviceClass,deviceSizeMm,uses\n");
        for (int size = 20; size < 320; size++) {
            rows.append("other,").append(BigDecimal.valueOf(size, 2)).append(",10000000\n");
        }

        centre.submitter().send("PUT", centre.activity("2026-Q2"), rows.toString(), "Content-Type", "text/csv");
        centre.submitter()
                .put(
                        centre.cases() + "/QK7-A4TZ",
                        CaseSamples.aCase().with("/device/deviceClass", "other").json());

        assertThat(other.analyst().get("/api/reports/incidence").status()).isEqualTo(200);
    }
}
