package entrapment.registry.intake;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import tools.jackson.core.JacksonException;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Reads request bodies within limits; what cannot be read is refused without repeating any of it. */
public final class Bodies {

    private static final JsonMapper JSON = JsonMapper.builder(JsonFactory.builder()
                    .streamReadConstraints(StreamReadConstraints.builder()
                            .maxNestingDepth(20)
                            .maxStringLength(10_000)
                            .maxNameLength(200)
                            .maxNumberLength(100)
                            .build())
                    .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                    .build())
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private Bodies() {}

    /** Reads one JSON value. */
    public static JsonNode json(InputStream body) {
        try {
            return present(JSON.readTree(body));
        } catch (JacksonException unreadable) {
            throw unreadable(unreadable);
        } catch (NumberFormatException immense) {
            // An exponent beyond what a number can have; the message would quote it.
            throw Problem.UNREADABLE_BODY.refusal("The body is not well-formed JSON.");
        }
    }

    /** Reads one JSON value from its bytes. */
    public static JsonNode json(byte[] body) {
        try {
            return present(JSON.readTree(body));
        } catch (JacksonException unreadable) {
            throw unreadable(unreadable);
        } catch (NumberFormatException immense) {
            // An exponent beyond what a number can have; the message would quote it.
            throw Problem.UNREADABLE_BODY.refusal("The body is not well-formed JSON.");
        }
    }

    /**
     * The same body, refused as too large once more than {@code most} bytes have been read, and as unreadable where the
     * connection or its chunks break off.
     */
    public static InputStream limited(InputStream body, long most) {
        return new FilterInputStream(body) {
            private long left = most;

            @Override
            public int read() {
                try {
                    int value = super.read();
                    count(value < 0 ? 0 : 1);
                    return value;
                } catch (IOException broken) {
                    throw brokenOff();
                }
            }

            @Override
            public int read(byte[] buffer, int offset, int length) {
                try {
                    int read = super.read(buffer, offset, length);
                    count(Math.max(read, 0));
                    return read;
                } catch (IOException broken) {
                    throw brokenOff();
                }
            }

            private void count(int read) {
                left -= read;
                if (left < 0) {
                    throw Problem.TOO_LARGE.refusal("The body may have at most " + most + " bytes.");
                }
            }
        };
    }

    private static Refusal brokenOff() {
        return Problem.UNREADABLE_BODY.refusal("The body broke off before its end.");
    }

    private static JsonNode present(JsonNode node) {
        if (node.isMissingNode()) {
            throw Problem.UNREADABLE_BODY.refusal("The body is empty; JSON was expected.");
        }
        return node;
    }

    /** Jackson's message quotes the body, so only the place is kept. */
    private static Refusal unreadable(JacksonException cause) {
        String place = cause.getLocation() == null
                ? ""
                : " at line " + cause.getLocation().getLineNr() + ", column "
                        + cause.getLocation().getColumnNr();
        return Problem.UNREADABLE_BODY.refusal("The body is not well-formed JSON" + place + ".");
    }
}
