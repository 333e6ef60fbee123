package entrapment.registry.reports.completeness;

import static java.util.stream.Collectors.joining;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.CompletenessTally;
import entrapment.registry.cases.CompletenessTally.Unknown;
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
import entrapment.registry.stats.DiscordanceAnalysis.Status;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Labels;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import entrapment.registry.vocabulary.Tally.Cell;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * Can we trust the numbers? What is not known of the cases, and where cases and returns do not belong together.
 *
 * @param groups one for each centre, or for each period
 * @param silentCentres null where that cannot be judged
 */
public record CompletenessReport(
        @JsonUnwrapped ReportHeading heading,
        List<Group> groups,
        BeyondActivity beyondActivity,
        MissingPeriods missingPeriods,
        @Nullable SilentCentres silentCentres,
        List<Note> notes)
        implements Report {

    /**
     * How complete one centre's or one period's cases are.
     *
     * @param fields by field, the cases in which it is unknown or absent
     * @param complete cases of which every field that is not optional is known
     * @param withQueries cases of which the sender was asked to look again, by the rules as they were when the version came
     * @param beyondActivity cases in a cell that contradicts its return
     */
    public record Group(
            Levels level,
            long cases,
            Map<String, ProportionEstimate> fields,
            ProportionEstimate complete,
            ProportionEstimate withQueries,
            ProportionEstimate beyondActivity,
            Periods periods,
            String sentence) {}

    /** Periods without a return, of those between a centre's first and last contribution. */
    public record Periods(long missing, long of) {

        String words() {
            return missing == 0 ? "no return missing" : "%d of %d returns missing".formatted(missing, of);
        }
    }

    private static final Note.Wording COMPLETE = Note.Wording.of(
            "complete",
            "A case is complete if every field is known but these, which are optional: %s. Minutes are counted by cases"
                    + " with an attempt that does not state them, the definition of infarction in cases with a periprocedural"
                    + " infarction alone.");
    private static final Note.Wording QUERIES = Note.Wording.of(
            "queries", "A query asks the sender to look again, when a version comes; the case may be right as it is.");
    private static final Note.Wording UNKNOWN = Note.Wording.of(
            "unknown",
            "Unknown is what was sent as unknown or left out. What was sent but is wrong, and what was never sent,"
                    + " cannot be seen from here.");
    private static final Note.Wording SILENCE = Note.Wording.of(
            "silence",
            "A centre is asked about its silence if no case would be less likely than 1 in 100 at the network's rates;"
                    + " a careful centre can be silent by chance.");
    private static final Note.Wording SILENCE_NOT_SEEN = Note.Wording.of(
            "silence-not-seen",
            "Whether a centre is silent is judged against the network's rates, which this key does not see.");

    static CompletenessReport of(CompletenessQuery query, DataCut cut, CompletenessQuestion.Evidence evidence) {
        Selection selection = query.scope().selection();
        Viewer viewer = query.scope().viewer();
        Confidence confidence = query.scope().confidence();
        Predicate<String> asked =
                centre -> selection.centres().isEmpty() || selection.centres().contains(centre);
        Predicate<String> named = centre -> GroupBy.name(centre, viewer).equals(centre);
        Map<Cell, Status> discordant = Counting.discordant(evidence.events(), evidence.uses());
        discordant.keySet().removeIf(cell -> !asked.test(cell.centre()));
        List<Tally> beyond = evidence.events().stream()
                .filter(tally -> tally.selected() && discordant.containsKey(tally.cell()))
                .toList();
        List<MissingPeriods.Expected> expected =
                MissingPeriods.expected(evidence.cases(), evidence.returns(), selection);
        Grouping grouping = new Grouping(query.by(), viewer, new TreeMap<>());
        evidence.fields()
                .forEach(tally ->
                        grouping.of(tally.centre(), tally.period()).fields.add(tally));
        beyond.forEach(tally -> grouping.of(tally.centre(), tally.period()).beyond += tally.count());
        expected.forEach(period -> grouping.of(period.centre(), period.period()).period(period.returned()));
        List<Group> groups = new ArrayList<>();
        grouping.building()
                .forEach((level, built) ->
                        groups.add(built.group(Levels.of(query.by().code(), level), confidence)));
        boolean network = viewer.role() != Role.SUBMITTER;
        return new CompletenessReport(
                ReportHeading.of(
                        "completeness",
                        "Can we trust the numbers?",
                        cut,
                        query.scope(),
                        List.of(query.by().code()),
                        IntervalMethod.WILSON.method()),
                List.copyOf(groups),
                BeyondActivity.of(beyond, discordant, evidence, named),
                MissingPeriods.of(expected, named),
                network ? SilentCentres.of(evidence.events(), evidence.uses(), asked, named) : null,
                notes(groups, network));
    }

    private static List<Note> notes(List<Group> groups, boolean network) {
        List<Note> notes = new ArrayList<>();
        notes.add(Note.of(
                COMPLETE,
                CompletenessTally.OPTIONAL.stream()
                        .map(field -> Words.small(Labels.field(field)))
                        .collect(joining(", "))));
        notes.add(Note.of(QUERIES));
        notes.add(Note.of(UNKNOWN));
        notes.add(Note.of(network ? SILENCE : SILENCE_NOT_SEEN));
        if (groups.isEmpty()) {
            notes.add(Note.of(CommonNote.NOTHING_MATCHES));
        }
        return List.copyOf(notes);
    }

    /** Finds the group that a place and time belong to. */
    private record Grouping(GroupBy by, Viewer viewer, Map<Level, Building> building) {

        Building of(String centre, Period period) {
            return building.computeIfAbsent(
                    by.equals(GroupBy.PERIOD)
                            ? new Level.OfPeriod(period)
                            : new Level.OfCentre(GroupBy.name(centre, viewer)),
                    key -> new Building());
        }
    }

    /** A group while it is added up. */
    private static final class Building {

        private final List<CompletenessTally> fields = new ArrayList<>();
        private long beyond;
        private long missing;
        private long periods;

        private void period(boolean returned) {
            periods++;
            missing += returned ? 0 : 1;
        }

        private Group group(Levels level, Confidence confidence) {
            long cases = fields.stream().mapToLong(CompletenessTally::cases).sum();
            Map<String, Unknown> sums = new LinkedHashMap<>();
            fields.forEach(tally -> tally.fields()
                    .forEach((field, unknown) -> sums.merge(
                            field,
                            unknown,
                            (one, other) -> new Unknown(one.cases() + other.cases(), one.of() + other.of()))));
            Map<String, ProportionEstimate> unknown = new LinkedHashMap<>();
            sums.forEach((field, sum) -> unknown.put(field, share(sum.cases(), sum.of(), confidence)));
            ProportionEstimate complete =
                    share(fields.stream().mapToLong(CompletenessTally::complete).sum(), cases, confidence);
            ProportionEstimate queried =
                    share(fields.stream().mapToLong(CompletenessTally::queried).sum(), cases, confidence);
            Periods returns = new Periods(missing, periods);
            return new Group(
                    level,
                    cases,
                    unknown,
                    complete,
                    queried,
                    share(beyond, cases, confidence),
                    returns,
                    cases == 0
                            ? "No case; " + returns.words() + "."
                            : "%s complete; %d with a query, %d beyond the activity returned; %s; %s."
                                    .formatted(
                                            Words.share(complete, confidence),
                                            queried.events(),
                                            beyond,
                                            returns.words(),
                                            mostOften(unknown)));
        }

        private static String mostOften(Map<String, ProportionEstimate> unknown) {
            String most = unknown.entrySet().stream()
                    .filter(field -> field.getValue().events() > 0)
                    .sorted(Comparator.comparingLong((Map.Entry<String, ProportionEstimate> field) ->
                            -field.getValue().events()))
                    .limit(3)
                    .map(field -> field.getKey() + " ("
                            + NumberText.count(field.getValue().events()) + ")")
                    .collect(joining(", "));
            return most.isEmpty() ? "nothing unknown" : "most often unknown " + most;
        }
    }

    static ProportionEstimate share(long events, long of, Confidence confidence) {
        return ProportionEstimate.of(new Proportion(events, of), IntervalMethod.WILSON, confidence);
    }

    /** Cases of which every field that is not optional is known, among all cases of the groups. */
    public Proportion complete() {
        return new Proportion(
                groups.stream().mapToLong(group -> group.complete().events()).sum(),
                groups.stream().mapToLong(Group::cases).sum());
    }

    @Override
    public Answer answer() {
        return CompletenessAnswer.of(this);
    }

    @Override
    public Table table() {
        return CompletenessTable.of(this);
    }
}
