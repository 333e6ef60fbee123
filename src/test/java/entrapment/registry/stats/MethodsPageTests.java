package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.ApprovedFile;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The page on which a statistician looks up what a method is and what it is held against: from the list of calculations,
 * the kernel's index and the reference file. {@code -DupdateExpected=true} writes it again.
 */
class MethodsPageTests {

    private static final Path PAGE = Path.of("src/docs/methods.md");
    /** The same for the pages of the service, which does not carry the reference values. */
    private static final Path RESOURCE = Path.of("src/main/resources/methods.json");

    private static final Path PROVENANCE = Path.of("src/test/resources/reference/provenance.json");
    private static final Path KERNEL = Path.of("src/main/java/entrapment/registry/stats");

    /** A row of the kernel's index: statistic, classes, reference, R, tests. */
    private static final Pattern INDEX_ROW = Pattern.compile(
            "<tr><td>([a-z-]+)</td>\\s*<td>(.*?)</td>\\s*<td>.*?</td>\\s*<td>(.*?)</td>\\s*<td>", Pattern.DOTALL);

    private static final Pattern LINK = Pattern.compile("\\{@link (\\w+)}");

    @Test
    void showsEveryMethodWithItsSourceAndReferences() throws IOException {
        ApprovedFile.assertHolds(PAGE, page());
    }

    @Test
    void tellsThePagesWhatEveryMethodIsHeldAgainst() throws IOException {
        ArrayNode checks = ReferenceValues.JSON.createArrayNode();
        for (Calculation calculation : Calculation.values()) {
            ObjectNode check = checks.addObject().put("method", calculation.code());
            rFunctions(calculation.code()).forEach(check.putArray("r")::add);
            ArrayNode references = check.putArray("references");
            ReferenceValues.examples(calculation.code()::equals).forEach(example -> references
                    .addObject()
                    .put("id", example.id())
                    .put("source", example.source().replaceAll(" \\[computed: R [0-9.]+, [^]]*]", ""))
                    .put("published", example.published().size()));
        }

        ApprovedFile.assertHolds(
                RESOURCE, ReferenceValues.JSON.writerWithDefaultPrettyPrinter().writeValueAsString(checks) + "\n");
    }

    @Test
    void theIndexNamesTheClassesThatAnswerReports() throws IOException {
        assertThat(ofReports()).hasSize(3);
        for (String statistic : ofReports()) {
            ReferenceValues.Example example =
                    ReferenceValues.examples(statistic::equals).findFirst().orElseThrow();
            Object answer = ReferenceCalculations.answer(example.method(), example.input());

            assertThat(classes(statistic)).contains(answer.getClass().getSimpleName());
        }
    }

    @ParameterizedTest
    @EnumSource(Calculation.class)
    void theIndexNamesTheClassThatAnswers(Calculation calculation) throws IOException {
        ReferenceValues.Example example =
                ReferenceValues.examples(calculation.code()::equals).findFirst().orElseThrow();

        Object answer = ReferenceCalculations.answer(example.method(), example.input());

        assertThat(classes(calculation.code())).contains(answer.getClass().getSimpleName());
    }

    private static String page() throws IOException {
        StringBuilder page = new StringBuilder("""
                # Methods

                Every calculation by its name, which is the last part of `POST /api/calculations/{method}`. The classes are
                those of the package `entrapment.registry.stats`, the answer's own one last; their documentation has the
                formulas, the edges and the accuracy. The R functions compute the same from the same counts, and the
                references are the entries of `src/test/resources/reference/reference-values.json` that the kernel and the
                service are held against in every build. `MethodsPageTests` writes this page and compares it.

                Figures describe retrospective registry data; they are no advice during a procedure. Local protocols, the
                device's instructions for use and the licensed operator decide. Small numbers mislead: read every estimate
                with its counts and its interval.

                | method | title | classes | citation | R | references |
                | --- | --- | --- | --- | --- | --- |
                """);
        for (Calculation calculation : Calculation.values()) {
            Method method = calculation.method();
            page.append("| %s |%n"
                    .formatted(String.join(
                            " | ",
                            code(method.code()),
                            method.name(),
                            codes(classes(method.code())),
                            method.citation(),
                            codes(rFunctions(method.code())),
                            codes(ReferenceValues.examples(method.code()::equals)
                                    .map(ReferenceValues.Example::id)
                                    .toList()))));
        }
        page.append("""

                ## Of reports alone

                What reports compute and the service does not offer by itself, held against references in the same way.

                | statistic | classes | R | references |
                | --- | --- | --- | --- |
                """);
        for (String statistic : ofReports()) {
            page.append("| %s |%n"
                    .formatted(String.join(
                            " | ",
                            code(statistic),
                            codes(classes(statistic)),
                            codes(rFunctions(statistic)),
                            codes(ReferenceValues.examples(statistic::equals)
                                    .map(ReferenceValues.Example::id)
                                    .toList()))));
        }
        return page.toString();
    }

    /** The methods of the reference file that are no calculation. */
    private static List<String> ofReports() {
        Set<String> offered =
                Stream.of(Calculation.values()).map(Calculation::code).collect(Collectors.toSet());
        return ReferenceValues.examples(method -> !offered.contains(method))
                .map(ReferenceValues.Example::method)
                .distinct()
                .toList();
    }

    /** The classes of the index, that of the answer last. */
    private static List<String> classes(String statistic) throws IOException {
        return LINK.matcher(indexRow(statistic).group(2))
                .results()
                .map(link -> link.group(1))
                .sorted((a, b) -> Boolean.compare(a.endsWith("Analysis"), b.endsWith("Analysis")))
                .toList();
    }

    /** What the reference values were computed with where that is known, else what the index names. */
    private static List<String> rFunctions(String statistic) throws IOException {
        List<String> computedWith = provenance().getOrDefault(statistic, List.of());
        return computedWith.isEmpty() ? List.of(indexRow(statistic).group(3).split(", ")) : computedWith;
    }

    private static Map<String, List<String>> provenance() throws IOException {
        if (!Files.exists(PROVENANCE)) {
            return Map.of();
        }
        return ReferenceValues.JSON
                .readTree(Files.readString(PROVENANCE))
                .valueStream()
                .collect(Collectors.toMap(
                        entry -> entry.required("method").stringValue(),
                        entry -> entry.required("rFunctions")
                                .valueStream()
                                .map(JsonNode::stringValue)
                                .toList(),
                        (one, other) -> one,
                        TreeMap::new));
    }

    private static MatchResult indexRow(String statistic) throws IOException {
        String index = Files.readString(KERNEL.resolve("package-info.java"), StandardCharsets.UTF_8)
                .replaceAll("(?m)^ \\* ?", "");
        return INDEX_ROW
                .matcher(index)
                .results()
                .filter(row -> row.group(1).equals(statistic))
                .findFirst()
                .orElseThrow();
    }

    private static String codes(List<String> names) {
        return names.stream().map(MethodsPageTests::code).collect(Collectors.joining(", "));
    }

    private static String code(String name) {
        return name.equals("-") ? "none known" : name.contains(" ") ? name : "`" + name + "`";
    }
}
