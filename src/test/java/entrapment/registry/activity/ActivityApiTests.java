package entrapment.registry.activity;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.JsonNode;

@RegistryTest
class ActivityApiTests {

    private static final String HEADER =
            "deviceClass,deviceSizeMm,vessel,calcification,tortuosity,totalOcclusion,stentLayers,guideFrench,operatorStage,uses";

    @Autowired
    private TestNetwork network;

    private TestCentre centre;
    private String path;

    @BeforeEach
    void takeACentreOfItsOwn() {
        centre = network.centre();
        path = centre.activity("2026-Q2");
    }

    private Answer putCsv(String rows) {
        return centre.submitter().send("PUT", path, HEADER + "\r\n" + rows, "Content-Type", "text/csv");
    }

    @Test
    void addsUpRowsOfOnePatternAndReadsEmptyCellsAsUnknown() {
        Answer stored = putCsv("rotational-burr,1.25,lad,severe,moderate,no,0,6,established,14\r\n"
                + "rotational-burr,1.250,lad,severe,moderate,no,0,6,established,6\r\n"
                + "balloon,,,,,,,,,903\r\n");

        assertThat(stored.status()).isEqualTo(201);
        assertThat(stored.json().required("patterns").intValue()).isEqualTo(2);
        assertThat(stored.json().required("uses").intValue()).isEqualTo(923);
        JsonNode rows = centre.submitter().get(path).json().required("rows");
        assertThat(rows.at("/0/vessel").asString()).isEqualTo("unknown");
        assertThat(rows.at("/1/uses").intValue()).isEqualTo(20);
    }

    @Test
    void changesNothingWhenTheSameReturnComesAgainInAnyOrderOrForm() {
        long first = putCsv("balloon,,,,,,,,,903\r\nstent,,,,,,,,,410\r\n")
                .json()
                .required("revision")
                .longValue();
        Answer csv = putCsv("stent,,,,,,,,,410\r\nballoon,,,,,,,,,900\r\nballoon,,,,,,,,,3\r\n");
        Answer json = centre.submitter()
                .put(
                        path,
                        "{\"rows\": [{\"deviceClass\": \"stent\", \"uses\": 410}, {\"deviceClass\": \"balloon\", \"uses\": 903}]}");

        for (Answer again : new Answer[] {csv, json}) {
            assertThat(again.status()).isEqualTo(200);
            assertThat(again.json().required("version").intValue()).isEqualTo(1);
            assertThat(again.json().required("revision").longValue()).isEqualTo(first);
        }
    }

    @Test
    void replacesTheWholeReturnOfAQuarter() {
        putCsv("balloon,,,,,,,,,903\r\n");
        Answer replaced = putCsv("stent,,,,,,,,,410\r\n");

        assertThat(replaced.json().required("version").intValue()).isEqualTo(2);
        assertThat(centre.submitter().get(path).json().required("rows")).hasSize(1);
        JsonNode groups = centre.analyst()
                .get("/api/reports/incidence?by=deviceClass&centre=" + centre.code())
                .json()
                .required("groups");
        assertThat(groups).hasSize(1);
        assertThat(groups.at("/0/uses").intValue()).isEqualTo(410);
    }

    @Test
    void storesNothingOfAReturnWithAWrongRowAndNamesItsLine() {
        Answer refused =
                putCsv("balloon,,,,,,,,,903\r\nballon,,,,,,,,,1\r\nstent,0.2,,,,,,,,2\r\nstent,,,,,,,,,-1\r\n");

        assertThat(refused.status()).isEqualTo(422);
        assertThat(refused.json().required("refusedRows").valueStream())
                .extracting(row -> row.required("line").intValue() + " "
                        + row.at("/errors/0/pointer").asString())
                .containsExactly("3 /deviceClass", "4 /deviceSizeMm", "5 /uses");
        assertThat(centre.submitter().get(path).status()).isEqualTo(404);
    }

    @Test
    void refusesAQuarterThatHasNotBegunAndAColumnItDoesNotKnow() {
        assertThat(centre.submitter()
                        .put(centre.activity("2099-Q1"), "[]")
                        .json()
                        .at("/errors/0/code")
                        .asString())
                .isEqualTo("period-in-future");
        Answer column = centre.submitter()
                .send("PUT", path, "deviceClass,operatorName,uses\r\nballoon,x,1\r\n", "Content-Type", "text/csv");
        assertThat(column.status()).isEqualTo(422);
        assertThat(column.json().at("/errors/0/pointer").asString()).isEqualTo("/columns/1");
        assertThat(column.body()).doesNotContain("operatorName");
    }

    @Test
    void leavesOutCellsWhoseCasesAndUsesDoNotBelongTogether() {
        putCsv("rotational-burr,,,,,,,,,1\r\nballoon,,,,,,,,,50\r\n");
        String twoBurrs = CaseSamples.aCase().line("burr-case-a")
                + CaseSamples.aCase().line("burr-case-b")
                + CaseSamples.aCase().with("/period", "2026-Q1").line("burr-case-c");
        centre.submitter().post(centre.cases(), "application/x-ndjson", twoBurrs);

        JsonNode report = centre.analyst()
                .get("/api/reports/incidence?by=deviceClass&centre=" + centre.code())
                .json();

        assertThat(report.at("/excluded/cells").intValue()).isEqualTo(2);
        assertThat(report.at("/excluded/events").intValue()).isEqualTo(3);
        assertThat(report.at("/excluded/uses").intValue()).isEqualTo(1);
        assertThat(report.required("groups")).hasSize(1);
        assertThat(report.at("/groups/0/level/deviceClass").asString()).isEqualTo("balloon");
        assertThat(report.at("/notes/0").asString()).contains("2 cells", "3 entrapments", "1 use");
    }
}
