package entrapment.registry;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Another hospital's program: talks to the registry over HTTP with a key, and knows nothing of its insides. */
public final class RegistryClient {

    private static final HttpClient HTTP = HttpClient.newHttpClient();
    private static final JsonMapper JSON = JsonMapper.shared();

    private final String address;
    private final @Nullable String key;

    public RegistryClient(int port, @Nullable String key) {
        this("http://localhost:" + port, key);
    }

    private RegistryClient(String address, @Nullable String key) {
        this.address = address;
        this.key = key;
    }

    /** The same registry asked with another key. */
    public RegistryClient with(@Nullable String otherKey) {
        return new RegistryClient(address, otherKey);
    }

    /** The key with which this client asks; empty where it has none. */
    String key() {
        return key == null ? "" : key;
    }

    /** What a page answered, in the shape of this client. */
    Answer answer(HttpResponse<String> response) {
        return new Answer(response.statusCode(), Objects.requireNonNull(response.body()), response);
    }

    /** The same holder of a key, or nobody, at the pages. */
    public PageClient atPages() {
        return key == null ? PageClient.nobody(address) : PageClient.signedIn(address, key);
    }

    /** What came back. */
    public record Answer(int status, String body, HttpResponse<String> response) {

        public JsonNode json() {
            return JSON.readTree(body);
        }

        public String header(String name) {
            return response.headers().firstValue(name).orElse("");
        }
    }

    public Answer get(String path, String... headers) {
        return send("GET", path, null, headers);
    }

    public Answer put(String path, String json, String... headers) {
        return send("PUT", path, json, and(headers, "Content-Type", "application/json"));
    }

    public Answer post(String path, String json) {
        return send("POST", path, json, "Content-Type", "application/json");
    }

    public Answer post(String path, String type, String body) {
        return send("POST", path, body, "Content-Type", type);
    }

    public Answer delete(String path, String json, String... headers) {
        return send("DELETE", path, json, and(headers, "Content-Type", "application/json"));
    }

    /** Keeps what is answered as a file. */
    public void download(String path, Path file) {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(address + path));
        if (key != null) {
            request.header("Authorization", "Bearer " + key);
        }
        try {
            HttpResponse<Path> response = HTTP.send(request.build(), HttpResponse.BodyHandlers.ofFile(file));
            if (response.statusCode() != 200) {
                throw new IllegalStateException("answered " + response.statusCode());
            }
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(interrupted);
        }
    }

    public Answer send(String method, String path, @Nullable String body, String... headers) {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(address + path))
                .method(
                        method,
                        body == null ? HttpRequest.BodyPublishers.noBody() : HttpRequest.BodyPublishers.ofString(body));
        if (key != null) {
            request.header("Authorization", "Bearer " + key);
        }
        if (headers.length > 0) {
            request.headers(headers);
        }
        try {
            HttpResponse<String> response = HTTP.send(request.build(), HttpResponse.BodyHandlers.ofString());
            return new Answer(response.statusCode(), Objects.requireNonNull(response.body()), response);
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(interrupted);
        }
    }

    private static String[] and(String[] headers, String name, String value) {
        String[] all = new String[headers.length + 2];
        System.arraycopy(headers, 0, all, 0, headers.length);
        all[headers.length] = name;
        all[headers.length + 1] = value;
        return all;
    }
}
