package entrapment.registry.cases;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Cases that are alike in how often a technique was tried in them and how often it released the device.
 *
 * @param levels the levels of the splits that were asked for, in the order asked
 * @param technique null where attempts of every technique are counted together
 * @param tried attempts of the technique in each of these cases
 * @param released how many of those released the device: 0 or 1
 * @param firstTried 1 where the case's first attempt was of this technique, otherwise 0
 * @param firstReleased 1 where that first attempt released the device, otherwise 0
 * @param cases how many cases are like this
 */
public record RetrievalTally(
        List<String> levels,
        @Nullable String technique,
        long tried,
        long released,
        long firstTried,
        long firstReleased,
        long cases) {}
