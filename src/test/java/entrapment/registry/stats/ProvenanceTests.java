package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.opentest4j.TestAbortedException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Where the reference values come from: the R programs in {@code src/test/R} recompute each of them, and
 * {@code reference/provenance.json} records which function of R did.
 */
class ProvenanceTests {

    private static final Logger LOG = LoggerFactory.getLogger(ProvenanceTests.class);

    private static final Path REFERENCE = Path.of("src/test/resources/reference/reference-values.json");
    private static final Path PROVENANCE = Path.of("src/test/resources/reference/provenance.json");
    private static final Path PROGRAM = Path.of("src/test/R/check-reference.R");

    /** What the program answers where an R package is missing. */
    private static final int PACKAGES_MISSING = 2;

    private static final String DEBIAN_PACKAGES = "r-base-core r-cran-jsonlite r-cran-mass r-cran-nlme r-cran-survival"
            + " r-cran-epi r-cran-epitools r-cran-metafor r-cran-brglm2";

    @TempDir
    private Path directory;

    /** How the program ended and what it printed. */
    private record Run(int exit, String output) {}

    @Test
    void recomputesEveryReferenceValueInR() throws Exception {
        Path result = Path.of("target/reference-check.json");
        Path provenance = directory.resolve("provenance.json");

        Run run = runInR(REFERENCE, result, provenance);

        assertThat(run.exit()).as(run.output()).isZero();
        assertThat(tree(result).valueStream())
                .allSatisfy(row -> assertThat(row.required("ok").booleanValue()).isTrue())
                .extracting(row -> row.required("id").stringValue())
                .hasSize(81)
                .containsExactlyElementsOf(ReferenceValues.examples(method -> true)
                        .map(ReferenceValues.Example::id)
                        .toList());
        assertThat(tree(provenance))
                .as("written by the program, to be committed as it is")
                .isEqualTo(tree(PROVENANCE));
    }

    @Test
    void seesAWrongValueAndAMethodWithoutAProgramInR() throws Exception {
        List<ObjectNode> rows = tree(REFERENCE)
                .required("examples")
                .valueStream()
                .limit(2)
                .map(ObjectNode.class::cast)
                .toList();
        ObjectNode wilson = (ObjectNode) rows.get(0).required("expected").required("wilson");
        wilson.put("lower", wilson.required("lower").doubleValue() * (1 + 2e-6));
        rows.get(1).put("method", "unheard-of");
        ObjectNode planted = ReferenceValues.JSON.createObjectNode();
        planted.putArray("examples").addAll(rows);
        Path reference = Files.writeString(directory.resolve("planted.json"), planted.toString());
        Path result = directory.resolve("reference-check.json");
        Path provenance = directory.resolve("provenance.json");

        Run run = runInR(reference, result, provenance);

        assertThat(run.exit()).as(run.output()).isEqualTo(1);
        assertThat(tree(result)
                        .valueStream()
                        .map(row -> row.required("differences").get(0).stringValue()))
                .satisfiesExactly(
                        wrong -> assertThat(wrong).startsWith("/wilson/lower: got"),
                        orphan -> assertThat(orphan).isEqualTo("no program"));
        assertThat(provenance).doesNotExist();
    }

    @Test
    void knowsAProgramAndAnRFunctionForEveryReference() {
        List<JsonNode> rows = tree(PROVENANCE).valueStream().toList();

        assertThat(rows)
                .extracting(row -> row.required("method").stringValue())
                .doesNotHaveDuplicates()
                .containsExactlyElementsOf(ReferenceValues.examples(method -> true)
                        .map(ReferenceValues.Example::method)
                        .distinct()
                        .sorted()
                        .toList());
        assertThat(rows).allSatisfy(row -> {
            String method = row.required("method").stringValue();
            assertThat(texts(row, "references"))
                    .containsExactlyInAnyOrderElementsOf(ReferenceValues.examples(method::equals)
                            .map(ReferenceValues.Example::id)
                            .toList());
            assertThat(texts(row, "rFunctions"))
                    .isNotEmpty()
                    .allMatch(function -> function.equals("formula in plain R") || function.matches("\\w+::[\\w.]+"));
            assertThat(Path.of(row.required("program").stringValue())).content().contains("program(\"" + method + "\"");
            assertThat(texts(row, "citations")).isNotEmpty();
        });
    }

    private Run runInR(Path reference, Path result, Path provenance) throws IOException, InterruptedException {
        Path output = directory.resolve("output.txt");
        Process process = start(
                output, "Rscript", PROGRAM.toString(), reference.toString(), result.toString(), provenance.toString());
        boolean ended = process.waitFor(10, TimeUnit.MINUTES);
        process.destroyForcibly();
        assertThat(ended).isTrue();
        Run run = new Run(process.exitValue(), Files.readString(output));
        if (run.exit() == PACKAGES_MISSING) {
            throw skipped(run.output().strip());
        }
        return run;
    }

    private static Process start(Path output, String... command) {
        try {
            return new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectOutput(output.toFile())
                    .start();
        } catch (IOException absent) {
            throw skipped("Rscript is not on this machine");
        }
    }

    /** Says so in the log as well, since the closing report of the build only counts what was skipped. */
    private static TestAbortedException skipped(String reason) {
        String message = "Skipped: the reference values are not recomputed in R. " + reason
                + ". To install: apt-get install --no-install-recommends " + DEBIAN_PACKAGES;
        LOG.warn(message);
        return new TestAbortedException(message);
    }

    private static List<String> texts(JsonNode row, String field) {
        return row.required(field).valueStream().map(JsonNode::stringValue).toList();
    }

    private static JsonNode tree(Path file) {
        return ReferenceValues.JSON.readTree(file.toFile());
    }
}
