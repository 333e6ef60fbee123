package entrapment.registry.releases;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Where a sum stands in the tables, without what it is. What is null is all of its kind together.
 *
 * @param measure {@code events}, {@code uses} or {@code spared}
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record Grouping(
        String measure,
        @Nullable String deviceClass,
        @Nullable String harm,
        int firstYear,
        int lastYear) {

    static Grouping of(Sum sum) {
        return new Grouping(
                sum.measure().name().toLowerCase(Locale.ROOT),
                sum.deviceClass(),
                sum.harm(),
                sum.firstYear(),
                sum.lastYear());
    }
}
