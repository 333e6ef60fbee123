package entrapment.registry.stats;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** What a point of a control chart says; the words of an answer are the names in lower case. */
public enum ChartSignal {
    /** Inside the limits, or no limit on that side. */
    NONE,
    /** More events than the upper limit. */
    HIGH,
    /** Fewer events than the lower limit. */
    LOW,
    /** A longer wait for an event than the upper limit: fewer events than expected. */
    LONG,
    /** A shorter wait for an event than the lower limit: more events than expected. */
    SHORT,
    /** No exposure in that period, so no point. */
    NO_DATA;

    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    /** Of a gap between events; a limit that is null is never crossed. */
    static ChartSignal ofGap(double gap, @Nullable Number lower, @Nullable Number upper) {
        return upper != null && gap > upper.doubleValue()
                ? LONG
                : lower != null && gap < lower.doubleValue() ? SHORT : NONE;
    }
}
