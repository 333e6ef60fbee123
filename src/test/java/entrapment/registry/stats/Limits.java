package entrapment.registry.stats;

import java.util.Objects;

/** Limits of intervals that are known to have them. */
final class Limits {

    private Limits() {}

    static double lower(Interval interval) {
        return Objects.requireNonNull(interval.lower());
    }

    static double upper(Interval interval) {
        return Objects.requireNonNull(interval.upper());
    }
}
