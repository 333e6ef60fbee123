package entrapment.registry.reports.harm;

import static java.util.stream.Collectors.joining;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.cases.OutcomeTally;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.reports.question.CommonNote;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.question.Report;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.MissingOutcomeBoundsAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Complication;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Harm;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;

/**
 * What does it cost the patient? Degrees of harm, complications, and the outcomes that make an emergency.
 *
 * @param groups one for each combination of levels that has a case
 */
public record HarmReport(@JsonUnwrapped ReportHeading heading, List<Cost> groups, List<Note> notes) implements Report {

    /**
     * How the cases of one group ended.
     *
     * @param harm by WHO degree; every case has one
     * @param complications by code; a case may have several
     * @param emergencies by name; cases in which it is unknown are left out of its denominator
     * @param unknown by name of the emergency, in how many cases it is unknown
     * @param bounds by name of an emergency that is unknown in some, between which shares of all cases it must lie
     */
    public record Cost(
            Levels level,
            long cases,
            Map<Harm, ProportionEstimate> harm,
            Map<Complication, ProportionEstimate> complications,
            Map<Emergency, ProportionEstimate> emergencies,
            Map<Emergency, Long> unknown,
            Map<Emergency, MissingOutcomeBoundsAnalysis> bounds,
            String sentence) {

        /** Cases with this degree of harm or a worse one. */
        public long atLeast(Harm least) {
            return harm.entrySet().stream()
                    .filter(degree -> degree.getKey().compareTo(least) >= 0)
                    .mapToLong(degree -> degree.getValue().events())
                    .sum();
        }
    }

    private static final Note.Wording HARM = Note.Wording.of(
            "harm",
            "harm is the WHO degree of harm as its centre graded it; every case has one degree and may have several"
                    + " complications, so the complications do not add up to the cases.");
    private static final Note.Wording MEANING = Note.Wording.of("meaning", "%s");
    private static final Note.Wording OF_RECORDED_CASES = Note.Wording.of(
            "of-recorded-cases",
            "Of recorded entrapments alone: how often a device is entrapped at all is the question of incidence.");
    private static final Note.Wording UNKNOWN =
            Note.Wording.of("unknown", "unknown in %s of %s, left out of its denominator%s.");

    static HarmReport of(HarmQuery query, DataCut cut, List<OutcomeTally> tallies) {
        Confidence confidence = query.scope().confidence();
        List<String> by = GroupBy.codes(query.by());
        List<Factor> asked = GroupBy.factors(query.by());
        UnaryOperator<String> masking = GroupBy.masking(query.scope().viewer());
        Map<List<Level>, List<OutcomeTally>> byLevels = new TreeMap<>(Counting.ORDER);
        for (OutcomeTally tally : tallies) {
            List<Level> levels = query.by().stream()
                    .map(each -> each.level(tally.tally(), asked, masking))
                    .toList();
            byLevels.computeIfAbsent(levels, key -> new ArrayList<>()).add(tally);
        }
        List<Cost> groups = new ArrayList<>();
        byLevels.forEach((levels, own) -> groups.add(cost(Levels.of(by, levels), OutcomeCounts.of(own), confidence)));
        return new HarmReport(
                ReportHeading.of(
                        "harm",
                        "What does it cost the patient?",
                        cut,
                        query.scope(),
                        by,
                        IntervalMethod.WILSON.method()),
                List.copyOf(groups),
                notes(groups, OutcomeCounts.of(tallies), confidence));
    }

    /** The degrees of harm among some cases, in the order of their list. */
    public static Map<Harm, ProportionEstimate> degrees(List<OutcomeTally> tallies, Confidence confidence) {
        return OutcomeCounts.of(tallies).harm(confidence);
    }

    private static Cost cost(Levels level, OutcomeCounts counts, Confidence confidence) {
        long cases = counts.cases();
        Map<Harm, ProportionEstimate> harm = counts.harm(confidence);
        Map<Emergency, ProportionEstimate> emergencies = new LinkedHashMap<>();
        Map<Emergency, Long> unknown = new LinkedHashMap<>();
        Map<Emergency, MissingOutcomeBoundsAnalysis> bounds = new LinkedHashMap<>();
        StringBuilder unknowns = new StringBuilder();
        for (Emergency emergency : Emergency.values()) {
            long left = emergency.unknown(counts);
            emergencies.put(
                    emergency,
                    ProportionEstimate.of(
                            new Proportion(emergency.events(counts), cases - left), IntervalMethod.WILSON, confidence));
            if (left > 0) {
                unknown.put(emergency, left);
                bounds.put(emergency, emergency.bounds(counts, confidence));
                unknowns.append(" %s unknown in %s%s."
                        .formatted(emergency.code(), Words.cases(left), words(emergency.bounds(counts, confidence))));
            }
        }
        return new Cost(
                level,
                cases,
                harm,
                counts.complications(confidence),
                emergencies,
                unknown,
                bounds,
                Stream.of(Harm.DEATH, Harm.SEVERE)
                        .map(degree ->
                                degree.code() + " " + Words.share(Objects.requireNonNull(harm.get(degree)), confidence))
                        .collect(joining("; ", "Harm: ", "." + unknowns)));
    }

    static String words(MissingOutcomeBoundsAnalysis bounds) {
        Double lowest = bounds.lowestPossible();
        Double highest = bounds.highestPossible();
        return lowest == null || highest == null
                ? ""
                : ": whatever the unknown ones were, between %s and %s %% of all cases"
                        .formatted(NumberText.percent(lowest), NumberText.percent(highest));
    }

    private static List<Note> notes(List<Cost> groups, OutcomeCounts counts, Confidence confidence) {
        List<Note> notes = new ArrayList<>();
        notes.add(Note.of(HARM));
        for (Emergency emergency : Emergency.values()) {
            notes.add(Note.about(emergency.about(), MEANING, emergency.meaning()));
        }
        notes.add(Note.of(OF_RECORDED_CASES));
        for (Emergency emergency : Emergency.values()) {
            long unknown = emergency.unknown(counts);
            if (unknown > 0) {
                MissingOutcomeBoundsAnalysis bounds = emergency.bounds(counts, confidence);
                notes.add(Note.about(
                        emergency.about(),
                        UNKNOWN,
                        NumberText.count(unknown),
                        Words.cases(counts.cases()),
                        words(bounds)));
                bounds.notes().forEach(note -> notes.add(Note.of(emergency.about(), note)));
            }
        }
        if (groups.isEmpty()) {
            notes.add(Note.of(CommonNote.NOTHING_MATCHES));
        }
        return List.copyOf(notes);
    }

    @Override
    public Answer answer() {
        return HarmAnswer.of(this);
    }

    @Override
    public Table table() {
        return HarmAnswer.table(this);
    }
}
