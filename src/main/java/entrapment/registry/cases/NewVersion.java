package entrapment.registry.cases;

import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Period;
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
        DeviceClass deviceClass,
        Period period,
        @Nullable Withdrawal withdrawn,
        Instant at) {}
