package entrapment.registry.releases;

import entrapment.registry.exports.NumberText;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Harm;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** What does it cost the patient? As far as a release prints it: degrees of harm of the events that incidence counts. */
final class OutsideHarm {

    private OutsideHarm() {}

    /**
     * The cases of one group.
     *
     * @param cases null where they are hidden
     * @param harm by degree
     */
    record Cost(Map<String, String> level, @Nullable Long cases, boolean suppressed, Map<String, Degree> harm) {}

    /**
     * How many cases had one degree of harm.
     *
     * @param events null where they are hidden
     * @param of the cases of the group; null where they are hidden
     * @param suppressed whether one of the two is; then there is no estimate
     */
    record Degree(
            @Nullable Long events,
            @Nullable Long of,
            boolean suppressed,
            @Nullable Double estimate,
            @Nullable Double lower,
            @Nullable Double upper,
            String sentence) {

        static Degree of(String code, @Nullable Long events, @Nullable Long of) {
            if (events == null || of == null) {
                return new Degree(events, of, true, null, null, null, Words.HIDDEN);
            }
            Proportion proportion = new Proportion(events, of);
            Interval interval = proportion.interval(IntervalMethod.WILSON, Confidence.DEFAULT);
            Double estimate = proportion.estimate();
            return new Degree(
                    events,
                    of,
                    false,
                    estimate,
                    interval.lower(),
                    interval.upper(),
                    estimate == null
                            ? "No case was recorded."
                            : "harm %s: %s of %s cases, %s."
                                    .formatted(
                                            code,
                                            NumberText.count(events),
                                            NumberText.count(of),
                                            Words.perThousand(estimate, interval, Confidence.DEFAULT)));
        }
    }

    static OutsideReport of(List<String> by, OutsideRelease release, List<OutsideRelease> kept) {
        List<Cost> groups = OutsideReport.deviceClasses(by).stream()
                .map(deviceClass -> cost(release, deviceClass))
                .toList();
        List<String> notes = Words.notes(release, kept);
        notes.add("harm is the WHO degree of harm as its centre graded it, of the entrapments that incidence counts.");
        List<List<@Nullable Object>> rows = new ArrayList<>();
        groups.forEach(group -> group.harm().forEach((code, degree) -> {
            List<String> names = new ArrayList<>(group.level().values());
            names.add(code);
            rows.add(OutsideReport.row(
                    names,
                    degree.events(),
                    degree.of(),
                    degree.suppressed(),
                    degree.estimate(),
                    degree.lower(),
                    degree.upper(),
                    degree.sentence()));
        }));
        return OutsideReport.of(
                "harm",
                "What does it cost the patient?",
                release,
                by,
                groups,
                notes,
                List.of("harm", "events", "of"),
                rows);
    }

    private static Cost cost(OutsideRelease release, @Nullable String deviceClass) {
        int first = release.firstYear();
        int last = release.throughYear();
        Long cases = release.figure(Sum.events(deviceClass, first, last));
        Map<String, Degree> harm = new LinkedHashMap<>();
        for (Harm degree : Harm.values()) {
            Long events = release.figure(Sum.harm(deviceClass, degree.code(), first, last));
            harm.put(degree.code(), Degree.of(degree.code(), events, cases));
        }
        return new Cost(
                deviceClass == null ? Map.of() : Map.of("deviceClass", deviceClass), cases, cases == null, harm);
    }
}
