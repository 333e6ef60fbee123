package entrapment.registry.cases;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.JsonNode;

@RegistryTest
class BulkApiTests {

    private static final String NDJSON = "application/x-ndjson";

    @Autowired
    private TestNetwork network;

    private TestCentre centre;

    @BeforeEach
    void takeACentreOfItsOwn() {
        centre = network.centre();
    }

    /** Ten thousand cases of which the one on line 4,567 names no device class. */
    private static String tenThousandWithOneBad() {
        StringBuilder body = new StringBuilder();
        for (int line = 1; line <= 10_000; line++) {
            CaseSamples sample = CaseSamples.aCase();
            body.append((line == 4_567 ? sample.without("/device/deviceClass") : sample).line(key(line)));
        }
        return body.toString();
    }

    /** Letters, so that no run of digits looks like a record number. */
    private static String key(int number) {
        return "bulk-" + Integer.toString(number, 36) + "-case";
    }

    private long stored() {
        return centre.submitter()
                .get(centre.cases() + "?size=1")
                .json()
                .required("total")
                .longValue();
    }

    @Test
    void storesNothingOfTenThousandAndNamesTheOneBadLine() {
        Answer refused = centre.submitter().post(centre.cases(), NDJSON, tenThousandWithOneBad());

        assertThat(refused.status()).isEqualTo(422);
        JsonNode problem = refused.json();
        assertThat(problem.required("received").intValue()).isEqualTo(10_000);
        assertThat(problem.required("created").intValue()).isZero();
        assertThat(problem.required("refused").intValue()).isEqualTo(1);
        assertThat(problem.at("/refusedRows/0/line").intValue()).isEqualTo(4_567);
        assertThat(problem.at("/refusedRows/0/errors/0/pointer").asString()).isEqualTo("/device/deviceClass");
        assertThat(stored()).isZero();
    }

    @Test
    void keepsTheOtherNineThousandNineHundredAndNinetyNineWhenAsked() {
        String body = tenThousandWithOneBad();

        JsonNode checked = centre.submitter()
                .post(centre.cases() + "?accept=valid&dryRun=true", NDJSON, body)
                .json();
        long storedByTheCheck = stored();
        Answer kept = centre.submitter().post(centre.cases() + "?accept=valid", NDJSON, body);
        JsonNode again = centre.submitter()
                .post(centre.cases() + "?accept=valid", NDJSON, body)
                .json();

        assertThat(checked.required("stored").booleanValue()).isFalse();
        assertThat(checked.required("created").intValue()).isEqualTo(9_999);
        assertThat(storedByTheCheck).isZero();
        assertThat(kept.status()).isEqualTo(200);
        assertThat(kept.json().required("created").intValue()).isEqualTo(9_999);
        assertThat(kept.json().at("/refusedRows/0/line").intValue()).isEqualTo(4_567);
        assertThat(again.required("unchanged").intValue()).isEqualTo(9_999);
        assertThat(again.required("created").intValue()).isZero();
        assertThat(stored()).isEqualTo(9_999);
    }

    @Test
    void givesEveryVersionOfABatchARevisionOfItsOwn() {
        String both = CaseSamples.aCase().line("batch-a1") + CaseSamples.aCase().line("batch-b1");
        centre.submitter().post(centre.cases(), NDJSON, both);
        String changed = CaseSamples.aCase().with("/patient/sex", "male").line("batch-b1");

        JsonNode outcome = centre.submitter()
                .post(centre.cases(), NDJSON, CaseSamples.aCase().line("batch-a1") + changed)
                .json();

        assertThat(outcome.required("unchanged").intValue()).isEqualTo(1);
        assertThat(outcome.required("changed").intValue()).isEqualTo(1);
        JsonNode versions =
                centre.submitter().get(centre.cases() + "/batch-b1/versions").json();
        assertThat(versions).hasSize(2);
        long first = versions.at("/0/revision").longValue();
        assertThat(centre.submitter()
                        .get(centre.cases() + "/batch-a1")
                        .json()
                        .required("revision")
                        .longValue())
                .isEqualTo(first - 1);
        assertThat(versions.at("/1/revision").longValue()).isGreaterThan(first);
    }

    @Test
    void readsACaseFromARowAsFromJson() {
        String header =
                "caseKey,period,ageBand,sex,presentation,urgency,access,guideFrench,operatorStage,vessel,position,"
                        + "calcification,tortuosity,angulation,totalOcclusion,stentLayers,deviceClass,deviceSizeMm,mechanism,phase,"
                        + "haemodynamics,shockStage,timiFlow,fractured,release,fragment,dissection,perforation,finalTimiFlow,"
                        + "complications,harm,procedureEnd,attempt1Technique,attempt1Result,attempt1Minutes,attempt1Enablers,"
                        + "attempt2Technique,attempt2Result,attempt2Minutes,attempt2Enablers\r\n";
        String row =
                "csv-row-a1,2026-Q2,70-74,female,chronic-coronary,elective,radial,7,established,rca,mid,severe,moderate,"
                        + "45-to-90,no,0,rotational-burr,1.25,passed-beyond-lesion,final-pass,stable,A,2,no,intact,none,none,none,3,,"
                        + "mild,completed-as-planned,steady-traction,no-change,3,,parallel-balloon,released,21,"
                        + "shaft-cut;sheath-removed\r\n";

        Answer sent = centre.submitter().post(centre.cases(), "text/csv", "\uFEFF" + header + row);
        Answer same = centre.submitter()
                .put(centre.cases() + "/csv-row-a1", CaseSamples.aCase().json());

        assertThat(sent.json().required("created").intValue()).isEqualTo(1);
        assertThat(same.status()).as("the same content by JSON").isEqualTo(200);
        assertThat(same.json().required("version").intValue()).isEqualTo(1);
    }

    @Test
    void refusesToBringBackAWithdrawnCaseInABatch() {
        centre.submitter().put(centre.cases() + "/gone-a1", CaseSamples.aCase().json());
        centre.submitter()
                .delete(centre.cases() + "/gone-a1", "{\"reason\": \"consent-withdrawn\"}", "If-Match", "\"1\"");
        String batch = CaseSamples.aCase().line("gone-a1") + CaseSamples.aCase().line("here-a1");

        Answer all = centre.submitter().post(centre.cases(), NDJSON, batch);
        Answer valid = centre.submitter().post(centre.cases() + "?accept=valid", NDJSON, batch);

        assertThat(all.status()).isEqualTo(422);
        assertThat(all.json().at("/refusedRows/0/errors/0/code").asString()).isEqualTo("case-withdrawn");
        assertThat(valid.json().required("created").intValue()).isEqualTo(1);
        assertThat(centre.submitter().get(centre.cases() + "/gone-a1").status()).isEqualTo(404);
    }

    @Test
    void countsTheCasesThatMayBeReportableAndSaysOnceWhatThatMeans() {
        String severe = CaseSamples.aCase().with("/outcome/harm", "severe").line("severe-a1");
        String parted = CaseSamples.aCase().with("/event/fractured", "yes").line("parted-a1");
        String gone = CaseSamples.aCase().with("/event/fractured", "yes").line("gone-a1");
        String refused = CaseSamples.aCase()
                .with("/event/fractured", "yes")
                .without("/outcome/harm")
                .line("refused-a1");
        centre.submitter().put(centre.cases() + "/gone-a1", CaseSamples.aCase().json());
        centre.submitter().delete(centre.cases() + "/gone-a1", "{\"reason\": \"duplicate\"}", "If-Match", "\"1\"");

        JsonNode outcome = centre.submitter()
                .post(
                        centre.cases() + "?accept=valid",
                        NDJSON,
                        severe + parted + gone + refused + CaseSamples.aCase().line("mild-a1"))
                .json();
        JsonNode harmless = centre.submitter()
                .post(centre.cases(), NDJSON, CaseSamples.aCase().line("mild-b1"))
                .json();

        assertThat(outcome.required("mayBeReportable").intValue()).isEqualTo(2);
        assertThat(outcome.required("notes")).hasSize(1);
        assertThat(outcome.at("/notes/0").asString()).isEqualTo(IncidentSign.NOTE_OF_MANY);
        assertThat(harmless.required("mayBeReportable").intValue()).isZero();
        assertThat(harmless.required("notes")).isEmpty();
    }

    @Test
    void namesARepeatedKeyAndABrokenLineByTheirLines() {
        String batch = CaseSamples.aCase().line("twice-a1") + "{\"caseKey\": \n"
                + CaseSamples.aCase().line("twice-a1");

        JsonNode problem =
                centre.submitter().post(centre.cases(), NDJSON, batch).json();

        assertThat(problem.at("/refusedRows").valueStream())
                .extracting(row -> row.required("line").intValue() + " "
                        + row.at("/errors/0/code").asString())
                .containsExactly("2 unreadable-line", "3 repeated-key");
    }

    @Test
    void answers415ToATypeItDoesNotRead() {
        assertThat(centre.submitter().post(centre.cases(), "text/plain", "x").status())
                .isEqualTo(415);
    }
}
