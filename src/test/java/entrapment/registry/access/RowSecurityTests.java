package entrapment.registry.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import entrapment.registry.RegistryClient;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import java.util.List;
import java.util.function.Supplier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionTemplate;

/** What the database allows the service's own role, with every check of the application left out. */
@RegistryTest
class RowSecurityTests {

    /** What has rows that belong to a centre. */
    private static final List<String> TABLES = List.of(
            "centre",
            "access_key",
            "case_version",
            "attempt",
            "activity_return",
            "use_count",
            "audit_entry",
            "meeting",
            "meeting_cut",
            "case_review",
            "review_statement",
            "preventability_rating",
            "meeting_action");

    @Autowired
    private TestNetwork network;

    /** As the service itself asks. */
    @Autowired
    private JdbcClient service;

    @Autowired
    private TransactionTemplate transaction;

    @Autowired
    private RowSecurityScope scope;

    @Autowired
    private Centres centres;

    @Autowired
    private AccessKeys keys;

    private TestCentre own;
    private TestCentre other;

    @BeforeEach
    void twoCentresWithACaseAndAReturnEach() {
        own = network.centre();
        other = network.centre();
        for (TestCentre centre : List.of(own, other)) {
            centre.submitter()
                    .put(centre.cases() + "/row-case-one", CaseSamples.aCase().json());
            centre.submitter().put(centre.activity("2026-Q2"), "[{\"deviceClass\": \"balloon\", \"uses\": 3}]");
            holdAMeeting(centre.analyst());
        }
    }

    private static void holdAMeeting(RegistryClient analyst) {
        String path = analyst.post("/api/meetings", """
                        {"kind": "quality", "from": "2026-Q2", "to": "2026-Q2",
                         "cases": {"rule": "random-sample", "size": 1}}""").header("Location");
        analyst.put(path + "/review/row-case-one", "{\"learningPoints\": [{\"text\": \"Ask early\"}]}");
        analyst.post(path + "/review/row-case-one/ratings", "{\"rating\": \"probably\"}");
        analyst.post(path + "/actions", """
                {"what": "Drill", "owner": "training-lead", "dueOn": "2099-06-30", "measure": {"report": "harm", "harm": "mild"}}""");
        analyst.post(path + "/freeze", "");
    }

    @Test
    void aTransactionThatDoesNotSayWhoseRowsItIsAboutSeesNone() {
        for (String table : TABLES) {
            assertThat(transaction.<Long>execute(status -> count(table, "true")))
                    .as(table)
                    .isZero();
        }
    }

    @Test
    void inTheContextOfOneCentreTheRowsOfAnotherAreNotThere() {
        for (String table : TABLES) {
            String column = table.equals("centre") ? "code" : "centre";
            assertThat(inContextOf(own.code(), () -> count(table, column + " = '" + own.code() + "'")))
                    .as(table)
                    .isPositive();
            assertThat(inContextOf(own.code(), () -> count(table, column + " <> '" + own.code() + "'")))
                    .as(table)
                    .isZero();
            assertThat(inContextOf("no-such-lab", () -> count(table, "true")))
                    .as(table)
                    .isZero();
        }
        assertThat(inContextOf(
                        own.code(), () -> count("case_as_of(9223372036854775807)", "centre = '" + other.code() + "'")))
                .isZero();
    }

    @Test
    void theContextEndsWithItsTransaction() {
        inContextOf("*", () -> 0L);

        assertThat(transaction.<Long>execute(status -> count("case_version", "true")))
                .isZero();
    }

    @Test
    void afterAScopeTheEarlierViewHoldsAgain() {
        String ofOther = "centre = '" + other.code() + "'";

        transaction.executeWithoutResult(status -> {
            assertThat(scope.<Long>forTheNetwork(() -> count("case_version", ofOther)))
                    .isPositive();
            assertThat(count("case_version", "true")).as("said nothing before").isZero();

            scope.within(List.of(own.code()), () -> {
                assertThat(scope.<Long>forTheNetwork(() -> count("case_version", ofOther)))
                        .isPositive();
                assertThat(count("case_version", ofOther))
                        .as("after the network")
                        .isZero();
                assertThat(count("case_version", "true"))
                        .as("within the own centre")
                        .isPositive();
                return own;
            });
            assertThat(count("case_version", "true")).as("after the own centre").isZero();
        });
    }

    @Test
    void aScopeEndsWithAFailureToo() {
        transaction.executeWithoutResult(status -> {
            assertThatThrownBy(() -> scope.forTheNetwork(() -> {
                        throw new IllegalStateException("refused");
                    }))
                    .hasMessage("refused");
            assertThat(count("case_version", "true")).isZero();
            status.setRollbackOnly();
        });
    }

    @Test
    void whatIsChangedWithinAScopeIsWrittenWithinIt() {
        String name = "Renamed " + other.code();

        transaction.executeWithoutResult(status -> {
            centres.put(other.code(), name, keys.steward().orElseThrow());
            assertThat(scope.<Long>forTheNetwork(() -> count("centre", "name = '" + name + "'")))
                    .isEqualTo(1);
        });
    }

    @Test
    void nothingCanBeWrittenForAnotherCentre() {
        assertThatThrownBy(() -> inContextOf(own.code(), () ->
                        (long) service.sql("""
                        insert into activity_return (revision, centre, period, version, content_hash)
                        values (9000000000, :centre, '2026-Q1', 1, 'x')""").param("centre", other.code()).update()))
                .isInstanceOf(DataAccessException.class)
                .rootCause()
                .hasMessageContaining("row-level security");
        assertThat(
                        inContextOf(own.code(), () -> (long)
                                service.sql("update case_version set superseded_by = 9000000000 where centre = :centre")
                                        .param("centre", other.code())
                                        .update()))
                .isZero();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update case_version set harm = 'none'",
                "delete from case_version",
                "delete from attempt",
                "update use_count set uses = 0",
                "truncate activity_return",
                "update revision set at = now()",
                "update access_key set role = 'steward'",
                "update access_key set hash = ''",
                "delete from access_key",
                "update centre set code = 'x'",
                "delete from centre",
                "update audit_entry set outcome = 'done'",
                "delete from audit_entry",
                "truncate audit_entry",
                "insert into audit_entry (number, at, action, thing, outcome) values (1, now(), 'read', 'cases', 'done')",
                "insert into audit_entry (at, action, thing, outcome, hash) values (now(), 'read', 'cases', 'done', '')",
                "update audit_head set number = 0",
                "insert into audit_head values (true, 0, '')",
                "drop trigger chain_audit_entry on audit_entry",
                "alter table audit_entry disable trigger all",
                "alter table case_version disable row level security",
                "drop policy case_in_view on case_version",
                "create table mine (x int)",
                "create function mine() returns int language sql as 'select 1'",
                "drop table case_version cascade",
                "create role mine",
                "set role postgres",
                "select * from flyway_schema_history",
                "copy case_version to program 'cat'"
            })
    void theServicesRoleChangesNoHistoryNoAuditTrailAndNoSchema(String statement) {
        assertThatThrownBy(() -> inContextOf("*", () -> {
                    service.sql(statement).update();
                    return 0L;
                }))
                .isInstanceOf(DataAccessException.class)
                .rootCause()
                .hasMessageMatching("(?s).*(permission denied|must be owner|not permitted|must be superuser).*");
    }

    @Test
    void theServicesRoleOwnsNothing() {
        assertThat(service.sql("select count(*) from pg_class c join pg_roles r on r.oid = c.relowner"
                                + " where r.rolname = current_user and c.relnamespace in ('public'::regnamespace)")
                        .query(Long.class)
                        .single())
                .isZero();
        assertThat(service.sql("select rolsuper or rolbypassrls or rolcreaterole or rolcreatedb"
                                + " from pg_roles where rolname = current_user")
                        .query(Boolean.class)
                        .single())
                .isFalse();
    }

    private long count(String table, String where) {
        return service.sql("select count(*) from " + table + " where " + where)
                .query(Long.class)
                .single();
    }

    private long inContextOf(String centre, Supplier<Long> work) {
        return transaction.<Long>execute(status -> {
            service.sql("select set_config('registry.centres', :centre, true)")
                    .param("centre", centre)
                    .query(String.class)
                    .single();
            return work.get();
        });
    }
}
