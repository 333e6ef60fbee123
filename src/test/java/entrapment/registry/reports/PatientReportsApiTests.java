package entrapment.registry.reports;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Harm, completeness and similar cases over HTTP, from cases and returns that were sent the same way. */
@RegistryTest
class PatientReportsApiTests {

    @Autowired
    private TestNetwork network;

    private TestCentre own;
    private TestCentre other;

    @BeforeEach
    void takeTwoCentres() {
        own = network.centre();
        other = network.centre();
    }

    private static void submit(TestCentre centre, String key, CaseSamples sample) {
        assertThat(centre.submitter()
                        .put(centre.cases() + "/" + key, sample.json())
                        .status())
                .isEqualTo(201);
    }

    private static void submitUses(TestCentre centre, String period, long uses) {
        assertThat(centre.submitter()
                        .put(
                                centre.activity(period),
                                "[{\"deviceClass\": \"rotational-burr\", \"uses\": %d}]".formatted(uses))
                        .status())
                .isEqualTo(201);
    }

    private static CaseSamples fatal() {
        return CaseSamples.aCase()
                .with("/outcome/harm", "death")
                .with("/outcome/perforation", "III-cavity")
                .change(tree -> ((ObjectNode) tree.required("outcome"))
                        .putArray("complications")
                        .add("in-hospital-death")
                        .add("tamponade"));
    }

    private static JsonNode report(TestCentre centre, String query) {
        Answer answer = centre.analyst().get("/api/reports/" + query);
        assertThat(answer.status()).as(answer.body()).isEqualTo(200);
        return answer.json();
    }

    @Test
    void countsWhatEachCaseCostThePatient() {
        submit(own, "harm-case-a", CaseSamples.aCase());
        submit(own, "harm-case-b", fatal());
        submit(
                own,
                "harm-case-c",
                CaseSamples.aCase()
                        .with("/outcome/perforation", "unknown")
                        .with("/outcome/fragment", "in-vessel")
                        .with("/outcome/release", "partial")
                        .change(tree -> ((ObjectNode) tree.at("/attempts/1")).put("result", "part-released")));

        JsonNode group =
                report(own, "harm?by=deviceClass,year&centre=" + own.code()).at("/groups/0");

        assertThat(group.required("level").toString())
                .isEqualTo("{\"deviceClass\":\"rotational-burr\",\"year\":\"2026\"}");
        assertThat(group.required("cases").intValue()).isEqualTo(3);
        assertThat(group.at("/harm/death/events").intValue()).isEqualTo(1);
        assertThat(group.at("/harm/mild/events").intValue()).isEqualTo(2);
        assertThat(group.at("/complications/tamponade/of").intValue()).isEqualTo(3);
        assertThat(group.at("/emergencies/perforation-iii").toString()).startsWith("{\"events\":1,\"of\":2,");
        assertThat(group.at("/emergencies/fragment-left").toString()).startsWith("{\"events\":1,\"of\":3,");
        assertThat(group.at("/emergencies/not-released/events").intValue()).isZero();
        assertThat(group.at("/unknown").toString()).isEqualTo("{\"perforation-iii\":1}");
        assertThat(group.at("/bounds/perforation-iii/lowestPossible").doubleValue())
                .isCloseTo(1 / 3.0, within(1e-9));
        assertThat(group.at("/bounds/perforation-iii/highestPossible").doubleValue())
                .isCloseTo(2 / 3.0, within(1e-9));
    }

    @Test
    void masksOtherCentresInHarmAndCompleteness() {
        for (TestCentre centre : List.of(own, other)) {
            submit(centre, "mask-case-a", CaseSamples.aCase());
        }

        for (String query : List.of(
                "harm?by=centre",
                "completeness",
                "completeness?by=period",
                "completeness?format=csv",
                "similar-cases?format=csv")) {
            assertThat(own.analyst().get("/api/reports/" + query).body())
                    .as(query)
                    .doesNotContain(other.code());
        }
        for (String name : List.of("harm?by=centre", "completeness")) {
            assertThat(report(own, name).required("groups").valueStream())
                    .extracting(group -> group.at("/level/centre").asString())
                    .containsExactlyInAnyOrder(own.code(), "other-centres");
        }
        for (String name : List.of("harm", "completeness", "similar-cases")) {
            assertThat(own.analyst()
                            .get("/api/reports/" + name + "?centre=" + other.code())
                            .status())
                    .isEqualTo(404);
            assertThat(own.submitter()
                            .get("/api/reports/" + name)
                            .json()
                            .at("/filters/centre/0")
                            .asString())
                    .isEqualTo(own.code());
        }
    }

    @Test
    void findsWhatIsUnknownUnreturnedAndQueried() {
        submit(own, "full-case-a", CaseSamples.aCase().with("/event/shockStage", "D"));
        submit(
                own,
                "full-case-b",
                CaseSamples.aCase().with("/period", "2025-Q4").without("/lesion/calcification"));
        submit(
                own,
                "full-case-c",
                CaseSamples.aCase().tried("snare", "no-change").without("/device/deviceSizeMm"));
        submitUses(own, "2026-Q2", 1);

        JsonNode report = report(own, "completeness?centre=" + own.code());
        JsonNode group = report.at("/groups/0");

        assertThat(group.required("cases").intValue()).isEqualTo(3);
        assertThat(group.at("/fields/calcification/events").intValue()).isEqualTo(1);
        assertThat(group.at("/fields/segment/events").intValue()).isEqualTo(3);
        assertThat(group.at("/fields/deviceSizeMm/events").intValue()).isEqualTo(1);
        assertThat(group.at("/fields/minutesFromEntrapment/events").intValue()).isEqualTo(1);
        assertThat(group.at("/fields/miDefinition/of").intValue()).isZero();
        assertThat(group.at("/fields").size()).isEqualTo(29);
        assertThat(group.at("/complete/events").intValue()).isEqualTo(2);
        assertThat(group.at("/withQueries/events").intValue()).isEqualTo(1);
        assertThat(group.at("/periods").toString()).isEqualTo("{\"missing\":2,\"of\":3}");
        assertThat(report.at("/missingPeriods/named").toString())
                .isEqualTo("[{\"centre\":\"%1$s\",\"period\":\"2025-Q4\"},{\"centre\":\"%1$s\",\"period\":\"2026-Q1\"}]"
                        .formatted(own.code()));
        assertThat(report.at("/beyondActivity/cases").intValue()).isEqualTo(3);
        assertThat(report.at("/beyondActivity/named/0/reason").asString()).isEqualTo("denominator missing");
        assertThat(report.at("/beyondActivity/named/1").toString())
                .isEqualTo(("{\"centre\":\"%s\",\"period\":\"2026-Q2\",\"deviceClass\":\"rotational-burr\",\"cases\":2,"
                                + "\"uses\":1,\"reason\":\"numerator exceeds denominator\"}")
                        .formatted(own.code()));
    }

    @Test
    void keepsWithEachVersionWhetherItsSenderWasAskedAgain() {
        submit(own, "asked-case-a", CaseSamples.aCase().with("/event/shockStage", "D"));
        own.submitter()
                .post(
                        own.cases(),
                        "application/x-ndjson",
                        CaseSamples.aCase().line("asked-case-b")
                                + CaseSamples.aCase()
                                        .with("/event/shockStage", "D")
                                        .line("asked-case-c"));
        assertThat(network.database()
                        .sql("select case_key, queried from case_version where centre = :centre order by case_key")
                        .param("centre", own.code())
                        .query()
                        .listOfRows())
                .extracting(row -> row.get("queried"))
                .containsExactly(true, false, true);

        // As if the rules had been others when this one came.
        setQueried("true", "asked-case-b");

        assertThat(withQueries()).isEqualTo(3);
    }

    @Test
    void looksAgainAtCasesFromBeforeThatWasKept() {
        submit(own, "asked-case-a", CaseSamples.aCase().with("/event/shockStage", "D"));
        submit(own, "asked-case-b", CaseSamples.aCase());

        setQueried("null", "asked-case-a");
        setQueried("null", "asked-case-b");

        assertThat(withQueries()).isEqualTo(1);
    }

    private void setQueried(String queried, String caseKey) {
        network.database()
                .sql("update case_version set queried = " + queried + " where centre = :centre and case_key = :caseKey")
                .param("centre", own.code())
                .param("caseKey", caseKey)
                .update();
    }

    private int withQueries() {
        return report(own, "completeness?centre=" + own.code())
                .at("/groups/0/withQueries/events")
                .intValue();
    }

    @Test
    void tellsWhatWasDoneInCasesLikeThis() {
        submit(own, "like-case-a", CaseSamples.aCase());
        submit(own, "like-case-b", CaseSamples.aCase());
        submit(own, "like-case-c", CaseSamples.aCase().tried("snare", "released"));
        submit(own, "like-case-d", CaseSamples.aCase().with("/event/phase", "crossing"));

        JsonNode report =
                report(own, "similar-cases?phase=final-pass&position=mid&deviceSizeMm=1.25&centre=" + own.code());

        assertThat(report.required("cases").intValue()).isEqualTo(3);
        assertThat(report.required("groups").valueStream())
                .extracting(group -> group.at("/level/technique").asString())
                .containsExactly("steady-traction", "parallel-balloon", "snare");
        assertThat(report.at("/groups/0/first/of").intValue()).isEqualTo(2);
        assertThat(report.at("/groups/1/any/released").intValue()).isEqualTo(2);
        assertThat(report.at("/sequences/0/techniques").toString())
                .isEqualTo("[\"steady-traction\",\"parallel-balloon\"]");
        assertThat(report.at("/sequences/0/cases").intValue()).isEqualTo(2);
        assertThat(report.at("/minutesToRelease").toString())
                .startsWith("{\"cases\":2,\"of\":3,\"lowerQuartile\":21,\"median\":21,\"upperQuartile\":21");
        assertThat(report.at("/harm/mild/events").intValue()).isEqualTo(3);
        assertThat(report.at("/filters/phase/0").asString()).isEqualTo("final-pass");
        assertThat(report.required("loosen").isNull()).isTrue();
    }

    @Test
    void namesTheFilterToLoosenWhereNoCaseIsLikeThis() {
        submit(own, "none-case-a", CaseSamples.aCase());
        submit(own, "none-case-b", CaseSamples.aCase().with("/lesion/vessel", "lad"));
        submit(own, "none-case-c", CaseSamples.aCase().with("/lesion/vessel", "lad"));

        JsonNode report = own.submitter()
                .get("/api/reports/similar-cases?vessel=graft&calcification=severe")
                .json();

        assertThat(report.required("cases").intValue()).isZero();
        assertThat(report.required("loosen").toString()).isEqualTo("{\"filter\":\"vessel\",\"cases\":3}");
        assertThat(report.required("notes").toString())
                .contains("Loosen vessel first: without it 3 cases are like this.");
    }

    /** An access site that no other test uses finds these cases alone, whatever else the shared registry holds. */
    @Test
    void doesNotDescribeACaseOfAnotherHospitalToAnAnalyst() {
        CaseSamples rare = CaseSamples.aCase()
                .with("/patient/sex", "other")
                .with("/procedure/access", "other")
                .with("/lesion/segment", "16");
        String query = "similar-cases?sex=other&access=other&segment=16";
        submit(own, "rare-case-a", rare);
        submit(other, "rare-case-b", rare.tried("lumen-wire", "released"));
        submit(other, "rare-case-c", rare.tried("vasodilator", "no-change", "lumen-wire", "released"));

        JsonNode two = report(own, query);
        assertThat(two.required("cases").intValue()).isEqualTo(3);
        assertThat(two.required("described").intValue()).isEqualTo(1);
        assertThat(two.toString()).doesNotContain("lumen-wire");

        submit(other, "rare-case-d", rare.tried("lumen-wire", "released"));
        JsonNode three = report(own, query);
        assertThat(three.required("described").intValue()).isEqualTo(4);
        assertThat(three.required("sequences").toString()).doesNotContain("lumen-wire");
        assertThat(three.required("otherSequences").intValue()).isEqualTo(3);

        submit(other, "rare-case-e", rare.tried("lumen-wire", "released"));
        JsonNode four = report(own, query);
        assertThat(four.required("sequences").toString())
                .contains("\"techniques\":[\"lumen-wire\"],\"result\":\"released\",\"cases\":3");
        assertThat(four.required("otherSequences").intValue()).isEqualTo(1);
        assertThat(network.steward()
                        .get("/api/reports/" + query)
                        .json()
                        .required("otherSequences")
                        .intValue())
                .isZero();
    }

    @Test
    void answersTheSameBytesForARevisionWhateverWasSubmittedSince() {
        submit(own, "stay-case-a", CaseSamples.aCase());
        submitUses(own, "2026-Q2", 90);
        long cut = report(own, "harm").at("/dataCut/revision").longValue();
        List<String> queries = List.of(
                "harm?by=centre,calcification&asOf=" + cut,
                "completeness?format=csv&comments=true&asOf=" + cut,
                "completeness?by=period&asOf=" + cut,
                "similar-cases?mechanism=passed-beyond-lesion&asOf=" + cut,
                "similar-cases?vessel=rca&format=csv&comments=true&asOf=" + cut);
        List<String> before = queries.stream()
                .map(query -> network.steward().get("/api/reports/" + query).body())
                .toList();

        submit(own, "stay-case-b", fatal());
        submit(
                other,
                "stay-case-c",
                CaseSamples.aCase().tried("snare", "no-change").without("/lesion/vessel"));
        submitUses(own, "2025-Q2", 10);
        assertThat(own.submitter()
                        .put(own.activity("2026-Q2"), "[{\"deviceClass\": \"rotational-burr\", \"uses\": 1}]")
                        .status())
                .isEqualTo(200);
        own.submitter().delete(own.cases() + "/stay-case-a", "{\"reason\": \"duplicate\"}", "If-Match", "*");

        assertThat(queries)
                .extracting(
                        query -> network.steward().get("/api/reports/" + query).body())
                .isEqualTo(before);
        assertThat(network.steward()
                        .get("/api/reports/harm?by=centre,calcification")
                        .body())
                .isNotEqualTo(before.get(0));
    }

    @Test
    void refusesWhatIsNoAxisFieldOrCode() {
        assertThat(own.analyst()
                        .get("/api/reports/harm?by=phase")
                        .json()
                        .at("/errors/0/pointer")
                        .asString())
                .isEqualTo("/by");
        assertThat(own.analyst().get("/api/reports/completeness?by=year").status())
                .isEqualTo(422);
        assertThat(own.analyst().get("/api/reports/similar-cases?phase=over").status())
                .isEqualTo(422);
        assertThat(own.analyst()
                        .get("/api/reports/similar-cases?complications=stroke")
                        .status())
                .isEqualTo(422);
    }
}
