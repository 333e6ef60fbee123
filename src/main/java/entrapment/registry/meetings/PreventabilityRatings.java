package entrapment.registry.meetings;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * How several independent reviewers judged whether a case could have been prevented. Never one reviewer's judgement: nothing
 * below three ratings, and then only in whole threes, or two looks would tell what the one between them said.
 *
 * @param ratings how many are in the spread; 0 while there are fewer than three
 * @param spread how many said what; null while there are fewer than three
 */
public record PreventabilityRatings(int ratings, @Nullable Map<String, Integer> spread) {

    static final PreventabilityRatings NONE = new PreventabilityRatings(0, null);

    private static final int FEWEST = 3;

    /** @param given in the order in which they were given */
    static PreventabilityRatings of(List<Preventability> given) {
        int shown = given.size() / FEWEST * FEWEST;
        if (shown == 0) {
            return NONE;
        }
        Map<String, Integer> spread = new LinkedHashMap<>();
        for (Preventability rating : Preventability.values()) {
            spread.put(rating.code(), (int)
                    given.stream().limit(shown).filter(rating::equals).count());
        }
        return new PreventabilityRatings(shown, spread);
    }
}
