package entrapment.registry.archive;

import entrapment.registry.access.AuditTrail;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Revisions;
import entrapment.registry.access.RowSecurityScope;
import entrapment.registry.access.Viewer;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import javax.sql.DataSource;
import org.postgresql.PGConnection;
import org.springframework.core.io.support.PathMatchingResourcePatternResolver;
import org.springframework.jdbc.core.ConnectionCallback;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.datasource.SingleConnectionDataSource;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.util.StreamUtils;
import tools.jackson.databind.json.JsonMapper;

/**
 * The whole registry as one file, and back (src/docs/archive.md): a ZIP with a CSV for each table, as PostgreSQL's COPY
 * writes it, and last a manifest with the SHA-256 of each. One snapshot, so it belongs to one revision.
 */
@Component
public class Archive {

    private static final String FORMAT = "entrapment-registry-archive";
    private static final int FORMAT_VERSION = 1;
    private static final String MANIFEST = "manifest.json";

    /** Every table with its order, each after those that it refers to. */
    private static final List<Part> PARTS = List.of(
            new Part("centre", "code"),
            new Part("access_key", "created_at, id"),
            new Part("revision", "last"),
            new Part("case_version", "revision"),
            new Part("attempt", "revision, position"),
            new Part("activity_return", "revision"),
            new Part(
                    "use_count",
                    "revision, device_class, device_size_mm, vessel, calcification, tortuosity, total_occlusion,"
                            + " stent_layers, guide_french, operator_stage"),
            new Part("outside_release", "number"),
            new Part("outside_figure", "release, position"),
            new Part("meeting", "created_at, id"),
            new Part("meeting_cut", "meeting, number"),
            new Part("case_review", "meeting, case_key"),
            new Part("review_statement", "meeting, case_key, position"),
            new Part("preventability_rating", "meeting, case_key, key_id"),
            new Part("meeting_action", "meeting, number"),
            new Part("audit_entry", "number"),
            new Part("audit_head", "number"));

    private record Part(String table, String order) {

        String file() {
            return table + ".csv";
        }
    }

    /**
     * What the archive holds.
     *
     * @param schema the newest migration of the database that it came from
     * @param auditHead hash of the last audit entry in it
     */
    record Manifest(
            String format, int formatVersion, String schema, DataCut dataCut, String auditHead, List<File> files) {}

    record File(String name, long rows, String sha256) {}

    private final JdbcTemplate jdbc;
    private final RowSecurityScope scope;
    private final Revisions revisions;
    private final AuditTrail audit;
    private final JsonMapper json;

    Archive(JdbcTemplate jdbc, RowSecurityScope scope, Revisions revisions, AuditTrail audit, JsonMapper json) {
        this.jdbc = jdbc;
        this.scope = scope;
        this.revisions = revisions;
        this.audit = audit;
        this.json = json;
    }

    /**
     * Writes everything: every version of every case and return, every revision, the keys as hashes, the audit trail. One
     * that breaks off has no manifest, and cannot be loaded.
     */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ, timeout = 3_600)
    public void write(OutputStream out, Viewer viewer) {
        viewer.requireSteward();
        scope.forTheNetwork(() -> writeAll(out));
    }

    private boolean writeAll(OutputStream out) {
        DataCut cut = revisions.cut(null);
        jdbc.execute("set local statement_timeout = 0");
        return Boolean.TRUE.equals(jdbc.execute((ConnectionCallback<Boolean>) connection -> {
            try (ZipOutputStream zip = new ZipOutputStream(out)) {
                List<File> files = new ArrayList<>();
                for (Part part : PARTS) {
                    files.add(write(part, zip, connection));
                }
                zip.putNextEntry(new ZipEntry(MANIFEST));
                zip.write(json.writerWithDefaultPrettyPrinter()
                        .writeValueAsBytes(new Manifest(
                                FORMAT, FORMAT_VERSION, schema(), cut, auditHead(jdbc), List.copyOf(files))));
                zip.closeEntry();
            } catch (IOException broken) {
                throw new UncheckedIOException(broken);
            }
            return true;
        }));
    }

    private static File write(Part part, ZipOutputStream zip, Connection connection) throws SQLException, IOException {
        zip.putNextEntry(new ZipEntry(part.file()));
        MessageDigest sha256 = sha256();
        long rows = connection
                .unwrap(PGConnection.class)
                .getCopyAPI()
                .copyOut(
                        "copy (select * from %s order by %s) to stdout (format csv, header)"
                                .formatted(part.table(), part.order()),
                        new DigestOutputStream(StreamUtils.nonClosing(zip), sha256));
        zip.closeEntry();
        return new File(part.file(), rows, HexFormat.of().formatHex(sha256.digest()));
    }

    /** The newest migration of this program, and so of its database. */
    private static String schema() throws IOException {
        return Stream.of(new PathMatchingResourcePatternResolver().getResources("classpath:db/migration/V*.sql"))
                .map(migration -> String.valueOf(migration.getFilename()))
                .max(Comparator.naturalOrder())
                .orElseThrow()
                .replaceFirst("__.*", "");
    }

    private static String auditHead(JdbcTemplate jdbc) {
        return String.valueOf(jdbc.queryForObject("select encode(hash, 'hex') from audit_head", String.class));
    }

    /**
     * Loads an archive into an empty registry, all of it or nothing, and checks each table and the audit chain.
     *
     * @param owner connects as the role that owns the schema: the service's own role may not write history
     * @throws IllegalStateException if the registry is not empty, or the archive is not whole
     */
    public void restore(Path file, DataSource owner) throws IOException, SQLException {
        try (ZipFile zip = new ZipFile(file.toFile());
                Connection connection = owner.getConnection()) {
            Manifest manifest = manifest(zip);
            require(
                    FORMAT.equals(manifest.format()) && manifest.formatVersion() == FORMAT_VERSION,
                    "is of another format");
            require(
                    schema().equals(manifest.schema()),
                    "came from schema " + manifest.schema()
                            + "; load it with the version of the service that wrote it");
            require(
                    PARTS.stream()
                            .map(Part::file)
                            .toList()
                            .equals(manifest.files().stream().map(File::name).toList()),
                    "does not have the tables of this version");
            connection.setAutoCommit(false);
            JdbcTemplate empty = new JdbcTemplate(new SingleConnectionDataSource(connection, true));
            require(
                    Boolean.TRUE.equals(empty.queryForObject(
                            "select not exists (select from access_key) and not exists (select from centre)",
                            Boolean.class)),
                    "can be loaded into an empty registry alone, and this one is not empty");
            empty.execute("delete from audit_head");
            empty.execute("alter table audit_entry disable trigger chain_audit_entry");
            for (int index = 0; index < PARTS.size(); index++) {
                read(PARTS.get(index), manifest.files().get(index), zip, connection);
            }
            empty.execute("alter table audit_entry enable trigger chain_audit_entry");
            require(manifest.auditHead().equals(auditHead(empty)), "has another audit trail than its manifest says");
            connection.commit();
        }
    }

    /** Says in the restored trail that it was restored. */
    @Transactional
    public void tellRestored() {
        audit.done(null, null, AuditTrail.Action.RESTORE, "archive");
    }

    private Manifest manifest(ZipFile zip) throws IOException {
        ZipEntry entry = zip.getEntry(MANIFEST);
        require(entry != null, "has no manifest, so it is not whole");
        try (InputStream content = zip.getInputStream(entry)) {
            return json.readValue(content, Manifest.class);
        }
    }

    private static void read(Part part, File expected, ZipFile zip, Connection connection)
            throws IOException, SQLException {
        MessageDigest sha256 = sha256();
        try (InputStream content = new DigestInputStream(zip.getInputStream(zip.getEntry(part.file())), sha256)) {
            long rows = connection
                    .unwrap(PGConnection.class)
                    .getCopyAPI()
                    .copyIn("copy " + part.table() + " from stdin (format csv, header match)", content);
            require(
                    rows == expected.rows()
                            && HexFormat.of().formatHex(sha256.digest()).equals(expected.sha256()),
                    "has a " + part.file() + " that is not as it was written");
        }
    }

    private static void require(boolean right, String otherwise) {
        if (!right) {
            throw new IllegalStateException("the archive " + otherwise);
        }
    }

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException(impossible);
        }
    }
}
