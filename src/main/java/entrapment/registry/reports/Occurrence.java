package entrapment.registry.reports;

import entrapment.registry.exports.NumberText;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionAnalysis;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * In how many of how many it was so, with Wilson's interval; proportions in [0, 1].
 *
 * @param estimate null where there was nothing to look at
 */
record Occurrence(
        long events,
        long of,
        @Nullable Double estimate,
        @Nullable Double lower,
        @Nullable Double upper) {

    /** The names of the figures as columns of a table. */
    static final List<String> COLUMNS = List.of("events", "of", "estimate", "lower", "upper");

    static Occurrence of(long events, long of, Confidence confidence) {
        Proportion proportion = new Proportion(events, of);
        Interval interval = proportion.interval(IntervalMethod.WILSON, confidence);
        return new Occurrence(events, of, proportion.estimate(), interval.lower(), interval.upper());
    }

    /** {@code 3 of 41 cases (7.3 %, 95 % CI 2.5 to 19.4)}; without an event the bound that is asked for then. */
    String words(Confidence confidence) {
        String counts = "%s of %s".formatted(NumberText.count(events), Words.cases(of));
        if (estimate == null || lower == null || upper == null) {
            return "no case to look at";
        }
        Double bound =
                ProportionAnalysis.of(new Proportion(events, of), confidence).zeroEventUpperOneSided();
        return bound == null
                ? "%s (%s %%, %s %% CI %s to %s)"
                        .formatted(
                                counts,
                                NumberText.percent(estimate),
                                NumberText.level(confidence.level()),
                                NumberText.percent(lower),
                                NumberText.percent(upper))
                : "%s (the data still fit up to %s %%)".formatted(counts, NumberText.percent(bound));
    }

    /** The figures as cells of a table, in the order of {@link #COLUMNS}. */
    void addTo(List<@Nullable Object> row) {
        row.add(events);
        row.add(of);
        row.add(estimate);
        row.add(lower);
        row.add(upper);
    }
}
