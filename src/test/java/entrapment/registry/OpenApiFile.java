package entrapment.registry;

import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.dialect.Dialects;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;
import tools.jackson.dataformat.yaml.YAMLMapper;

/**
 * openapi.yaml as another hospital's program reads it. Its schemas leave answers open for further properties; here they
 * are closed, so that a property that is answered but not documented is found.
 */
final class OpenApiFile {

    private static final String ADDRESS = "https://registry/openapi.json";
    private static final String PPTX = "application/vnd.openxmlformats-officedocument.presentationml.presentation";
    private static final String JSON = "application/json";
    private static final Set<String> METHODS = Set.of("get", "put", "post", "delete", "patch");
    private static final JsonMapper MAPPER = JsonMapper.shared();

    private final JsonNode root;
    private final SchemaRegistry schemas;

    private OpenApiFile(JsonNode root) {
        this.root = root;
        JsonNode closed = root.deepCopy();
        visit("", closed, (name, node) -> close(node));
        schemas = SchemaRegistry.withDefaultDialect(
                Dialects.getOpenApi31(), builder -> builder.schemas(Map.of(ADDRESS, closed.toString())));
    }

    static OpenApiFile read() {
        try (InputStream file = OpenApiFile.class.getResourceAsStream("/openapi/openapi.yaml")) {
            return new OpenApiFile(new YAMLMapper().readTree(Objects.requireNonNull(file)));
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }

    /**
     * A path and a method.
     *
     * @param bodies what may be sent, by content type
     * @param responses what may be answered, by status
     */
    record Operation(
            String path, String method, JsonNode node, Map<String, JsonNode> bodies, Map<String, JsonNode> responses) {

        boolean documents(int status) {
            return responses.containsKey(Integer.toString(status));
        }

        /** What is answered where all goes well, by content type. */
        Map<String, JsonNode> answers() {
            Map<String, JsonNode> answers = new LinkedHashMap<>();
            responses.forEach((status, response) -> {
                if (status.startsWith("2")) {
                    answers.putAll(properties(response.path("content")));
                }
            });
            return answers;
        }

        @Override
        public String toString() {
            return method + " " + path;
        }
    }

    /**
     * A value written in the file.
     *
     * @param described what has the example: a media type, a parameter, a header or a schema
     */
    record Example(String name, String type, JsonNode described, JsonNode value) {

        /** As it travels. */
        String text() {
            return type.endsWith("json") && !type.endsWith("ndjson") ? value.toString() : value.stringValue();
        }
    }

    List<Operation> operations() {
        List<Operation> operations = new ArrayList<>();
        properties(root.path("paths")).forEach((path, item) -> properties(item).forEach((method, node) -> {
            if (METHODS.contains(method)) {
                operations.add(operation(path, method, node));
            }
        }));
        return operations;
    }

    private Operation operation(String path, String method, JsonNode node) {
        Map<String, JsonNode> responses = properties(node.path("responses"));
        responses.replaceAll((status, response) -> resolve(response));
        return new Operation(
                path, method.toUpperCase(Locale.ROOT), node, properties(node.at("/requestBody/content")), responses);
    }

    /** The names of what may stand in the query of a URL. */
    Set<String> queryParameters(Operation operation) {
        return operation
                .node()
                .path("parameters")
                .valueStream()
                .map(this::resolve)
                .filter(parameter -> parameter.path("in").asString("").equals("query"))
                .map(parameter -> parameter.get("name").stringValue())
                .collect(Collectors.toCollection(TreeSet::new));
    }

    /** What may stand in the query of a URL, by name, with the codes that are listed for it. */
    Map<String, List<String>> choices(Operation operation) {
        Map<String, List<String>> choices = new TreeMap<>();
        operation
                .node()
                .path("parameters")
                .valueStream()
                .map(this::resolve)
                .filter(parameter -> parameter.path("in").asString("").equals("query"))
                .forEach(
                        parameter -> choices.put(parameter.get("name").stringValue(), enumOf(parameter.get("schema"))));
        return choices;
    }

    /** The place in the file that a JSON pointer names. */
    JsonNode at(String pointer) {
        return root.at(pointer);
    }

    /** The codes of an enum among the schemas. */
    List<String> codes(String schema) {
        return texts(root.at("/components/schemas/" + schema + "/enum"));
    }

    /** Every list of codes that a property or parameter of this name has. */
    List<List<String>> codesOf(String field) {
        List<List<String>> lists = new ArrayList<>();
        visit("", root, (name, node) -> {
            if (name.equals("properties") && node.has(field)) {
                lists.add(enumOf(node.get(field)));
            }
            if (node.has("in") && node.path("name").asString("").equals(field)) {
                lists.add(enumOf(node.get("schema")));
            }
        });
        return lists;
    }

    /** The codes of a schema: its own, those of its items or of its property names, or those of its alternative to null. */
    private List<String> enumOf(JsonNode schema) {
        JsonNode place = resolve(schema);
        if (place.has("items")) {
            return enumOf(place.get("items"));
        }
        if (place.has("propertyNames")) {
            return enumOf(place.get("propertyNames"));
        }
        return place.has("anyOf") ? enumOf(place.get("anyOf").get(0)) : texts(place.path("enum"));
    }

    /** Every example of the file. */
    List<Example> examples() {
        List<Example> examples = new ArrayList<>();
        visit("", root, (name, node) -> {
            if (node.has("schema")) {
                examples.addAll(examples(name.contains("/") ? name : JSON, node));
            } else if (node.path("examples").isArray()) {
                JsonNode described = MAPPER.createObjectNode().set("schema", node);
                node.get("examples").forEach(value -> examples.add(new Example(name, JSON, described, value)));
            }
        });
        return examples;
    }

    /** The examples of a media type, a parameter or a header. */
    List<Example> examples(String type, JsonNode described) {
        List<Example> examples = new ArrayList<>();
        properties(described.path("examples"))
                .forEach((name, example) -> examples.add(
                        new Example(name, type, described, resolve(example).get("value"))));
        if (described.has("example")) {
            examples.add(new Example("example", type, described, described.get("example")));
        }
        return examples;
    }

    /** What of a body does not fit what is described; empty where all does. */
    List<String> mismatches(String type, JsonNode described, String body) {
        return switch (type) {
            case "application/x-ndjson" ->
                body.lines()
                        .flatMap(line -> mismatches(described.path("x-line-schema"), line))
                        .toList();
            case "text/csv" -> unknownColumns(described, body);
            case "text/plain", "text/calendar", "application/zip", PPTX -> List.of();
            default -> mismatches(described.path("schema"), body).toList();
        };
    }

    private Stream<String> mismatches(JsonNode schema, String json) {
        String absolute = schema.toString().replace("\"#/", "\"" + ADDRESS + "#/");
        return schemas
                .getSchema(absolute, InputFormat.JSON)
                .validate(
                        json,
                        InputFormat.JSON,
                        execution -> execution.executionConfig(config -> config.formatAssertionsEnabled(true)))
                .stream()
                .map(Object::toString);
    }

    /** Attempts are described once, and what a report is split by stands beside the columns described. */
    private List<String> unknownColumns(JsonNode described, String csv) {
        List<String> unknown = new ArrayList<>(columns(csv));
        unknown.removeAll(codes("Axis"));
        unknown.removeAll(codes("RetrievalSplit"));
        unknown.replaceAll(column -> column.replaceFirst("^attempt([2-9]|1[0-2])(?=[A-Z])", "attempt1"));
        unknown.removeAll(columns(described));
        return unknown;
    }

    /** The columns of CSV, comments passed over. */
    static List<String> columns(String csv) {
        String header =
                csv.lines().filter(line -> !line.startsWith("#")).findFirst().orElse("");
        return List.of(header.split(",", -1));
    }

    /** The columns that are described; where they differ by model or chart, those of all. */
    static List<String> columns(JsonNode described) {
        JsonNode columns = described.path("x-columns");
        return columns.isObject()
                ? columns.valueStream()
                        .flatMap(each -> texts(each).stream())
                        .distinct()
                        .toList()
                : texts(columns);
    }

    /** The columns that are described for the model or chart of an answer. */
    static List<String> columns(JsonNode described, JsonNode answer) {
        JsonNode columns = described.path("x-columns");
        return columns.isObject()
                ? texts(columns.required(
                        answer.path(answer.has("model") ? "model" : "chart").stringValue()))
                : texts(columns);
    }

    private static List<String> texts(JsonNode array) {
        return array.valueStream().map(JsonNode::stringValue).toList();
    }

    private JsonNode resolve(JsonNode node) {
        return node.has("$ref") ? root.at(node.get("$ref").stringValue().substring(1)) : node;
    }

    private static Map<String, JsonNode> properties(JsonNode node) {
        Map<String, JsonNode> properties = new LinkedHashMap<>();
        node.forEachEntry(properties::put);
        return properties;
    }

    private static void visit(String name, JsonNode node, BiConsumer<String, JsonNode> visitor) {
        visitor.accept(name, node);
        properties(node).forEach((child, value) -> visit(child, value, visitor));
        if (node.isArray()) {
            node.forEach(element -> visit("", element, visitor));
        }
    }

    private static void close(JsonNode node) {
        if (node instanceof ObjectNode schema && schema.path("properties").isObject()) {
            schema.putIfAbsent("additionalProperties", MAPPER.getNodeFactory().booleanNode(false));
        }
    }
}
