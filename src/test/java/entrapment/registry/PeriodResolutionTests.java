package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.cases.CaseSamples;
import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** A network whose privacy basis allows no more than the year, from its first case to its reports. */
class PeriodResolutionTests {

    private static final String CASES = "/api/centres/hill-lab/cases";
    private static final String ACTIVITY = "/api/centres/hill-lab/activity/";
    private static final String BURRS = "[{\"deviceClass\": \"rotational-burr\", \"uses\": 400}]";

    @TempDir
    private Path home;

    @Test
    void worksWithYearsThroughoutAndNeverMixesThemWithQuarters() throws IOException {
        try (ServiceProcess service = ServiceProcess.startUnpacked(home, "--registry.period-resolution=year")) {
            RegistryClient steward = service.steward();
            steward.put("/api/centres/hill-lab", "{\"name\": \"Hill laboratory\"}");
            takesYearsAlone(steward);
            reportsByYear(steward);
        }
        assertThatIllegalStateException()
                .isThrownBy(() -> ServiceProcess.start(home))
                .withMessageContaining(
                        "This registry holds years, but registry.period-resolution=quarter is set. A registry keeps one"
                                + " resolution: start it with registry.period-resolution=year");
    }

    private static void takesYearsAlone(RegistryClient steward) {
        JsonNode settings = steward.get("/api/settings").json();
        assertThat(settings.at("/periodResolution/value").asString()).isEqualTo("year");
        assertThat(settings.at("/periodResolution/meaning").asString()).contains("years", "164.514(b)(2)(i)(C)");

        Answer quarter = steward.put(CASES + "/year-case-x", CaseSamples.aCase().json());
        assertThat(quarter.status()).isEqualTo(422);
        assertThat(quarter.json().at("/errors/0/detail").asString())
                .isEqualTo("period must be a year, YYYY: the periods of this network are years");
        assertThat(steward.put(ACTIVITY + "2025-Q2", BURRS).status()).isEqualTo(422);
        assertThat(steward.put(ACTIVITY + "2023", BURRS).status()).isEqualTo(201);
        assertThat(steward.put(ACTIVITY + "2025", BURRS).status()).isEqualTo(201);
        for (String key : new String[] {"year-case-a", "year-case-b"}) {
            Answer stored = steward.put(
                    CASES + "/" + key,
                    CaseSamples.aCase().with("/period", "2025").json());
            assertThat(stored.status()).isEqualTo(201);
            assertThat(stored.json().required("period").asString()).isEqualTo("2025");
        }
        assertThat(steward.get(CASES + "?period=2025").json().required("total").intValue())
                .isEqualTo(2);
        assertThat(steward.get(CASES + "?period=2025-Q2").status()).isEqualTo(422);
        assertThat(steward.get(ACTIVITY + "2025").json().at("/stored/period").asString())
                .isEqualTo("2025");
        assertThat(steward.get(ACTIVITY + "2025-Q1").status()).isEqualTo(404);
    }

    private static void reportsByYear(RegistryClient steward) {
        JsonNode incidence = steward.get("/api/reports/incidence?by=period&from=2024&to=2025")
                .json();
        assertThat(incidence.required("groups")).hasSize(1);
        assertThat(incidence.at("/groups/0/level/period").asString()).isEqualTo("2025");
        assertThat(incidence.at("/groups/0/events").intValue()).isEqualTo(2);
        assertThat(incidence.at("/groups/0/uses").intValue()).isEqualTo(400);
        Answer mixed = steward.get("/api/reports/over-time?from=2024-Q1&to=2025&baselineFrom=2023-Q1");
        assertThat(mixed.status()).isEqualTo(422);
        assertThat(mixed.json().at("/errors/0/detail").asString())
                .isEqualTo("baselineFrom must be a year, YYYY: the periods of this network are years");
        JsonNode overTime = steward.get("/api/reports/over-time?baseline=0.005").json();
        assertThat(overTime.at("/groups/0/level/period").asString()).isEqualTo("2023");
        assertThat(overTime.at("/groups/1/level/period").asString()).isEqualTo("2025");
        JsonNode completeness = steward.get("/api/reports/completeness").json();
        assertThat(completeness.at("/missingPeriods").toString())
                .isEqualTo("{\"periods\":1,\"named\":[{\"centre\":\"hill-lab\",\"period\":\"2024\"}]}");
        assertThat(steward.get("/api/reports/planning")
                        .json()
                        .at("/groups/0/usesPerYear")
                        .doubleValue())
                .as("800 uses in the two years that reported")
                .isEqualTo(400);
    }
}
