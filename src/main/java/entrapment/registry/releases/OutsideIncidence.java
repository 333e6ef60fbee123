package entrapment.registry.releases;

import entrapment.registry.exports.NumberText;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionAnalysis;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** How often is a device entrapped? As far as a release prints it. */
final class OutsideIncidence {

    private OutsideIncidence() {}

    /**
     * One group's figures.
     *
     * @param events null where they are hidden
     * @param uses null where they are hidden
     * @param suppressed whether one of the two is; then there is no estimate
     */
    record Rate(
            Map<String, String> level,
            @Nullable Long events,
            @Nullable Long uses,
            boolean suppressed,
            @Nullable Double estimate,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double upperBoundIfNone,
            String sentence) {

        static Rate of(Map<String, String> level, @Nullable Long events, @Nullable Long uses) {
            if (events == null || uses == null) {
                return new Rate(level, events, uses, true, null, null, null, null, Words.HIDDEN);
            }
            Confidence confidence = Confidence.DEFAULT;
            Proportion proportion = new Proportion(events, uses);
            Interval interval = proportion.interval(IntervalMethod.WILSON, confidence);
            Double bound = ProportionAnalysis.of(proportion, confidence).zeroEventUpperOneSided();
            return new Rate(
                    level,
                    events,
                    uses,
                    false,
                    proportion.estimate(),
                    interval.lower(),
                    interval.upper(),
                    bound,
                    sentence(proportion, interval, bound, confidence));
        }

        private static String sentence(
                Proportion proportion, Interval interval, @Nullable Double bound, Confidence confidence) {
            Double estimate = proportion.estimate();
            if (estimate == null) {
                return "No use was reported, so no rate can be given.";
            }
            return bound == null
                    ? "%s of %s uses ended in an entrapment: %s."
                            .formatted(
                                    NumberText.count(proportion.events()),
                                    NumberText.count(proportion.of()),
                                    Words.perThousand(estimate, interval, confidence))
                    : "No entrapment in %s uses; the data still fit a true rate of up to %s per 1,000."
                            .formatted(NumberText.count(proportion.of()), NumberText.perThousand(bound));
        }
    }

    static OutsideReport of(List<String> by, OutsideRelease release, List<OutsideRelease> kept) {
        List<Rate> groups = new ArrayList<>();
        for (String deviceClass : OutsideReport.deviceClasses(by)) {
            if (by.contains("year")) {
                release.years().forEach(year -> groups.add(rate(release, deviceClass, year)));
            } else {
                groups.add(rate(release, deviceClass, null));
            }
        }
        return OutsideReport.of(
                "incidence",
                "How often is a device entrapped?",
                release,
                by,
                groups,
                Words.notes(release, kept),
                List.of("events", "uses"),
                groups.stream()
                        .map(rate -> OutsideReport.row(
                                rate.level().values(),
                                rate.events(),
                                rate.uses(),
                                rate.suppressed(),
                                rate.estimate(),
                                rate.lower(),
                                rate.upper(),
                                rate.sentence()))
                        .toList());
    }

    /** @param year null for all years */
    private static Rate rate(OutsideRelease release, @Nullable String deviceClass, @Nullable Integer year) {
        Map<String, String> level = new LinkedHashMap<>();
        if (deviceClass != null) {
            level.put("deviceClass", deviceClass);
        }
        if (year != null) {
            level.put("year", year.toString());
        }
        int first = year == null ? release.firstYear() : year;
        int last = year == null ? release.throughYear() : year;
        return Rate.of(
                level,
                release.figure(Sum.events(deviceClass, first, last)),
                release.figure(Sum.uses(deviceClass, first, last)));
    }
}
