package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.archive.Archive;
import entrapment.registry.cases.CaseSamples;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;

@RegistryTest
class ArchiveTests {

    private static final List<String> REPORTS = List.of(
            "incidence?by=deviceClass",
            "incidence?by=centre,year&format=csv&comments=true",
            "retrieval?by=haemodynamics",
            "risk-factors",
            "risk-factors?model=stratified&stratifyBy=centre",
            "over-time?chart=between-events",
            "between-centres",
            "harm?by=deviceClass&format=csv",
            "completeness",
            "similar-cases?deviceClass=rotational-burr");

    @Autowired
    private TestNetwork network;

    @Autowired
    private Archive archive;

    @TempDir
    private Path folder;

    @Test
    void anEmptyRegistryThatLoadsItAnswersTheSameBytesAsOfEveryRevision() throws IOException {
        TestCentre centre = network.centre();
        List<Long> revisions = new ArrayList<>();
        String path = centre.cases() + "/archived-case";
        centre.submitter().put(centre.activity("2026-Q2"), "[{\"deviceClass\": \"rotational-burr\", \"uses\": 90}]");
        revisions.add(newest());
        centre.submitter().put(path, CaseSamples.aCase().json());
        revisions.add(newest());
        centre.submitter()
                .put(path, CaseSamples.aCase().with("/outcome/harm", "severe").json(), "If-Match", "\"1\"");
        revisions.add(newest());
        centre.submitter().put(centre.activity("2026-Q2"), "[{\"deviceClass\": \"rotational-burr\", \"uses\": 120}]");
        revisions.add(newest());
        centre.submitter().delete(path, "{\"reason\": \"entered-in-error\"}", "If-Match", "\"2\"");
        revisions.add(newest());
        String key = network.stewardKey();
        Map<String, String> before = reports(network.steward(), revisions, centre.code());
        Path file = folder.resolve("registry-archive.zip");
        network.steward().download("/api/archive", file);

        try (ServiceProcess restored =
                ServiceProcess.startUnpacked(folder.resolve("restored"), "--registry.restore=" + file)) {
            RegistryClient steward = restored.client().with(key);

            assertThat(reports(steward, revisions, centre.code()))
                    .isEqualTo(before)
                    .hasSize(50);
            assertThat(steward.get(path + "/versions").body())
                    .isEqualTo(network.steward().get(path + "/versions").body());
            assertThat(steward.get("/api/audit/verification")
                            .json()
                            .required("intact")
                            .booleanValue())
                    .isTrue();
            assertThat(steward.get("/api/audit?size=1000").body().contains("\"restore\""))
                    .as("the trail says that it was restored")
                    .isTrue();
        }
    }

    private long newest() {
        return network.steward()
                .get("/api/reports/incidence")
                .json()
                .at("/dataCut/revision")
                .longValue();
    }

    /** Of the centre alone where counting every case of the other tests would take long. */
    private static Map<String, String> reports(RegistryClient client, List<Long> revisions, String centre) {
        Map<String, String> answers = new LinkedHashMap<>();
        for (long revision : revisions) {
            for (String report : REPORTS) {
                String question = "/api/reports/" + report + (report.contains("?") ? "&" : "?") + "asOf=" + revision
                        + (report.startsWith("incidence") ? "" : "&centre=" + centre);
                answers.put(question, client.get(question).body());
            }
        }
        return answers;
    }

    @Test
    void holdsEveryTable() throws IOException {
        List<String> tables = network.database()
                .sql("select table_name || '.csv' from information_schema.tables"
                        + " where table_schema = 'public' and table_name <> 'flyway_schema_history'")
                .query(String.class)
                .list();

        assertThat(entries().keySet())
                .containsAll(tables)
                .contains("manifest.json")
                .hasSize(tables.size() + 1);
    }

    @Test
    void oneThatIsNotAsItWasWrittenIsRefusedAndLoadsNothing() throws IOException {
        network.centre();
        DataSource empty = emptyDatabase();
        Map<String, byte[]> written = entries();

        assertThatThrownBy(() -> archive.restore(zip(without(written, "manifest.json")), empty))
                .hasMessageContaining("no manifest");
        assertThatThrownBy(() -> archive.restore(
                        zip(altered(written, "centre.csv", text -> text.replace("A centre", "B centre"))), empty))
                .hasMessageContaining("centre.csv that is not as it was written");
        assertThatThrownBy(() -> archive.restore(
                        zip(altered(written, "manifest.json", text -> text.replaceFirst("\"V[0-9]+\"", "\"V999\""))),
                        empty))
                .hasMessageContaining("came from schema V999");
        assertThat(network.database(empty)
                        .sql("select count(*) from centre")
                        .query(Long.class)
                        .single())
                .isZero();
    }

    @Test
    void isNotLoadedIntoARegistryThatHoldsAnything() throws Exception {
        DataSource empty = emptyDatabase();
        Path file = zip(entries());
        archive.restore(file, empty);

        assertThatThrownBy(() -> archive.restore(file, empty)).hasMessageContaining("this one is not empty");
    }

    /** A database beside that of the tests, with the schema and nothing else. */
    private DataSource emptyDatabase() {
        network.database().sql("drop database if exists restored").update();
        network.database().sql("create database restored").update();
        DataSource restored = network.ownerOf("restored");
        Flyway.configure()
                .dataSource(restored)
                .locations("classpath:db/migration")
                .load()
                .migrate();
        return restored;
    }

    private Map<String, byte[]> entries() throws IOException {
        Path file = folder.resolve("written.zip");
        network.steward().download("/api/archive", file);
        Map<String, byte[]> entries = new LinkedHashMap<>();
        try (InputStream content = Files.newInputStream(file);
                ZipInputStream zip = new ZipInputStream(content)) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                entries.put(entry.getName(), zip.readAllBytes());
            }
        }
        return entries;
    }

    private static Map<String, byte[]> without(Map<String, byte[]> entries, String name) {
        Map<String, byte[]> left = new LinkedHashMap<>(entries);
        left.remove(name);
        return left;
    }

    private static Map<String, byte[]> altered(Map<String, byte[]> entries, String name, UnaryOperator<String> change) {
        Map<String, byte[]> altered = new LinkedHashMap<>(entries);
        altered.computeIfPresent(name, (key, bytes) -> change.apply(new String(bytes, StandardCharsets.UTF_8))
                .getBytes(StandardCharsets.UTF_8));
        return altered;
    }

    private Path zip(Map<String, byte[]> entries) throws IOException {
        Path file = Files.createTempFile(folder, "archive", ".zip");
        try (OutputStream out = Files.newOutputStream(file);
                ZipOutputStream zip = new ZipOutputStream(out)) {
            for (Map.Entry<String, byte[]> entry : entries.entrySet()) {
                zip.putNextEntry(new ZipEntry(entry.getKey()));
                zip.write(entry.getValue());
                zip.closeEntry();
            }
        }
        return file;
    }
}
