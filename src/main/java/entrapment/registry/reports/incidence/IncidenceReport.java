package entrapment.registry.reports.incidence;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.CommonNote;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.question.Report;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionAnalysis;
import entrapment.registry.vocabulary.Labels;
import entrapment.registry.vocabulary.Levels;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * How often is a device entrapped? Events of uses, with the interval of the chosen method.
 *
 * @param interval by which every interval was made
 * @param excluded what was left out because cases and returns contradict each other
 * @param notes what the reader must know of these figures
 */
public record IncidenceReport(
        @JsonUnwrapped ReportHeading heading,
        @JsonIgnore IntervalMethod interval,
        List<Rate> groups,
        Counting.Excluded excluded,
        List<Note> notes)
        implements Report {

    /**
     * One group's figures; a proportion is in [0, 1].
     *
     * @param level the levels that make the group, by the name of what was split by
     * @param estimate null without uses, or where events outnumber them
     * @param upperBoundIfNone with no event the one-sided upper bound at the report's level; otherwise null
     */
    public record Rate(
            Levels level,
            long events,
            long uses,
            @Nullable Double estimate,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double upperBoundIfNone,
            String sentence) {}

    static IncidenceReport of(IncidenceQuery query, DataCut cut, Counting counting) {
        List<String> by = GroupBy.codes(query.by());
        Confidence confidence = query.scope().confidence();
        List<Rate> groups = counting.groups().stream()
                .map(group -> rate(group, by, query.method(), confidence))
                .toList();
        return new IncidenceReport(
                ReportHeading.of(
                        "incidence",
                        "How often is a device entrapped?",
                        cut,
                        query.scope(),
                        by,
                        query.method().method()),
                query.method(),
                groups,
                counting.excluded(),
                notes(groups, counting));
    }

    private static Rate rate(Counting.Group group, List<String> by, IntervalMethod method, Confidence confidence) {
        Levels level = Levels.of(by, group.levels());
        if (group.contradicts()) {
            return new Rate(level, group.events(), group.uses(), null, null, null, null, contradiction(group));
        }
        Proportion proportion = new Proportion(group.events(), group.uses());
        Interval interval = proportion.interval(method, confidence);
        Double bound = ProportionAnalysis.of(proportion, confidence).zeroEventUpperOneSided();
        return new Rate(
                level,
                group.events(),
                group.uses(),
                proportion.estimate(),
                interval.lower(),
                interval.upper(),
                bound,
                sentence(proportion, interval, bound, confidence));
    }

    private static String contradiction(Counting.Group group) {
        return "%s in %s: these contradict each other, so no rate is given."
                .formatted(Words.entrapments(group.events()), Words.uses(group.uses()));
    }

    /** Events of uses in words, with their interval. */
    static String sentence(Proportion proportion, IntervalMethod method, Confidence confidence) {
        return sentence(
                proportion,
                proportion.interval(method, confidence),
                ProportionAnalysis.of(proportion, confidence).zeroEventUpperOneSided(),
                confidence);
    }

    private static String sentence(
            Proportion proportion, Interval interval, @Nullable Double bound, Confidence confidence) {
        String rate = Words.perThousand(proportion.estimate(), interval.lower(), interval.upper(), confidence);
        if (rate == null) {
            return "No use was reported, so no rate can be given.";
        }
        return bound == null
                ? "%s in %s: %s.".formatted(Words.entrapments(proportion.events()), Words.uses(proportion.of()), rate)
                : "No entrapment in %s; the data still fit a true rate of up to %s per 1,000 (about 1 in %s)."
                        .formatted(
                                Words.uses(proportion.of()),
                                NumberText.perThousand(bound),
                                NumberText.count(Math.round(1 / bound)));
    }

    private static List<Note> notes(List<Rate> groups, Counting counting) {
        List<Note> notes = new ArrayList<>(CommonNote.exclusions(counting));
        if (groups.isEmpty() && counting.excluded().cells() == 0) {
            notes.add(Note.of(CommonNote.NOTHING_MATCHES));
        }
        if (groups.stream().anyMatch(group -> group.uses() == 0)) {
            notes.add(Note.of(NO_USES));
        }
        return List.copyOf(notes);
    }

    private static final Note.Wording NO_USES = Note.Wording.of("no-uses", "A group without uses has no rate.");

    /** Events of all groups together, as they part what was counted; those of a group that contradicts itself are left. */
    public Proportion total() {
        long events = 0;
        long uses = 0;
        for (Rate group : groups) {
            if (group.events() <= group.uses()) {
                events += group.events();
                uses += group.uses();
            }
        }
        return new Proportion(events, uses);
    }

    @Override
    public Answer answer() {
        List<Figure.Item> items = groups.stream()
                .map(group -> new Figure.Item(
                        group.level().label("All devices"),
                        "",
                        group.events(),
                        group.uses(),
                        group.estimate(),
                        group.lower(),
                        group.upper(),
                        Figure.Mark.NONE,
                        group.sentence()))
                .toList();
        String split =
                heading.by().stream().map(Labels::field).map(Words::small).collect(Collectors.joining(", "));
        return heading.answer(
                sentence(),
                List.of(columns()
                        .exhibit(
                                split.isEmpty()
                                        ? "Entrapments per 1,000 uses"
                                        : "Entrapments per 1,000 uses by " + split,
                                "",
                                Figure.intervals(Unit.PER_THOUSAND, "Entrapments per 1,000 uses", items),
                                groups)),
                notes);
    }

    @Override
    public Table table() {
        return columns().table(heading, notes, groups);
    }

    /** The report as lines for a terminal: the question, a sentence for each group, then notes and cautions. */
    public List<String> asText() {
        List<String> lines = new ArrayList<>();
        lines.add(heading.question() + " (revision " + heading.dataCut().revision() + ")");
        groups.forEach(group -> lines.add("  %-20s %s".formatted(group.level().codes(), group.sentence())));
        notes.forEach(note -> lines.add("  Note: " + note.forPrograms()));
        cautions().forEach(caution -> lines.add("  Caution: " + caution));
        return lines;
    }

    private Columns<Rate> columns() {
        return new Columns<Rate>()
                .levels(heading.by(), Rate::level)
                .column("events", "Entrapments", COUNT, Rate::events)
                .column("uses", "Uses", COUNT, Rate::uses)
                .column("estimate", "Rate", PER_THOUSAND, Rate::estimate)
                .interval("lower", "upper", heading.confidence(), PER_THOUSAND, Rate::lower, Rate::upper)
                .onPage("No event: at most", PER_THOUSAND, Rate::upperBoundIfNone)
                .perThousand("perThousand", Rate::estimate)
                .perThousand("perThousandLower", Rate::lower)
                .perThousand("perThousandUpper", Rate::upper)
                .csv("sentence", Rate::sentence);
    }

    /** Of one group its own sentence; of several the same for all of them together. */
    private String sentence() {
        return groups.size() == 1 ? groups.get(0).sentence() : sentence(total(), interval, heading.confidence());
    }
}
