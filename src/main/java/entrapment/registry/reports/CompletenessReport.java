package entrapment.registry.reports;

import static java.util.stream.Collectors.joining;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.activity.StoredReturn;
import entrapment.registry.cases.CompletenessTally;
import entrapment.registry.cases.CompletenessTally.Unknown;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.DiscordanceAnalysis.Status;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Labels;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import entrapment.registry.vocabulary.Tally.Cell;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Can we trust the numbers? What is not known of the cases, and where cases and returns do not belong together.
 *
 * @param groups one for each centre, or for each period
 * @param beyondActivity cells of centre, period and device class whose cases have no return or outnumber its uses
 * @param missingPeriods periods between a centre's first and last contribution for which it sent no return
 * @param silentCentres centres whose uses make it unlikely that they had no case; null where that cannot be judged
 */
@JsonPropertyOrder({"heading", "groups", "beyondActivity", "missingPeriods", "silentCentres", "notes", "cautions"})
public record CompletenessReport(
        @JsonUnwrapped ReportHeading heading,
        List<Group> groups,
        BeyondActivity beyondActivity,
        MissingPeriods missingPeriods,
        @Nullable SilentCentres silentCentres,
        List<String> notes,
        List<String> cautions)
        implements Report {

    /**
     * How complete one centre's or one period's cases are.
     *
     * @param fields by field, the cases in which it is unknown or absent
     * @param complete cases of which every field that is not optional is known
     * @param withQueries cases of which the sender was asked to look again, by the rules as they were when the version came
     * @param beyondActivity cases in a cell that contradicts its return
     */
    record Group(
            Map<String, String> level,
            long cases,
            Map<String, Occurrence> fields,
            Occurrence complete,
            Occurrence withQueries,
            Occurrence beyondActivity,
            Periods periods,
            String sentence) {}

    /** Periods without a return, of those between a centre's first and last contribution. */
    record Periods(long missing, long of) {}

    /** @param named the cells that the viewer may see by name */
    record BeyondActivity(long cells, long cases, List<NamedCell> named) {}

    /** @param uses null where the return has none of this device class, or there is no return */
    record NamedCell(
            String centre,
            Period period,
            String deviceClass,
            long cases,
            @Nullable Long uses,
            Status reason) {}

    /** @param named the periods that the viewer may see by name */
    record MissingPeriods(long periods, List<NamedPeriod> named) {}

    record NamedPeriod(String centre, Period period) {}

    /** @param named the centres that the viewer may see by name */
    record SilentCentres(long centres, List<Silence> named) {}

    /**
     * A centre without a case.
     *
     * @param expected cases at the network's rate of each device class it used
     * @param probability of no case at that rate, if uses are independent
     */
    record Silence(String centre, long uses, double expected, double probability, String question) {}

    /**
     * What the database counted.
     *
     * @param fields of the cases asked for
     * @param events by cell, of every centre that the viewer's key may count, in the periods and classes asked for
     * @param uses likewise
     * @param cases by cell, of the centres asked for, in every period
     * @param returns of the centres asked for, in every period
     */
    record Evidence(
            List<CompletenessTally> fields,
            List<Tally> events,
            List<Tally> uses,
            List<Tally> cases,
            List<StoredReturn> returns) {}

    /** Below this probability of no case by chance, a centre without a case is asked. */
    private static final double SILENT = 0.01;

    private static final List<String> NOTES = List.of(
            "A case is complete if every field is known but these, which are optional: "
                    + CompletenessTally.OPTIONAL.stream()
                            .map(field -> Words.small(Labels.field(field)))
                            .collect(joining(", "))
                    + ". Minutes are counted by cases with an attempt that does not state them, the definition of infarction"
                    + " in cases with a periprocedural infarction alone.",
            "A query asks the sender to look again, when a version comes; the case may be right as it is.",
            "Unknown is what was sent as unknown or left out. What was sent but is wrong, and what was never sent, cannot be"
                    + " seen from here.");

    static CompletenessReport of(CompletenessQuery query, DataCut cut, Evidence evidence, Viewer viewer) {
        Selection selection = query.scope().selection();
        Predicate<String> asked =
                centre -> selection.centres().isEmpty() || selection.centres().contains(centre);
        Map<Cell, Status> discordant = Counting.discordant(evidence.events(), evidence.uses());
        discordant.keySet().removeIf(cell -> !asked.test(cell.centre()));
        Map<String, Building> building = new TreeMap<>(query.by().order());
        Grouping grouping = new Grouping(query.by(), viewer, building);
        evidence.fields()
                .forEach(tally ->
                        grouping.of(tally.centre(), tally.period()).fields.add(tally));
        long beyond = 0;
        Set<Cell> beyondCells = new HashSet<>();
        for (Tally tally : evidence.events()) {
            if (tally.selected() && discordant.containsKey(tally.cell())) {
                grouping.of(tally.centre(), tally.period()).beyond += tally.count();
                beyond += tally.count();
                beyondCells.add(tally.cell());
            }
        }
        List<NamedPeriod> missing = new ArrayList<>();
        contributions(evidence).forEach((centre, sent) -> {
            for (Period period = sent.contributed.first();
                    period.compareTo(sent.contributed.last()) <= 0;
                    period = period.next()) {
                if (within(selection, period)) {
                    boolean returned = sent.returned.contains(period);
                    grouping.of(centre, period).period(returned);
                    if (!returned) {
                        missing.add(new NamedPeriod(centre, period));
                    }
                }
            }
        });
        Confidence confidence = query.scope().confidence();
        List<Group> groups = new ArrayList<>();
        building.forEach(
                (level, built) -> groups.add(built.group(Map.of(query.by().code(), level), confidence)));
        Map<Cell, Long> cases = Counting.total(evidence.events());
        Map<Cell, Long> uses = Counting.total(evidence.uses());
        List<Silence> silent = silences(evidence, asked);
        Predicate<String> named = centre -> GroupBy.name(centre, viewer).equals(centre);
        boolean network = viewer.role() != Role.SUBMITTER;
        return new CompletenessReport(
                new ReportHeading(
                        "completeness",
                        "Can we trust the numbers?",
                        cut,
                        query.scope().filters(),
                        List.of(query.by().code()),
                        confidence.level(),
                        IntervalMethod.WILSON.method()),
                List.copyOf(groups),
                new BeyondActivity(
                        beyondCells.size(),
                        beyond,
                        discordant.entrySet().stream()
                                .filter(cell -> beyondCells.contains(cell.getKey())
                                        && named.test(cell.getKey().centre()))
                                .map(cell -> new NamedCell(
                                        cell.getKey().centre(),
                                        cell.getKey().period(),
                                        cell.getKey().deviceClass(),
                                        cases.getOrDefault(cell.getKey(), 0L),
                                        uses.get(cell.getKey()),
                                        cell.getValue()))
                                .toList()),
                new MissingPeriods(
                        missing.size(),
                        missing.stream()
                                .filter(period -> named.test(period.centre()))
                                .toList()),
                network
                        ? new SilentCentres(
                                silent.size(),
                                silent.stream()
                                        .filter(silence -> named.test(silence.centre()))
                                        .toList())
                        : null,
                notes(groups, network),
                ReportHeading.CAUTIONS);
    }

    private static boolean within(Selection selection, Period period) {
        Period from = selection.from();
        Period to = selection.to();
        return (from == null || period.compareTo(from) >= 0) && (to == null || period.compareTo(to) <= 0);
    }

    /** The periods in which a centre sent a case or a return, and those of its returns. */
    private record Contributions(SortedSet<Period> contributed, Set<Period> returned) {}

    private static Map<String, Contributions> contributions(Evidence evidence) {
        Map<String, Contributions> contributions = new TreeMap<>();
        for (Tally tally : evidence.cases()) {
            contributions
                    .computeIfAbsent(tally.centre(), centre -> new Contributions(new TreeSet<>(), new HashSet<>()))
                    .contributed
                    .add(tally.period());
        }
        for (StoredReturn stored : evidence.returns()) {
            Contributions own = contributions.computeIfAbsent(
                    stored.centre(), centre -> new Contributions(new TreeSet<>(), new HashSet<>()));
            own.contributed.add(stored.period());
            own.returned.add(stored.period());
        }
        return contributions;
    }

    /**
     * Centres with uses and no case, where chance is an unlikely reason: at the network's rate p of each device class, cells
     * that contradict themselves left out, P(no case) = ∏(1−p)ⁿ over the centre's n uses of each.
     */
    private static List<Silence> silences(Evidence evidence, Predicate<String> asked) {
        Map<Cell, Long> events = Counting.total(evidence.events());
        Map<Cell, Long> uses = Counting.total(evidence.uses());
        Set<Cell> discordant =
                Counting.discordant(evidence.events(), evidence.uses()).keySet();
        Map<String, long[]> byClass = new TreeMap<>();
        Map<String, Map<String, Long>> byCentre = new TreeMap<>();
        uses.forEach((cell, count) -> {
            if (!discordant.contains(cell)) {
                long[] sums = byClass.computeIfAbsent(cell.deviceClass(), key -> new long[2]);
                sums[0] += events.getOrDefault(cell, 0L);
                sums[1] += count;
                byCentre.computeIfAbsent(cell.centre(), key -> new TreeMap<>())
                        .merge(cell.deviceClass(), count, Long::sum);
            }
        });
        events.keySet().forEach(cell -> byCentre.remove(cell.centre()));
        List<Silence> silences = new ArrayList<>();
        byCentre.forEach((centre, counts) -> {
            double expected = 0;
            double logNone = 0;
            for (Map.Entry<String, Long> count : counts.entrySet()) {
                long[] sums = byClass.getOrDefault(count.getKey(), new long[2]);
                Double rate = new Proportion(sums[0], sums[1]).estimate();
                if (rate != null && count.getValue() > 0) {
                    expected += rate * count.getValue();
                    logNone += count.getValue() * Math.log1p(-rate);
                }
            }
            double probability = Math.exp(logNone);
            if (asked.test(centre) && probability < SILENT) {
                long all = counts.values().stream().mapToLong(Long::longValue).sum();
                silences.add(new Silence(centre, all, expected, probability, question(all, expected, probability)));
            }
        });
        return silences;
    }

    private static String question(long uses, double expected, double probability) {
        return ("%s and no case, where %s would be expected at the network's rate of each device class (probability of none"
                        + " by chance %s). Is every case being reported?")
                .formatted(Words.uses(uses), NumberText.ratio(expected), NumberText.pValue(probability));
    }

    private static List<String> notes(List<Group> groups, boolean network) {
        List<String> notes = new ArrayList<>(NOTES);
        notes.add(
                network
                        ? "A centre is asked about its silence if no case would be less likely than 1 in 100 at the network's"
                                + " rates; a careful centre can be silent by chance."
                        : "Whether a centre is silent is judged against the network's rates, which this key does not see.");
        if (groups.isEmpty()) {
            notes.add("Nothing in the registry matches these filters.");
        }
        return List.copyOf(notes);
    }

    /** Finds the group that a place and time belong to. */
    private record Grouping(GroupBy by, Viewer viewer, Map<String, Building> building) {

        Building of(String centre, Period period) {
            String level = by.code().equals("period") ? period.toString() : GroupBy.name(centre, viewer);
            return building.computeIfAbsent(level, key -> new Building());
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

        private Group group(Map<String, String> level, Confidence confidence) {
            long cases = fields.stream().mapToLong(CompletenessTally::cases).sum();
            Map<String, Unknown> sums = new LinkedHashMap<>();
            fields.forEach(tally -> tally.fields()
                    .forEach((field, unknown) -> sums.merge(
                            field,
                            unknown,
                            (one, other) -> new Unknown(one.cases() + other.cases(), one.of() + other.of()))));
            Map<String, Occurrence> unknown = new LinkedHashMap<>();
            sums.forEach((field, sum) -> unknown.put(field, Occurrence.of(sum.cases(), sum.of(), confidence)));
            Occurrence complete = Occurrence.of(
                    fields.stream().mapToLong(CompletenessTally::complete).sum(), cases, confidence);
            Occurrence queried = Occurrence.of(
                    fields.stream().mapToLong(CompletenessTally::queried).sum(), cases, confidence);
            return new Group(
                    level,
                    cases,
                    unknown,
                    complete,
                    queried,
                    Occurrence.of(beyond, cases, confidence),
                    new Periods(missing, periods),
                    sentence(cases, complete, queried, unknown, confidence));
        }

        private String sentence(
                long cases,
                Occurrence complete,
                Occurrence queried,
                Map<String, Occurrence> unknown,
                Confidence confidence) {
            String returns =
                    missing == 0 ? "no return missing" : "%d of %d returns missing".formatted(missing, periods);
            if (cases == 0) {
                return "No case; " + returns + ".";
            }
            String most = unknown.entrySet().stream()
                    .filter(field -> field.getValue().events() > 0)
                    .sorted(Comparator.comparingLong((Map.Entry<String, Occurrence> field) ->
                            -field.getValue().events()))
                    .limit(3)
                    .map(field -> field.getKey() + " ("
                            + NumberText.count(field.getValue().events()) + ")")
                    .collect(joining(", "));
            return "%s complete; %d with a query, %d beyond the activity returned; %s; %s."
                    .formatted(
                            complete.words(confidence),
                            queried.events(),
                            beyond,
                            returns,
                            most.isEmpty() ? "nothing unknown" : "most often unknown " + most);
        }
    }

    @Override
    public Answer answer() {
        return CompletenessAnswer.of(this);
    }

    /** One row for each measure of a group, then one for each cell, period and centre to look at. */
    @Override
    public Table table() {
        String by = heading.by().get(0);
        List<String> columns = new ArrayList<>(List.of(by, "measure", "name"));
        columns.addAll(Occurrence.COLUMNS);
        columns.add("sentence");
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (Group group : groups) {
            String level = group.level().getOrDefault(by, "");
            group.fields()
                    .forEach((field, unknown) ->
                            rows.add(row(level, "unknown", field, unknown, field + " unknown: " + words(unknown))));
            rows.add(row(level, "complete", "", group.complete(), "complete: " + words(group.complete())));
            rows.add(
                    row(level, "with-queries", "", group.withQueries(), "with queries: " + words(group.withQueries())));
            rows.add(row(
                    level,
                    "beyond-activity",
                    "",
                    group.beyondActivity(),
                    "beyond the activity returned: " + words(group.beyondActivity())));
            Periods periods = group.periods();
            rows.add(row(
                    level,
                    "missing-periods",
                    "",
                    new Occurrence(periods.missing(), periods.of(), null, null, null),
                    "returns missing: %d of %d periods.".formatted(periods.missing(), periods.of())));
        }
        boolean byCentre = by.equals("centre");
        for (NamedCell cell : beyondActivity.named()) {
            String uses = cell.uses() == null ? "no uses returned" : Words.uses(cell.uses());
            rows.add(named(
                    byCentre ? cell.centre() : cell.period().toString(),
                    "cell",
                    "%s %s %s".formatted(cell.centre(), cell.period(), cell.deviceClass()),
                    cell.cases(),
                    cell.uses(),
                    "%s, %s: %s.".formatted(Words.cases(cell.cases()), uses, cell.reason())));
        }
        for (NamedPeriod missing : missingPeriods.named()) {
            rows.add(named(
                    byCentre ? missing.centre() : missing.period().toString(),
                    "missing-period",
                    missing.centre() + " " + missing.period(),
                    null,
                    null,
                    "No return for this period."));
        }
        SilentCentres silent = silentCentres;
        for (Silence silence : silent == null ? List.<Silence>of() : silent.named()) {
            rows.add(named(
                    byCentre ? silence.centre() : null,
                    "silent-centre",
                    silence.centre(),
                    0L,
                    silence.uses(),
                    silence.question()));
        }
        return new Table(heading.comments(notes), columns, rows);
    }

    /** These are counts of all there is, so without one there is nothing more that the data still fit. */
    private String words(Occurrence occurrence) {
        return occurrence.events() == 0 && occurrence.of() > 0
                ? "0 of %s.".formatted(Words.cases(occurrence.of()))
                : occurrence.words(new Confidence(heading.confidence())) + ".";
    }

    private static List<@Nullable Object> row(
            String level, String measure, String name, Occurrence occurrence, String sentence) {
        List<@Nullable Object> row = new ArrayList<>(List.of(level, measure, name));
        occurrence.addTo(row);
        row.add(sentence);
        return row;
    }

    private static List<@Nullable Object> named(
            @Nullable String level,
            String measure,
            String name,
            @Nullable Long cases,
            @Nullable Long uses,
            String sentence) {
        List<@Nullable Object> row = new ArrayList<>();
        row.add(level);
        row.add(measure);
        row.add(name);
        row.add(cases);
        row.add(uses);
        Stream.of(1, 2, 3).forEach(figure -> row.add(null));
        row.add(sentence);
        return row;
    }
}
