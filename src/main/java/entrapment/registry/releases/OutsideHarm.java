package entrapment.registry.releases;

import com.fasterxml.jackson.annotation.JsonIgnore;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.reports.Reports;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Method;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Harm;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** What does it cost the patient? As far as a release prints it: degrees of harm of the events that incidence counts. */
public record OutsideHarm(
        String report,
        String audience,
        String question,
        int releaseNumber,
        DataCut dataCut,
        List<Integer> years,
        int smallestCount,
        List<String> by,
        double confidence,
        Method method,
        List<Cost> groups,
        List<String> notes,
        List<String> cautions,
        @JsonIgnore List<String> comments) {

    private static final String QUESTION = "What does it cost the patient?";

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

    static OutsideHarm of(List<String> by, OutsideRelease release, List<OutsideRelease> kept) {
        List<Cost> groups = new ArrayList<>();
        if (by.isEmpty()) {
            groups.add(cost(release, null));
        } else {
            for (DeviceClass each : DeviceClass.values()) {
                groups.add(cost(release, each.code()));
            }
        }
        List<String> notes = Words.notes(release, kept);
        notes.add("harm is the WHO degree of harm as its centre graded it, of the entrapments that incidence counts.");
        return new OutsideHarm(
                "harm",
                "outside",
                QUESTION,
                release.number(),
                release.dataCut(),
                release.years(),
                release.smallestCount(),
                by,
                Confidence.DEFAULT.level(),
                IntervalMethod.WILSON.method(),
                List.copyOf(groups),
                notes,
                Reports.CAUTIONS,
                Words.comments(QUESTION, release, notes, Reports.CAUTIONS));
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

    /** One row for each degree of a group. */
    public Table table() {
        List<String> columns = new ArrayList<>(by);
        columns.addAll(List.of(
                "harm",
                "events",
                "of",
                "suppressed",
                "estimate",
                "lower",
                "upper",
                "perThousand",
                "perThousandLower",
                "perThousandUpper",
                "sentence"));
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (Cost group : groups) {
            group.harm().forEach((code, degree) -> {
                List<@Nullable Object> row = new ArrayList<>(group.level().values());
                row.add(code);
                row.add(Words.cell(degree.events()));
                row.add(Words.cell(degree.of()));
                row.add(degree.suppressed());
                Words.addLimits(row, degree.estimate(), degree.lower(), degree.upper());
                row.add(degree.sentence());
                rows.add(row);
            });
        }
        return new Table(comments, columns, rows);
    }
}
