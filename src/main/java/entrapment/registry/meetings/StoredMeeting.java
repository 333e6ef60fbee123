package entrapment.registry.meetings;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A meeting as it is stored.
 *
 * @param centre null for the network
 * @param frozenNumber under which number it is frozen; null while it is not
 */
record StoredMeeting(
        String id,
        @Nullable String centre,
        MeetingPlan plan,
        long seed,
        int version,
        @Nullable Integer frozenNumber,
        Instant createdAt) {

    /** The entity tag of this version, as HTTP writes it. */
    String etag() {
        return "\"" + version + "\"";
    }
}
