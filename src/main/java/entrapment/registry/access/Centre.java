package entrapment.registry.access;

import java.time.Instant;

/**
 * A hospital's cath lab that reports to the registry.
 *
 * @param code 3 to 32 of {@code a-z 0-9 -}
 */
public record Centre(String code, String name, Instant createdAt) {

    /** Whether this could be a centre's code. */
    public static boolean isCode(String text) {
        return text.matches("[a-z0-9-]{3,32}");
    }
}
