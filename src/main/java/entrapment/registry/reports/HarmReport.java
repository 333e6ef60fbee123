package entrapment.registry.reports;

import static java.util.stream.Collectors.joining;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.OutcomeTally;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.MissingOutcomeBoundsAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Complication;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Fragment;
import entrapment.registry.vocabulary.Harm;
import entrapment.registry.vocabulary.Perforation;
import entrapment.registry.vocabulary.Release;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What does it cost the patient? Degrees of harm, complications, and the outcomes that make an emergency.
 *
 * @param groups one for each combination of levels that has a case
 */
@JsonPropertyOrder({"heading", "groups", "notes", "cautions"})
public record HarmReport(
        @JsonUnwrapped ReportHeading heading, List<Cost> groups, List<String> notes, List<String> cautions)
        implements Report {

    /**
     * What came of the cases of one group.
     *
     * @param harm by WHO degree; every case has one
     * @param complications by code; a case may have several
     * @param emergencies by name; cases in which it is unknown are left out of its denominator
     * @param unknown by name of the emergency, in how many cases it is unknown
     * @param bounds by name of an emergency that is unknown in some, between which shares of all cases it must lie
     */
    record Cost(
            Map<String, String> level,
            long cases,
            Map<String, Occurrence> harm,
            Map<String, Occurrence> complications,
            Map<String, Occurrence> emergencies,
            Map<String, Long> unknown,
            Map<String, MissingOutcomeBoundsAnalysis> bounds,
            String sentence) {}

    /** An outcome that readers ask for by name, made of codes of one field. */
    @SuppressWarnings("ImmutableEnumChecker") // the list is made by toList
    private enum Emergency {
        PERFORATION_III(
                "perforation-iii",
                "perforation",
                EnumSet.of(Perforation.III, Perforation.III_CAVITY),
                Perforation.UNKNOWN),
        FRAGMENT_LEFT(
                "fragment-left",
                "fragment",
                EnumSet.complementOf(EnumSet.of(Fragment.NONE, Fragment.UNKNOWN)),
                Fragment.UNKNOWN),
        NOT_RELEASED("not-released", "release", EnumSet.of(Release.NONE), null);

        private final String code;
        private final String field;
        private final List<String> codes;
        private final @Nullable String unknown;

        Emergency(String code, String field, Set<? extends Code> codes, @Nullable Code unknown) {
            this.code = code;
            this.field = field;
            this.codes = codes.stream().<String>map(Code::code).toList();
            this.unknown = unknown == null ? null : unknown.code();
        }

        long events(Map<String, Map<String, Long>> counts) {
            return codes.stream().mapToLong(each -> count(counts, field, each)).sum();
        }

        long unknown(Map<String, Map<String, Long>> counts) {
            return unknown == null ? 0 : count(counts, field, unknown);
        }

        MissingOutcomeBoundsAnalysis bounds(Map<String, Map<String, Long>> counts, Confidence confidence) {
            long left = unknown(counts);
            return MissingOutcomeBoundsAnalysis.of(
                    new Proportion(events(counts), cases(counts) - left), left, confidence);
        }
    }

    private static final String HARM = "harm";

    /** The columns of the bounds, after those that every report has. */
    private static final List<String> BOUNDS =
            List.of("lowestPossible", "highestPossible", "envelopeLower", "envelopeUpper");

    private static final List<String> NOTES = List.of(
            "harm is the WHO degree of harm as its centre graded it; every case has one degree and may have several"
                    + " complications, so the complications do not add up to the cases.",
            "perforation-iii: Ellis type III or III with cavity spilling.",
            "fragment-left: a part of the device stayed in the body, stented over or not.",
            "not-released: nothing of the device left the body.",
            "Of recorded entrapments alone: how often a device is entrapped at all is the question of incidence.");

    static HarmReport of(HarmQuery query, DataCut cut, List<OutcomeTally> tallies, Viewer viewer) {
        Confidence confidence = query.scope().confidence();
        List<String> by = query.by().stream().map(GroupBy::code).toList();
        List<Factor> asked = GroupBy.factors(query.by());
        Map<List<String>, List<OutcomeTally>> byLevels = new TreeMap<>(Counting.order(query.by()));
        for (OutcomeTally tally : tallies) {
            List<String> levels = query.by().stream()
                    .map(axis -> axis.level(tally.tally(), asked, GroupBy.masking(viewer)))
                    .toList();
            byLevels.computeIfAbsent(levels, key -> new ArrayList<>()).add(tally);
        }
        List<Cost> groups = new ArrayList<>();
        byLevels.forEach((levels, own) -> {
            Map<String, String> level = Words.level(by, levels);
            groups.add(cost(level, counts(own), confidence));
        });
        return new HarmReport(
                new ReportHeading(
                        "harm",
                        "What does it cost the patient?",
                        cut,
                        query.scope().filters(),
                        by,
                        confidence.level(),
                        IntervalMethod.WILSON.method()),
                List.copyOf(groups),
                notes(groups, counts(tallies), confidence),
                ReportHeading.CAUTIONS);
    }

    /** The degrees of harm among some cases, in the order of their list. */
    static Map<String, Occurrence> degrees(List<OutcomeTally> tallies, Confidence confidence) {
        Map<String, Map<String, Long>> counts = counts(tallies);
        return occurrences(HARM, Harm.values(), counts, confidence);
    }

    private static Map<String, Map<String, Long>> counts(List<OutcomeTally> tallies) {
        return tallies.stream()
                .collect(Collectors.groupingBy(
                        OutcomeTally::field,
                        Collectors.groupingBy(OutcomeTally::code, Collectors.summingLong(tally -> tally.tally()
                                .count()))));
    }

    private static long count(Map<String, Map<String, Long>> counts, String field, String code) {
        return counts.getOrDefault(field, Map.of()).getOrDefault(code, 0L);
    }

    private static long cases(Map<String, Map<String, Long>> counts) {
        return counts.getOrDefault(HARM, Map.of()).values().stream()
                .mapToLong(Long::longValue)
                .sum();
    }

    private static Map<String, Occurrence> occurrences(
            String field, Code[] codes, Map<String, Map<String, Long>> counts, Confidence confidence) {
        Map<String, Occurrence> occurrences = new LinkedHashMap<>();
        for (Code code : codes) {
            occurrences.put(code.code(), Occurrence.of(count(counts, field, code.code()), cases(counts), confidence));
        }
        return occurrences;
    }

    private static Cost cost(Map<String, String> level, Map<String, Map<String, Long>> counts, Confidence confidence) {
        long cases = cases(counts);
        Map<String, Occurrence> harm = occurrences(HARM, Harm.values(), counts, confidence);
        Map<String, Occurrence> emergencies = new LinkedHashMap<>();
        Map<String, Long> unknown = new LinkedHashMap<>();
        Map<String, MissingOutcomeBoundsAnalysis> bounds = new LinkedHashMap<>();
        for (Emergency emergency : Emergency.values()) {
            long left = emergency.unknown(counts);
            emergencies.put(emergency.code, Occurrence.of(emergency.events(counts), cases - left, confidence));
            if (left > 0) {
                unknown.put(emergency.code, left);
                bounds.put(emergency.code, emergency.bounds(counts, confidence));
            }
        }
        String unknowns = bounds.entrySet().stream()
                .map(each -> " %s unknown in %s%s."
                        .formatted(
                                each.getKey(),
                                Words.cases(unknown.getOrDefault(each.getKey(), 0L)),
                                words(each.getValue())))
                .collect(joining());
        return new Cost(
                level,
                cases,
                harm,
                occurrences("complications", Complication.values(), counts, confidence),
                emergencies,
                unknown,
                bounds,
                Stream.of(Harm.DEATH, Harm.SEVERE)
                        .map(degree -> degree.code() + " "
                                + harm.getOrDefault(degree.code(), Occurrence.of(0, cases, confidence))
                                        .words(confidence))
                        .collect(joining("; ", "Harm: ", "." + unknowns)));
    }

    private static String words(MissingOutcomeBoundsAnalysis bounds) {
        Double lowest = bounds.lowestPossible();
        Double highest = bounds.highestPossible();
        return lowest == null || highest == null
                ? ""
                : ": whatever the unknown ones were, between %s and %s %% of all cases"
                        .formatted(NumberText.percent(lowest), NumberText.percent(highest));
    }

    private static List<String> notes(List<Cost> groups, Map<String, Map<String, Long>> counts, Confidence confidence) {
        List<String> notes = new ArrayList<>(NOTES);
        for (Emergency emergency : Emergency.values()) {
            long unknown = emergency.unknown(counts);
            if (unknown > 0) {
                MissingOutcomeBoundsAnalysis bounds = emergency.bounds(counts, confidence);
                notes.add("%s: unknown in %s of %s, left out of its denominator%s."
                        .formatted(
                                emergency.code, NumberText.count(unknown), Words.cases(cases(counts)), words(bounds)));
                bounds.notes().forEach(note -> notes.add(emergency.code + ": " + note.withCode()));
            }
        }
        if (groups.isEmpty()) {
            notes.add("Nothing in the registry matches these filters.");
        }
        return List.copyOf(notes);
    }

    @Override
    public Answer answer() {
        return HarmAnswer.of(this);
    }

    /** One row for each outcome of a group, as a row for each group would be ninety cells wide. */
    @Override
    public Table table() {
        List<String> columns = new ArrayList<>(heading.by());
        columns.addAll(List.of("outcome", "code"));
        columns.addAll(Occurrence.COLUMNS);
        columns.addAll(List.of("unknown", "perThousand", "perThousandLower", "perThousandUpper", "sentence"));
        columns.addAll(BOUNDS);
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (Cost group : groups) {
            Map<String, Function<Cost, Map<String, Occurrence>>> kinds = new LinkedHashMap<>();
            kinds.put(HARM, Cost::harm);
            kinds.put("complication", Cost::complications);
            kinds.put("emergency", Cost::emergencies);
            kinds.forEach((kind, outcomes) ->
                    outcomes.apply(group).forEach((code, occurrence) -> rows.add(row(group, kind, code, occurrence))));
        }
        return new Table(heading.comments(notes), columns, rows);
    }

    private List<@Nullable Object> row(Cost group, String kind, String code, Occurrence occurrence) {
        long unknown = group.unknown().getOrDefault(code, 0L);
        MissingOutcomeBoundsAnalysis bounds = group.bounds().get(code);
        List<@Nullable Object> row = new ArrayList<>(group.level().values());
        row.add(kind);
        row.add(code);
        occurrence.addTo(row);
        row.add(unknown);
        row.add(Words.thousandfold(occurrence.estimate()));
        row.add(Words.thousandfold(occurrence.lower()));
        row.add(Words.thousandfold(occurrence.upper()));
        row.add("%s %s: %s%s."
                .formatted(
                        kind,
                        code,
                        occurrence.words(new Confidence(heading.confidence())),
                        bounds == null ? "" : "; unknown in " + NumberText.count(unknown) + " more" + words(bounds)));
        row.add(bounds == null ? null : bounds.lowestPossible());
        row.add(bounds == null ? null : bounds.highestPossible());
        row.add(bounds == null ? null : bounds.envelope().lower());
        row.add(bounds == null ? null : bounds.envelope().upper());
        return row;
    }
}
