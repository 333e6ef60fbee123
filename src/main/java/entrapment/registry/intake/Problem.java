package entrapment.registry.intake;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/** Every kind of problem the service answers with (RFC 9457), with the status and what the caller can do about it. */
public enum Problem {
    UNREADABLE_BODY(400, "The body cannot be read", "Send well-formed JSON, NDJSON or CSV in UTF-8."),
    KEY_REQUIRED(401, "A valid key is required", "Send the header Authorization: Bearer <key>."),
    NOT_YOUR_ROLE(403, "This is not open to your role", "Ask the network's steward."),
    NOT_FOUND(404, "Not there, or not yours", "Check the path; another centre's cases are never shown."),
    METHOD_NOT_ALLOWED(405, "This resource has no such method", "See the Allow header."),
    NOT_ACCEPTABLE(406, "No representation of that type", "Ask for a type that openapi.yaml names for this path."),
    STALE(412, "The stored version has changed", "Read it again, look at the difference, and send with the new ETag."),
    TOO_LARGE(413, "The body is too large", "Send it in smaller parts."),
    UNSUPPORTED_MEDIA_TYPE(
            415, "This content type is not read here", "See openapi.yaml for the types this path reads."),
    REFUSED(422, "Read, but refused", "Each entry of errors names a field and the rule it breaks."),
    MATCH_REQUIRED(428, "Changing a stored case needs If-Match", "Send the ETag of the version you are changing."),
    TOO_OFTEN(429, "Asked too often", "Wait as many seconds as Retry-After says; send many cases in one body."),
    INTERNAL(
            500, "The service failed", "Nothing of this request was stored. Tell the steward this problem's instance."),
    UNAVAILABLE(
            503, "The database does not answer in time", "Try again after Retry-After; what was acknowledged is safe.");

    private final int status;
    private final String title;
    private final String remedy;

    Problem(int status, String title, String remedy) {
        this.status = status;
        this.title = title;
        this.remedy = remedy;
    }

    /** The last part of the problem's type URI, {@code /problems/<slug>}. */
    public String slug() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The kind of problem that is answered with this status, if there is one; no two kinds share a status. */
    public static Optional<Problem> ofStatus(int status) {
        return Stream.of(values()).filter(problem -> problem.status == status).findFirst();
    }

    public int status() {
        return status;
    }

    public String title() {
        return title;
    }

    /** What the caller can do about it. */
    public String remedy() {
        return remedy;
    }

    /** The refusal to throw at the edge; {@code detail} must hold nothing the caller sent. */
    public Refusal refusal(String detail) {
        return new Refusal(this, detail, List.of(), Map.of());
    }

    /** A {@link #REFUSED} submission with all that is wrong with it. */
    public static Refusal refused(List<FieldError> errors) {
        return new Refusal(
                REFUSED,
                errors.size() == 1 ? "1 field was refused." : errors.size() + " fields were refused.",
                errors,
                Map.of());
    }
}
