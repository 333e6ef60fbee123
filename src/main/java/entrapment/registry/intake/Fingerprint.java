package entrapment.registry.intake;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256, to see that the same content came again and to keep keys that are not stored. */
public final class Fingerprint {

    private Fingerprint() {}

    /** The 32 bytes of the text's fingerprint in UTF-8. */
    public static byte[] bytes(String text) {
        return bytes(text.getBytes(StandardCharsets.UTF_8));
    }

    /** The 32 bytes of the fingerprint. */
    public static byte[] bytes(byte[] content) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(content);
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException("every Java platform has SHA-256", impossible);
        }
    }

    /** The fingerprint as 64 hexadecimal digits. */
    public static String hex(String text) {
        return HexFormat.of().formatHex(bytes(text));
    }
}
