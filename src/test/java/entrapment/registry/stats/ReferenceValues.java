package entrapment.registry.stats;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Objects;
import java.util.function.Predicate;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The values that another program computed, with their sources: {@code reference/reference-values.json}. */
final class ReferenceValues {

    static final JsonMapper JSON = JsonMapper.builder()
            .addMixIn(SuppressionAuditAnalysis.SuppressedCell.class, ProtectedSpelling.class)
            .build();

    /** A field of that name cannot be a component of a record. */
    interface ProtectedSpelling {

        @JsonProperty("protected")
        boolean isProtected();
    }

    private ReferenceValues() {}

    /** One row of the file. */
    record Example(
            String id,
            String method,
            String source,
            JsonNode input,
            JsonNode expected,
            JsonNode tolerance,
            List<JsonNode> published) {

        private static Example of(JsonNode row) {
            return new Example(
                    row.required("id").stringValue(),
                    row.required("method").stringValue(),
                    row.required("source").stringValue(),
                    row.required("input"),
                    row.required("expected"),
                    row.required("tolerance"),
                    row.path("published").valueStream().toList());
        }

        double absolute() {
            return tolerance.required("abs").doubleValue();
        }

        double relative() {
            return tolerance.required("rel").doubleValue();
        }

        @Override
        public String toString() {
            return method + " " + id;
        }
    }

    static Stream<Example> examples(Predicate<String> method) {
        try (InputStream file = ReferenceValues.class.getResourceAsStream("/reference/reference-values.json")) {
            return JSON.readTree(Objects.requireNonNull(file))
                    .required("examples")
                    .valueStream()
                    .map(Example::of)
                    .filter(example -> method.test(example.method()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
