package entrapment.registry.cases;

import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The version a sender means to change (RFC 9110, section 13.1.1).
 *
 * @param tags the entity tags that will do; {@code *} stands for any stored version; empty where none was given
 */
public record IfMatch(Set<String> tags) {

    public IfMatch {
        tags = Set.copyOf(tags);
    }

    /** Reads the header; a weak tag never matches, as the standard says. */
    public static IfMatch of(@Nullable String header) {
        return new IfMatch(
                header == null
                        ? Set.of()
                        : Stream.of(header.split(",", -1)).map(String::strip).collect(Collectors.toSet()));
    }

    boolean given() {
        return !tags.isEmpty();
    }

    boolean allows(StoredCase stored) {
        return tags.contains("*") || tags.contains(stored.etag());
    }
}
