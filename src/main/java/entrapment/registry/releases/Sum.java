package entrapment.registry.releases;

import org.jspecify.annotations.Nullable;

/**
 * A number that a release prints or hides: so many of one measure, in one device class or in all, with one degree of harm or
 * with any, in whole calendar years. Two releases that say the same sum speak of the same number, for a released year never
 * changes.
 *
 * @param deviceClass null for all device classes together
 * @param harm null for any degree; only events have one
 * @param firstYear the first of the years, included
 * @param lastYear the last of them, included
 */
record Sum(
        Measure measure,
        @Nullable String deviceClass,
        @Nullable String harm,
        int firstYear,
        int lastYear) {

    /** What is counted. */
    enum Measure {
        /** Entrapments. */
        EVENTS,
        /** Uses, entrapped or not. */
        USES,
        /** Uses without an entrapment; never printed, but uses less events tells it. */
        SPARED
    }

    Sum {
        if (firstYear > lastYear) {
            throw new IllegalArgumentException("firstYear must be in [0, " + lastYear + "], got " + firstYear);
        }
        if (harm != null && measure != Measure.EVENTS) {
            throw new IllegalArgumentException("harm must belong to events, got " + measure);
        }
    }

    static Sum events(@Nullable String deviceClass, int firstYear, int lastYear) {
        return new Sum(Measure.EVENTS, deviceClass, null, firstYear, lastYear);
    }

    static Sum uses(@Nullable String deviceClass, int firstYear, int lastYear) {
        return new Sum(Measure.USES, deviceClass, null, firstYear, lastYear);
    }

    static Sum harm(@Nullable String deviceClass, String harm, int firstYear, int lastYear) {
        return new Sum(Measure.EVENTS, deviceClass, harm, firstYear, lastYear);
    }
}
