package entrapment.registry.reports.similarcases;

import entrapment.registry.exports.NumberText;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Quartiles;
import java.util.SortedMap;
import org.jspecify.annotations.Nullable;

/**
 * From entrapment to release, in minutes.
 *
 * @param cases released cases that state it
 * @param of released cases
 * @param median null where no case states it
 */
public record MinutesToRelease(
        long cases,
        long of,
        @Nullable Double lowerQuartile,
        @Nullable Double median,
        @Nullable Double upperQuartile,
        String sentence) {

    /** The quartiles of counted minutes. */
    static MinutesToRelease of(SortedMap<Long, Long> counts, long of) {
        Quartiles quartiles = Quartiles.of(counts);
        return new MinutesToRelease(
                quartiles.values(),
                of,
                quartiles.lower(),
                quartiles.median(),
                quartiles.upper(),
                sentence(quartiles.values(), of, quartiles.lower(), quartiles.median(), quartiles.upper()));
    }

    private static String sentence(
            long cases, long of, @Nullable Double lower, @Nullable Double median, @Nullable Double upper) {
        if (lower == null || median == null || upper == null) {
            return "No released case states how many minutes it took.";
        }
        return "Release took a median of %s minutes (quartiles %s and %s), in %s of %s that state it."
                .formatted(
                        NumberText.exact(median),
                        NumberText.exact(lower),
                        NumberText.exact(upper),
                        NumberText.count(cases),
                        Words.counted(of, "released case"));
    }
}
