package entrapment.registry;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.CookieManager;
import java.net.CookiePolicy;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** A person at a page, without a browser: has a session and the token that stands in each form. */
public final class PageClient {

    private static final Pattern TOKEN = Pattern.compile("name=\"_csrf\" value=\"([^\"]+)\"");

    private final HttpClient http;
    private final String address;

    private PageClient(String address) {
        this.address = address;
        this.http = HttpClient.newBuilder()
                .cookieHandler(new CookieManager(null, CookiePolicy.ACCEPT_ALL))
                .build();
    }

    /** Somebody who has not signed in. */
    public static PageClient nobody(String address) {
        return new PageClient(address);
    }

    /** Somebody who has signed in with a key. */
    public static PageClient signedIn(String address, String key) {
        PageClient client = new PageClient(address);
        HttpResponse<String> answer = client.post("/sign-in", Map.of("key", key));
        if (answer.statusCode() != 302) {
            throw new IllegalStateException("signing in answered " + answer.statusCode());
        }
        return client;
    }

    public HttpResponse<String> get(String path, String... headers) {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(address + path));
        if (headers.length == 0) {
            request.header("Accept", "text/html");
        } else {
            request.headers(headers);
        }
        return send(request.build());
    }

    /** Sends a form as its page would. */
    public HttpResponse<String> post(String path, Map<String, String> form) {
        String body = form.entrySet().stream()
                .map(field -> field.getKey() + "=" + URLEncoder.encode(field.getValue(), StandardCharsets.UTF_8))
                .collect(Collectors.joining("&"));
        return send(HttpRequest.newBuilder(URI.create(address + path))
                .header("Content-Type", "application/x-www-form-urlencoded")
                .header("Accept", "text/html")
                .POST(HttpRequest.BodyPublishers.ofString(
                        body + "&_csrf=" + URLEncoder.encode(token(), StandardCharsets.UTF_8)))
                .build());
    }

    /** Sends a file as a page's script would. */
    public HttpResponse<String> post(String path, String type, String body) {
        return send(HttpRequest.newBuilder(URI.create(address + path))
                .header("Content-Type", type)
                .header("X-CSRF-TOKEN", token())
                .POST(HttpRequest.BodyPublishers.ofString(body))
                .build());
    }

    /** Of any page with a form; where one signs in, or where one signs out. */
    private String token() {
        for (String page : new String[] {"/sign-in", "/methods", "/"}) {
            Matcher token = TOKEN.matcher(get(page).body());
            if (token.find()) {
                return token.group(1);
            }
        }
        throw new IllegalStateException("no page has a token");
    }

    private HttpResponse<String> send(HttpRequest request) {
        try {
            return http.send(request, HttpResponse.BodyHandlers.ofString());
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(interrupted);
        }
    }
}
