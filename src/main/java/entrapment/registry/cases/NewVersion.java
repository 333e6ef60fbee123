package entrapment.registry.cases;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A version of a case among the last that came in.
 *
 * @param withdrawn why the case was taken back with it; null where it was not
 */
public record NewVersion(
        String centre,
        String caseKey,
        int version,
        String deviceClass,
        String period,
        @Nullable String withdrawn,
        Instant at) {}
