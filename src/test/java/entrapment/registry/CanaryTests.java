package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.OpenApiFile.Example;
import entrapment.registry.OpenApiFile.Operation;
import entrapment.registry.RegistryClient.Answer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;
import tools.jackson.databind.node.StringNode;

/**
 * Marked values, such as a person's name with a date of birth, go through every operation in every place that a request
 * has; then all answers, all output and every file of the service, its database included, are searched for the mark.
 */
class CanaryTests {

    private static final String MARK = "zanzaquil";

    /** What could identify somebody; each with the mark. */
    private static final List<String> CANARIES =
            List.of("zanzaquil-1951-03-07", "Zanzaquil 0171 555 0199", "zanzaquil@example.org", "ZANZAQUIL00718293");

    /** What may be stored, as it came with an accepted case, but is in no log and no metric. */
    private static final String STORED = "Keepsake-Quv-7";

    private static final OpenApiFile FILE = OpenApiFile.read();
    private static final int MOST_PLACES = 30;

    @TempDir
    private Path home;

    private final List<String> echoes = new ArrayList<>();
    private final Map<Integer, Integer> statuses = new TreeMap<>();

    @Test
    void whatCouldIdentifySomebodyIsNotAnsweredLoggedMeasuredOrStored() throws IOException {
        String metrics;
        String output;
        String key;
        try (ServiceProcess service = ServiceProcess.startUnpacked(home, "--logging.level.root=info")) {
            RegistryClient steward = service.steward();
            key = Files.readString(home.resolve("steward.key")).trim();
            steward.put("/api/centres/hill-lab", "{\"name\": \"Hill laboratory\"}");
            acceptedCase(steward);
            for (Operation operation : FILE.operations()) {
                for (String canary : CANARIES) {
                    inThePath(steward, operation, canary);
                    inTheQuery(steward, operation, canary);
                    inTheHeaders(service.client(), steward, operation, canary);
                }
                operation.bodies().forEach((type, body) -> inTheBody(steward, operation, type, body));
            }
            metrics = steward.get("/actuator/prometheus").body();
            output = service.output();
        }

        assertThat(statuses.keySet()).contains(400, 401, 404, 422).allMatch(status -> status < 500);
        assertThat(statuses.values().stream().mapToInt(Integer::intValue).sum()).isGreaterThan(1_000);
        assertThat(echoes).isEmpty();
        for (String text : List.of(metrics, output.replace(key, ""))) {
            assertThat(text.toLowerCase(Locale.ROOT)).doesNotContain(MARK, STORED.toLowerCase(Locale.ROOT));
        }
        assertThat(filesWith(MARK)).isEmpty();
        assertThat(filesWith(key)).containsExactly("steward.key");
        assertThat(filesWith(STORED))
                .as("the search finds what is there")
                .isNotEmpty()
                .allMatch(file -> file.startsWith("postgresql/"));
    }

    private static void acceptedCase(RegistryClient steward) {
        Example example = firstExample(FILE.operations().stream()
                .filter(each -> each.toString().equals("PUT /api/centres/{centre}/cases/{caseKey}"))
                .findFirst()
                .orElseThrow());
        assertThat(steward.put("/api/centres/hill-lab/cases/" + STORED, example.text())
                        .status())
                .isEqualTo(201);
    }

    private static Example firstExample(Operation operation) {
        Map.Entry<String, JsonNode> body =
                operation.bodies().entrySet().iterator().next();
        return FILE.examples(body.getKey(), body.getValue()).get(0);
    }

    private void inThePath(RegistryClient client, Operation operation, String canary) {
        if (operation.path().contains("{")) {
            send(client, operation.method(), operation.path().replaceAll("\\{[A-Za-z]+}", encoded(canary)), null);
        }
        send(client, operation.method(), operation.path().replaceAll("\\{.*", "") + "/" + encoded(canary), null);
    }

    private void inTheQuery(RegistryClient client, Operation operation, String canary) {
        if (operation.method().equals("GET")) {
            String path = path(operation);
            send(client, "GET", path + "?" + encoded(canary) + "=1", null);
            for (String parameter : FILE.queryParameters(operation)) {
                send(client, "GET", path + "?" + parameter + "=" + encoded(canary), null);
            }
        }
    }

    private void inTheHeaders(RegistryClient nobody, RegistryClient steward, Operation operation, String canary) {
        String path = path(operation);
        send(nobody.with(canary.replace(' ', '-')), operation.method(), path, null);
        for (String header : List.of(
                "Accept",
                "Content-Type",
                "If-Match",
                "If-None-Match",
                "X-Request-Id",
                "User-Agent",
                "Cookie",
                "Referer",
                "X-Forwarded-For",
                "Accept-Language",
                "traceparent")) {
            if (operation.method().equals("GET") || !header.equals("User-Agent")) {
                send(
                        operation.method().equals("GET") ? steward : nobody,
                        operation.method(),
                        path,
                        null,
                        header,
                        canary);
            }
        }
    }

    private void inTheBody(RegistryClient client, Operation operation, String type, JsonNode body) {
        String text = FILE.examples(type, body).get(0).text();
        String canary = CANARIES.get(0);
        for (String each : CANARIES) {
            send(client, operation.method(), path(operation), each, "Content-Type", type);
            send(client, operation.method(), path(operation), text + each, "Content-Type", type);
        }
        if (type.equals("text/csv")) {
            for (String cell : List.of("balloon", "rotational-burr", "caseKey", "deviceClass", "uses")) {
                send(client, operation.method(), path(operation), text.replace(cell, canary), "Content-Type", type);
            }
        } else {
            JsonNode tree = JsonMapper.shared()
                    .readTree(text.lines()
                            .findFirst()
                            .filter(line -> type.endsWith("ndjson"))
                            .orElse(text));
            for (JsonNode changed : changed(tree, canary)) {
                send(client, operation.method(), path(operation), changed.toString(), "Content-Type", type);
            }
        }
    }

    /** The tree with one leaf at a time replaced, and with one more property in each object. */
    private static List<JsonNode> changed(JsonNode tree, String canary) {
        List<JsonNode> changed = new ArrayList<>();
        places(tree, "").limit(MOST_PLACES).forEach(pointer -> {
            JsonNode copy = tree.deepCopy();
            int last = pointer.lastIndexOf('/');
            JsonNode parent = copy.at(pointer.substring(0, last));
            String name = pointer.substring(last + 1);
            if (parent instanceof ObjectNode object) {
                object.put(name, canary);
                ObjectNode more = (ObjectNode) tree.deepCopy().at(pointer.substring(0, last));
                more.put(canary, 1);
                changed.add(more);
            } else if (parent instanceof ArrayNode array) {
                array.set(Integer.parseInt(name), StringNode.valueOf(canary));
            }
            changed.add(copy);
        });
        return changed;
    }

    private static Stream<String> places(JsonNode node, String pointer) {
        List<String> places = new ArrayList<>();
        if (node instanceof ObjectNode object) {
            object.forEachEntry((name, child) ->
                    places.addAll(places(child, pointer + "/" + name).toList()));
        } else if (node instanceof ArrayNode array) {
            for (int index = 0; index < array.size(); index++) {
                places.addAll(places(array.get(index), pointer + "/" + index).toList());
            }
        }
        if (!pointer.isEmpty()) {
            places.add(pointer);
        }
        return places.stream();
    }

    /** A path that is right; the case under it is not the one that is kept. */
    private static String path(Operation operation) {
        return operation
                .path()
                .replace("{centre}", "hill-lab")
                .replace("{caseKey}", "another-case")
                .replace("{period}", "2026-Q2")
                .replace("{slug}", "stale")
                .replaceAll("\\{[A-Za-z]+}", "none");
    }

    private void send(RegistryClient client, String method, String path, @Nullable String body, String... headers) {
        Answer answer = client.send(method, path, body, headers);
        statuses.merge(answer.status(), 1, Integer::sum);
        if ((answer.body() + answer.response().headers())
                .toLowerCase(Locale.ROOT)
                .contains(MARK)) {
            echoes.add(method + " " + path + " " + List.of(headers) + " → " + answer.status() + " " + answer.body());
        }
    }

    private static String encoded(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
    }

    /** The files under the service's home, the database's own and its write-ahead log included, that hold a text. */
    private List<String> filesWith(String text) throws IOException {
        byte[] sought = text.toLowerCase(Locale.ROOT).getBytes(StandardCharsets.ISO_8859_1);
        try (Stream<Path> files = Files.walk(home)) {
            return files.filter(Files::isRegularFile)
                    .filter(file -> !file.startsWith(home.resolve("postgresql-binaries")))
                    .filter(file -> contains(file, sought))
                    .map(file -> home.relativize(file).toString())
                    .toList();
        }
    }

    private static boolean contains(Path file, byte[] sought) {
        try {
            return new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1)
                    .toLowerCase(Locale.ROOT)
                    .contains(new String(sought, StandardCharsets.ISO_8859_1));
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        }
    }
}
