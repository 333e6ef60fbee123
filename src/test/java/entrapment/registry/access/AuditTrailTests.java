package entrapment.registry.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

@RegistryTest
class AuditTrailTests {

    private static final String VERIFICATION = "/api/audit/verification";

    /** Statements of one transaction. */
    private static final String UNGUARDED = """
            alter table audit_entry disable trigger all;
            %s;
            alter table audit_entry enable trigger all;
            """;

    @Autowired
    private TestNetwork network;

    @Test
    void tellsWhatWasReadChangedAndRefusedAtACentreWithoutAnyValue() {
        TestCentre centre = network.centre();
        String path = centre.cases() + "/audit-case-1";
        centre.submitter().put(path, CaseSamples.aCase().json());
        centre.submitter().put(path, "{\"noSuchField\": 1}");
        centre.analyst().get(path);
        centre.submitter().put(centre.activity("2026-Q2"), "[{\"deviceClass\": \"balloon\", \"uses\": 3}]");
        centre.submitter().delete(path, "{\"reason\": \"duplicate\"}", "If-Match", "\"1\"");
        network.steward().get(path);
        centre.analyst().get("/api/reports/incidence");
        centre.analyst().get("/api/vocabulary");

        JsonNode trail = centre.submitter()
                .get("/api/centres/" + centre.code() + "/audit")
                .json();

        assertThat(trail.valueStream().map(AuditTrailTests::line))
                .containsExactly(
                        "read reports done",
                        "read cases not-found",
                        "withdraw cases done",
                        "create activity done",
                        "read cases done",
                        "send cases refused",
                        "create cases done",
                        "issue keys done",
                        "issue keys done",
                        "create centres done");
        assertThat(trail.toString()).doesNotContain("audit-case-1", "noSuchField", "2026-Q2\"");
    }

    private static String line(JsonNode entry) {
        return entry.required("action").asString() + " "
                + entry.required("thing").asString() + " "
                + entry.required("outcome").asString();
    }

    @Test
    void aChangeThatIsUndoneLeavesNoEntry() {
        TestCentre centre = network.centre();
        String batch = CaseSamples.aCase().json() + "\n";

        centre.submitter().post(centre.cases() + "?dryRun=true", "application/x-ndjson", batch);

        assertThat(network.steward()
                        .get("/api/centres/" + centre.code() + "/audit")
                        .json()
                        .valueStream()
                        .map(AuditTrailTests::line))
                .noneMatch(line -> line.contains("cases"));
    }

    @Test
    void isTurnedOverFromTheNewestEntryToTheFirst() {
        network.centre();
        String steward = "/api/audit?size=2";
        JsonNode first = network.steward().get(steward).json();
        long last = first.at("/1/number").longValue();

        JsonNode second = network.steward().get(steward + "&before=" + last).json();

        assertThat(second.at("/0/number").longValue()).isEqualTo(last - 1);
        assertThat(network.steward()
                        .get("/api/audit?before=2")
                        .json()
                        .at("/0/number")
                        .longValue())
                .isEqualTo(1);
    }

    /** The chain as another program computes it from what the API answers (openapi.yaml, verifyAudit). */
    @Test
    void anyoneCanComputeTheChainAgain() throws Exception {
        network.centre();
        JsonNode trail = network.steward().get("/api/audit?size=1000").json();
        for (int index = 0; index < trail.size() - 1; index++) {
            JsonNode entry = trail.get(index);
            String text = "%d|%s|%s|%s|%s|%s|%s"
                    .formatted(
                            entry.required("number").longValue(),
                            millis(entry.required("at").asString()),
                            entry.required("keyId").asString(""),
                            entry.required("centre").asString(""),
                            entry.required("action").asString(),
                            entry.required("thing").asString(),
                            entry.required("outcome").asString());
            MessageDigest sha256 = MessageDigest.getInstance("SHA-256");
            sha256.update(HexFormat.of()
                    .parseHex(trail.get(index + 1).required("hash").asString()));
            assertThat(HexFormat.of().formatHex(sha256.digest(text.getBytes(StandardCharsets.UTF_8))))
                    .isEqualTo(entry.required("hash").asString());
        }
    }

    private static String millis(String at) {
        return at.contains(".")
                ? (at.substring(0, at.length() - 1) + "00").replaceFirst("(\\.[0-9]{3}).*", "$1Z")
                : at.replace("Z", ".000Z");
    }

    /** What somebody could do who has the owner's password and switches the guard off first. */
    @ParameterizedTest
    @CsvSource({
        "update audit_entry set outcome = 'refused' where number = :number, 0, entry-altered",
        "update audit_entry set at = at + interval '1 hour' where number = :number, 0, entry-altered",
        "update audit_entry set key_id = null where number = :number, 0, entry-altered",
        "delete from audit_entry where number = :number, 1, entry-missing",
        "delete from audit_entry where number >= :number, last, entry-missing",
        "update audit_entry set hash = sha256('x') where number = :number, 0, entry-altered",
        "update audit_entry set previous = sha256('x') where number = :number, 0, chain-broken"
    })
    void anEntryThatTheOwnerAltersOrTakesOutIsFoundAndLocated(String statement, String place, String reason) {
        network.centre();
        JdbcClient owner = network.database();
        long newest = network.steward()
                .get("/api/audit?size=1")
                .json()
                .at("/0/number")
                .longValue();
        long number = newest - 1;
        owner.sql("create table kept as select * from audit_entry").update();
        try {
            owner.sql(UNGUARDED.formatted(statement.replace(":number", Long.toString(number))))
                    .update();

            JsonNode found = network.steward().get(VERIFICATION).json();

            assertThat(found.required("intact").booleanValue()).isFalse();
            assertThat(found.required("reason").asString()).isEqualTo(reason);
            if (!place.equals("last")) {
                assertThat(found.required("firstBroken").longValue()).isEqualTo(number + Long.parseLong(place));
            }
        } finally {
            owner.sql(UNGUARDED.formatted("delete from audit_entry where number in (select number from kept);"
                            + " insert into audit_entry select * from kept"))
                    .update();
            owner.sql("drop table kept").update();
        }
        assertThat(network.steward().get(VERIFICATION).json().required("intact").booleanValue())
                .isTrue();
    }

    @ParameterizedTest
    @CsvSource({"update audit_entry set outcome = 'done'", "delete from audit_entry", "truncate audit_entry"})
    void theOwnerCannotChangeAnEntryBySlip(String statement) {
        assertThatThrownBy(() -> network.database().sql(statement).update())
                .isInstanceOf(DataAccessException.class)
                .hasMessageContaining("never changed");
    }

    @Test
    void onlyTheStewardReadsTheNetworksTrailAndVerifiesIt() {
        TestCentre centre = network.centre();
        for (String path : List.of("/api/audit", VERIFICATION)) {
            assertThat(centre.analyst().get(path).status()).isEqualTo(403);
            assertThat(network.steward().get(path).status()).isEqualTo(200);
        }
        assertThat(centre.analyst()
                        .get("/api/centres/" + network.centre().code() + "/audit")
                        .status())
                .isEqualTo(404);
    }
}
