package entrapment.registry.releases;

import entrapment.registry.access.DataCut;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A release as it is kept.
 *
 * @param number from 1, without gaps
 * @param dataCut as of when the years were counted that no earlier release had
 * @param firstYear the first calendar year, the same in all releases
 * @param throughYear the last one, complete when the release was made
 * @param smallestCount k: counts of 1 to k−1 are hidden
 * @param figures every number in the order of its table; null where it is hidden
 */
record OutsideRelease(
        int number,
        Instant madeAt,
        DataCut dataCut,
        int firstYear,
        int throughYear,
        int smallestCount,
        Map<Sum, @Nullable Long> figures,
        Audit audit) {

    OutsideRelease {
        figures = Collections.unmodifiableMap(new LinkedHashMap<>(figures));
    }

    List<Integer> years() {
        List<Integer> years = new ArrayList<>();
        for (int year = firstYear; year <= throughYear; year++) {
            years.add(year);
        }
        return years;
    }

    @Nullable
    Long figure(Sum sum) {
        return figures.get(sum);
    }
}
