package entrapment.registry.cases;

import entrapment.registry.access.Revisions;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.EntrapmentCase.Attempt;
import entrapment.registry.intake.Fingerprint;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.sql.Statement;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.postgresql.PGConnection;
import org.postgresql.copy.CopyManager;
import org.springframework.jdbc.core.ConnectionCallback;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/**
 * The one way in which cases reach their tables, one or a hundred thousand: COPY into staging tables that end with the
 * transaction, comparison with what is stored, then new versions under new revisions.
 */
@Component
@Transactional(propagation = Propagation.MANDATORY)
class CaseWriter {

    private static final String LEAF_LIST = CaseColumns.sqlList(CaseColumns.LEAVES);
    private static final String ATTEMPT_LIST = CaseColumns.sqlList(CaseColumns.ATTEMPT);

    private static final String MAKE_STAGING = """
            create temporary table if not exists staged_case (
                line bigint not null, like case_version,
                stored_version integer, stored_hash text, stored_withdrawn text) on commit delete rows;
            create temporary table if not exists staged_attempt (
                line bigint not null, like attempt) on commit delete rows;
            delete from staged_case;
            delete from staged_attempt;
            """;

    private static final String COPY_CASES =
            "copy staged_case (line, revision, version, centre, case_key, content_hash, queried, " + LEAF_LIST
                    + ") from stdin";

    private static final String COPY_ATTEMPTS =
            "copy staged_attempt (line, revision, centre, position, " + ATTEMPT_LIST + ") from stdin";

    private static final String COMPARE = """
            update staged_case s
            set stored_version = v.version, stored_hash = v.content_hash, stored_withdrawn = v.withdrawn
            from case_version v
            where v.centre = s.centre and v.case_key = s.case_key and v.superseded_by is null""";

    private static final String TAKE_OUT_WITHDRAWN = """
            delete from staged_case where stored_withdrawn is not null returning line""";

    private static final String TAKE_OUT_UNCHANGED = """
            delete from staged_case where stored_hash = content_hash and stored_withdrawn is null""";

    private static final String COUNT = """
            select count(*) filter (where stored_version is null) as created,
                count(*) filter (where stored_hash <> content_hash and stored_withdrawn is null) as changed,
                count(*) filter (where stored_hash = content_hash and stored_withdrawn is null) as unchanged
            from staged_case""";

    private static final String NUMBER = """
            update staged_case s
            set version = coalesce(stored_version, 0) + 1, revision = :first + n.place
            from (select line, row_number() over (order by line) - 1 as place from staged_case) n
            where n.line = s.line""";

    private static final String SUPERSEDE = """
            update case_version v
            set superseded_by = s.revision
            from staged_case s
            where v.centre = s.centre and v.case_key = s.case_key and v.superseded_by is null""";

    private static final String PUBLISH_CASES = """
            insert into case_version (revision, centre, case_key, version, content_hash, queried, %1$s)
            select revision, centre, case_key, version, content_hash, queried, %1$s
            from staged_case""".formatted(LEAF_LIST);

    private static final String PUBLISH_ATTEMPTS = """
            insert into attempt (revision, centre, position, %1$s)
            select s.revision, s.centre, a.position, a.%2$s
            from staged_attempt a
            join staged_case s on s.line = a.line""".formatted(ATTEMPT_LIST, ATTEMPT_LIST.replace(", ", ", a."));

    private static final String WITHDRAW = """
            insert into case_version (revision, centre, case_key, version, withdrawn, content_hash, queried, %1$s)
            select :revision, centre, case_key, version + 1, :reason, content_hash, queried, %1$s
            from case_version
            where revision = :last""".formatted(LEAF_LIST);

    private static final String KEEP_ATTEMPTS = """
            insert into attempt (revision, centre, position, %1$s)
            select :revision, centre, position, %1$s from attempt where revision = :last""".formatted(ATTEMPT_LIST);

    private final JdbcClient jdbc;
    private final JdbcTemplate template;
    private final Revisions revisions;
    private final JsonMapper json;

    CaseWriter(JdbcClient jdbc, JdbcTemplate template, Revisions revisions, JsonMapper json) {
        this.jdbc = jdbc;
        this.template = template;
        this.revisions = revisions;
        this.json = json;
    }

    /** How many staged cases are new, differ from what is stored, or are stored already. */
    record Compared(long created, long changed, long unchanged) {}

    /** A case as lines of the staging tables' COPY text. */
    record CopyText(String caseLine, String attemptLines) {}

    @Transactional(propagation = Propagation.SUPPORTS)
    CopyText copyText(String centre, long line, KeyedCase keyed) {
        Stream<String> first = Stream.of(
                Long.toString(line),
                "0",
                "0",
                centre,
                keyed.caseKey(),
                Fingerprint.hex(json.writeValueAsString(keyed.content())),
                Boolean.toString(!keyed.queries().isEmpty()));
        List<Attempt> attempts = keyed.content().attempts();
        StringBuilder attemptLines = new StringBuilder();
        IntStream.range(0, attempts.size())
                .forEach(index -> attemptLines.append(CaseColumns.copyLine(
                        Stream.of(Long.toString(line), "0", centre, Integer.toString(index + 1)),
                        CaseColumns.ATTEMPT,
                        attempts.get(index))));
        return new CopyText(CaseColumns.copyLine(first, CaseColumns.LEAVES, keyed.content()), attemptLines.toString());
    }

    /** Brings COPY text into the staging tables. */
    void stage(InputStream cases, InputStream attempts) {
        template.execute((ConnectionCallback<Boolean>) connection -> {
            try (Statement statement = connection.createStatement()) {
                statement.execute(MAKE_STAGING);
            }
            CopyManager copy = connection.unwrap(PGConnection.class).getCopyAPI();
            try {
                copy.copyIn(COPY_CASES, cases);
                copy.copyIn(COPY_ATTEMPTS, attempts);
            } catch (IOException broken) {
                throw new UncheckedIOException(broken);
            }
            return true;
        });
    }

    /** Compares what is staged with what is stored; from here on no other change can come between. */
    Compared compare() {
        revisions.lock();
        jdbc.sql(COMPARE).update();
        return jdbc.sql(COUNT).query(Compared.class).single();
    }

    /** Takes out of the batch, and names by line, what was withdrawn earlier. */
    List<Long> takeOutWithdrawn() {
        return jdbc.sql(TAKE_OUT_WITHDRAWN).query(Long.class).list();
    }

    /** Makes a new version of every staged case that is new or differs. */
    void publish(Viewer viewer) {
        jdbc.sql(TAKE_OUT_UNCHANGED).update();
        long count =
                jdbc.sql("select count(*) from staged_case").query(Long.class).single();
        if (count > 0) {
            jdbc.sql(NUMBER).param("first", revisions.take(count, viewer)).update();
            jdbc.sql(SUPERSEDE).update();
            jdbc.sql(PUBLISH_CASES).update();
            jdbc.sql(PUBLISH_ATTEMPTS).update();
        }
    }

    /** Makes the version that withdraws a case; its content repeats the version before. */
    void withdraw(StoredCase last, Withdrawal reason, Viewer viewer) {
        long revision = revisions.take(1, viewer);
        jdbc.sql("update case_version set superseded_by = :revision where revision = :last")
                .param("revision", revision)
                .param("last", last.revision())
                .update();
        jdbc.sql(WITHDRAW)
                .param("revision", revision)
                .param("reason", reason.code())
                .param("last", last.revision())
                .update();
        jdbc.sql(KEEP_ATTEMPTS)
                .param("revision", revision)
                .param("last", last.revision())
                .update();
    }
}
