package entrapment.registry;

import entrapment.registry.OpenApiFile.Example;
import entrapment.registry.OpenApiFile.Operation;
import entrapment.registry.cases.CaseSamples;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.zip.GZIPOutputStream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A request that nobody should send, as its bytes: a documented one with something wrong in its path, query, headers or
 * body. Nothing of it can be stored, since what could be is refused for its body, its key, its If-Match or its Accept, or
 * is only a dry run.
 *
 * @param readable whether the container can read it as HTTP, so that the service itself answers
 */
@SuppressWarnings("ArrayRecordComponent") // Sent, never compared.
record FuzzRequest(String what, byte[] bytes, boolean readable) {

    /** Stands wherever a value of the sender's own can; no answer and no log line may hold it. */
    static final String MARK = "Zanzibar";

    private static final OpenApiFile FILE = OpenApiFile.read();
    private static final List<Operation> OPERATIONS = FILE.operations();
    private static final List<Operation> STORING = OPERATIONS.stream()
            .filter(operation -> operation.path().startsWith("/api/centres/")
                    || operation.path().startsWith("/api/reports"))
            .toList();
    private static final JsonMapper JSON = JsonMapper.shared();
    private static final String DEEP = "[".repeat(5_000);
    private static final byte[] BOMB = gzip(new byte[4 << 20]);

    /** Texts that a reader of numbers, codes, keys, periods, paths or SQL could trip over. */
    private static final List<String> ODD = List.of(
            "",
            " ",
            MARK,
            MARK + "\u0000",
            MARK + "\r\nX-Odd: 1",
            "-1",
            "0",
            "1",
            "0.5",
            "1e400",
            "-1e-400",
            "NaN",
            "Infinity",
            "9".repeat(30),
            "9".repeat(400),
            "null",
            "true",
            "[]",
            "{}",
            "'; drop table case_version; --" + MARK,
            "../" + MARK,
            "..%2f" + MARK,
            "%",
            "%zz",
            "%ff%fe",
            "\u00e9\u4e2d\ud83d\udca5" + MARK,
            "<script>" + MARK,
            MARK.repeat(400),
            "2026-Q5",
            "2026-Q2",
            "9999-Q4",
            "0000-Q1",
            "-2026-Q1",
            ",,,",
            "a,b,c",
            "*",
            "\"1\"",
            "W/\"1\"",
            "\"999\"",
            ";q=" + MARK,
            "json",
            "csv",
            "rotational-burr",
            "unknown",
            "deviceClass",
            "centre",
            "0x10",
            "1_000",
            "\u0661",
            "+1",
            "1.",
            "1e5",
            MARK + "@x.org",
            "1950-01-01",
            "cusum",
            "adjusted",
            "between-events",
            "clopper-pearson",
            "other-centres");

    /** Numbers at the edges of what a count, a size or a proportion can be. */
    private static final List<String> NUMBERS = List.of(
            "0",
            "-0.0",
            "1",
            "-1",
            "2",
            "3",
            "0.5",
            "0.05",
            "1e-300",
            "1e300",
            "1e400",
            "0.9999999999",
            "2147483647",
            "2147483648",
            "1000000",
            "9007199254740993",
            "9223372036854775808",
            "1e-5",
            "100",
            "12.5");

    private static final List<String> HEADERS = List.of(
            "Accept",
            "If-Match",
            "If-None-Match",
            "If-Modified-Since",
            "If-Unmodified-Since",
            "If-Range",
            "Range",
            "Cookie",
            "Content-Encoding",
            "Content-Language",
            "Content-Disposition",
            "Accept-Charset",
            "Accept-Language",
            "Accept-Encoding",
            "Origin",
            "Access-Control-Request-Method",
            "X-Forwarded-For",
            "X-Forwarded-Host",
            "Forwarded",
            "X-Request-Id",
            "X-HTTP-Method-Override",
            "Upgrade",
            "Via",
            "Date",
            "TE",
            "Expect",
            "Referer",
            "User-Agent",
            MARK);

    /** Header lines that are not well-formed, or more than are read. */
    private static final List<String> ILL_FORMED = List.of(
            MARK,
            ": " + MARK,
            MARK + " : 1",
            " folded " + MARK,
            MARK + "\u0001: 1",
            MARK + ": a\u0000b",
            "Content-Length: -1",
            "Content-Length: " + MARK,
            "Content-Length: 5\r\nContent-Length: 6",
            "Transfer-Encoding: " + MARK,
            "Transfer-Encoding: chunked\r\nTransfer-Encoding: " + MARK,
            "Host: " + MARK + "@",
            MARK + ": " + "x".repeat(9_000),
            (MARK + ": 1\r\n").repeat(60) + "X: 1");

    /** Who may be asking, and where. */
    record Network(List<String> keys, List<String> centres, String storedCase) {}

    static FuzzRequest of(Random random, Network network) {
        Operation operation = any(random, random.nextBoolean() ? STORING : OPERATIONS);
        String path = path(random, operation, network) + query(random, operation);
        List<String> headers = new ArrayList<>(List.of("Host: localhost", "Connection: close"));
        String key = any(random, network.keys());
        if (!key.isEmpty()) {
            headers.add("Authorization: " + (random.nextInt(50) == 0 ? MARK : "Bearer ") + key);
        }
        byte[] body = {};
        if (!operation.bodies().isEmpty() || random.nextInt(20) == 0) {
            List<String> types = List.copyOf(operation.bodies().keySet());
            String type = types.isEmpty() ? "application/json" : any(random, types);
            body = body(random, operation, type, headers);
            headers.add("Content-Type: " + (random.nextInt(15) == 0 ? line(any(random, ODD)) + "/" + MARK : type));
            body = framed(random, body, headers);
        }
        for (int odd = random.nextInt(4); odd > 1; odd--) {
            headers.add(any(random, HEADERS) + ": " + line(any(random, ODD)));
        }
        boolean readable = true;
        if (random.nextInt(25) == 0) {
            headers.add(any(random, ILL_FORMED));
            Collections.shuffle(headers, random);
            readable = false;
        }
        String method = operation.method();
        if (random.nextInt(30) == 0) {
            method = any(random, List.of("HEAD", "OPTIONS", "PATCH", "TRACE", "CONNECT", "PROPFIND", MARK));
        }
        String version =
                random.nextInt(60) == 0 ? any(random, List.of("HTTP/1.0", "HTTP/0.9", "HTTP/2.0", MARK)) : "HTTP/1.1";
        readable &= version.startsWith("HTTP/1");
        String head = method + " " + path + " " + version + "\r\n" + String.join("\r\n", headers) + "\r\n\r\n";
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        bytes.writeBytes(head.getBytes(StandardCharsets.ISO_8859_1));
        bytes.writeBytes(body);
        return new FuzzRequest(
                head.replace(key.isEmpty() ? "no key" : key, "KEY") + body.length,
                bytes.toByteArray(),
                readable && !path.contains("%zz") && path.chars().allMatch(each -> each > ' ' && each < 127));
    }

    private static String path(Random random, Operation operation, Network network) {
        String path = operation
                .path()
                .replace("{centre}", random.nextInt(12) == 0 ? encoded(random) : any(random, network.centres()))
                .replace("{caseKey}", random.nextInt(3) == 0 ? encoded(random) : network.storedCase())
                .replace("{period}", random.nextInt(3) == 0 ? encoded(random) : "2026-Q2")
                .replace("{meeting}", "mtg-" + encoded(random))
                .replace("{action}", encoded(random))
                .replace("{slug}", encoded(random))
                .replace("{group}", encoded(random))
                .replace("{id}", "key-" + encoded(random));
        return switch (random.nextInt(40)) {
            case 0 -> path + "/" + encoded(random);
            case 1 -> path + ";" + MARK + "=1";
            case 2 -> "/" + path;
            case 3 -> path.replace("/api", "/%61pi");
            case 4 -> path + any(random, List.of("\\", "{", "|", "%00", "%zz", "\u00e9", " x", "#a", "/../..", "//"));
            case 5 -> "http://" + MARK + path;
            default -> path;
        };
    }

    private static String query(Random random, Operation operation) {
        List<String> known = List.copyOf(FILE.queryParameters(operation));
        List<String> pairs = new ArrayList<>();
        // Rows that are right are never kept: what is not only checked must hold one that is wrong.
        for (int each = random.nextInt(5); each > 0; each--) {
            String name = known.isEmpty() || random.nextInt(6) == 0 ? encoded(random) : any(random, known);
            if (!name.equals("dryRun")) {
                pairs.add(name + (random.nextInt(20) == 0 ? "" : "=" + encoded(random)));
            }
        }
        if (random.nextInt(200) == 0) {
            pairs.addAll(Collections.nCopies(250, MARK + "=1"));
        }
        return pairs.isEmpty() ? "" : "?" + String.join(random.nextInt(20) == 0 ? "&&" : "&", pairs);
    }

    /** An odd text as it stands in a URL; now and then as nobody may write it there. */
    private static String encoded(Random random) {
        String odd = any(random, ODD);
        return random.nextInt(40) == 0
                ? odd.replace("\r\n", "").replace(" ", "")
                : URLEncoder.encode(odd, StandardCharsets.UTF_8).replace("+", "%20");
    }

    private static byte[] body(Random random, Operation operation, String type, List<String> headers) {
        boolean calculation = operation.path().startsWith("/api/calculations");
        List<Example> examples = operation.bodies().containsKey(type)
                ? FILE.examples(type, operation.bodies().get(type))
                : List.of();
        String text = examples.isEmpty() ? "{}" : any(random, examples).text();
        return switch (random.nextInt(16)) {
            case 0 ->
                bytes(text.substring(0, random.nextInt(Math.max(1, text.strip().length()))) + "\"" + MARK);
            case 1 -> broken(random, text);
            case 2 -> bytes("{\"" + MARK + "\":" + DEEP);
            case 3 -> bytes("[\"" + MARK + "\"]");
            case 4 -> bytes("{\"" + MARK + "\":\"" + "x".repeat(20_000) + "\"}");
            case 5 -> bytes("{\"" + MARK.repeat(40) + "\":" + "9".repeat(200) + "}");
            case 6 -> bytes(MARK + "," + "x".repeat(70_000) + "\n" + ",".repeat(10_000) + "\n");
            case 7 -> bytes("caseKey,period," + MARK + "\n\"" + (MARK + "\n").repeat(5_000));
            case 8 -> {
                headers.add("Content-Encoding: gzip");
                yield BOMB;
            }
            case 9, 10, 11 -> {
                // Right in itself: the header refuses it.
                headers.add(operation.path().endsWith("{caseKey}") ? "If-Match: \"999\"" : "Accept: image/png");
                yield bytes(
                        operation.path().endsWith("{caseKey}")
                                        && operation.method().equals("PUT")
                                ? CaseSamples.aCase()
                                        .with("/outcome/harm", "severe")
                                        .json()
                                : text);
            }
            default -> type.endsWith("csv") ? csv(random, text) : json(random, text, type, calculation);
        };
    }

    /** The body as it travels; now and then it breaks off, or its chunks are not what they say. */
    private static byte[] framed(Random random, byte[] body, List<String> headers) {
        String text = new String(body, StandardCharsets.ISO_8859_1);
        String size = Integer.toHexString(body.length);
        String framed =
                switch (random.nextInt(30)) {
                    case 0 -> size + "\r\n" + text + "\r\n0\r\n\r\n";
                    case 1 -> size + ";x=" + MARK + "\r\n" + text + "\r\n" + MARK + "\r\n";
                    case 2 -> MARK + "\r\n" + text;
                    case 3 -> "ffffffff\r\n" + text;
                    default -> "";
                };
        if (!framed.isEmpty()) {
            headers.add("Transfer-Encoding: chunked");
            return framed.getBytes(StandardCharsets.ISO_8859_1);
        }
        headers.add("Content-Length: " + (random.nextInt(30) == 0 ? body.length + 100 : body.length));
        return body;
    }

    /** A byte that no UTF-8 has. */
    private static byte[] broken(Random random, String text) {
        byte[] bytes = bytes(text.isEmpty() ? "x" : text);
        bytes[random.nextInt(bytes.length)] = (byte) 0xFF;
        return bytes;
    }

    /** One column more than there are, and odd cells. */
    private static byte[] csv(Random random, String text) {
        StringBuilder csv = new StringBuilder();
        boolean header = true;
        for (String line : text.split("\r?\n", -1)) {
            String[] cells = line.split(",", -1);
            if (!header || random.nextInt(4) == 0) {
                for (int odd = random.nextInt(3); odd >= 0; odd--) {
                    cells[random.nextInt(cells.length)] =
                            "\"" + any(random, ODD).replace("\"", "\"\"") + "\"";
                }
                cells[cells.length - 1] += MARK;
            }
            csv.append(String.join(",", cells))
                    .append(header && random.nextInt(3) == 0 ? "," + MARK : "")
                    .append("\n");
            header = false;
        }
        return bytes(csv + MARK + "\n");
    }

    /** Some values replaced; unless it is a calculation, which stores nothing, with a field that there is not. */
    private static byte[] json(Random random, String text, String type, boolean calculation) {
        StringBuilder lines = new StringBuilder();
        for (String line : type.endsWith("ndjson") ? text.split("\n") : new String[] {text}) {
            JsonNode tree = JSON.readTree(line);
            for (int odd = random.nextInt(3); odd >= 0; odd--) {
                replaceOne(random, tree, calculation);
            }
            if (tree instanceof ObjectNode object && !(calculation && random.nextInt(3) > 0)) {
                object.put(MARK, 1);
            } else if (tree instanceof ArrayNode array) {
                array.add(MARK);
            }
            lines.append(numbers(random, tree.toString())).append('\n');
        }
        return bytes(lines.toString());
    }

    /** A placeholder becomes a number as it is written, which a tree could not hold. */
    private static String numbers(Random random, String json) {
        String text = json;
        while (text.contains("\"#\"")) {
            text = text.replaceFirst("\"#\"", any(random, NUMBERS));
        }
        return text;
    }

    private static void replaceOne(Random random, JsonNode tree, boolean calculation) {
        JsonNode place = tree;
        for (int depth = random.nextInt(5); depth >= 0 && place.isContainer() && !place.isEmpty(); depth--) {
            List<JsonNode> inner =
                    place.valueStream().filter(JsonNode::isContainer).toList();
            if (inner.isEmpty()) {
                break;
            }
            place = any(random, inner);
        }
        JsonNode odd = oddNode(random, calculation);
        if (place instanceof ObjectNode object && !object.isEmpty()) {
            String name = any(random, List.copyOf(object.propertyNames()));
            if (random.nextInt(10) == 0) {
                object.remove(name);
            } else {
                object.set(name, odd);
            }
        } else if (place instanceof ArrayNode array) {
            if (array.isEmpty() || random.nextInt(4) == 0) {
                array.add(odd);
            } else {
                array.set(random.nextInt(array.size()), odd);
            }
        }
    }

    private static JsonNode oddNode(Random random, boolean calculation) {
        return switch (random.nextInt(calculation ? 20 : 7)) {
            case 0 -> JSON.getNodeFactory().nullNode();
            case 1 -> JSON.createObjectNode().put(MARK, MARK);
            case 2 -> JSON.createArrayNode();
            case 3 -> JSON.getNodeFactory().booleanNode(true);
            case 4, 5 -> JSON.getNodeFactory().stringNode(any(random, ODD));
            default -> JSON.getNodeFactory().stringNode("#");
        };
    }

    private static String line(String odd) {
        return odd.replace("\r\n", " ").replace("\u0000", "");
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static <T> T any(Random random, List<T> from) {
        return from.get(random.nextInt(from.size()));
    }

    private static byte[] gzip(byte[] plain) {
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(packed)) {
            gzip.write(plain);
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        }
        return packed.toByteArray();
    }
}
