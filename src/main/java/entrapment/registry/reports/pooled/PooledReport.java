package entrapment.registry.reports.pooled;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;
import static entrapment.registry.exports.Column.Kind.P_VALUE;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Limits;
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
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Estimate;
import entrapment.registry.stats.Group;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.PooledProportionAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Levels;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** The rate in a typical centre by a random-intercept model, and where a further centre's true rate would most likely lie. */
public record PooledReport(
        @JsonUnwrapped ReportHeading heading, List<Pooled> groups, Counting.Excluded excluded, List<Note> notes)
        implements Report {

    /**
     * One level's pooled rate; all proportions in [0, 1].
     *
     * @param crude all events of all uses: the mean use, not the typical centre
     * @param estimate the median centre; null where the data cannot carry the model
     * @param predictionLower of the interval for the true rate of a further centre
     * @param medianOddsRatio how many times the odds of one centre are those of another, in the median pair
     * @param heterogeneityPValue evidence that centres differ
     */
    public record Pooled(
            Levels level,
            int centres,
            long events,
            long uses,
            @Nullable Double crude,
            @Nullable Double estimate,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double predictionLower,
            @Nullable Double predictionUpper,
            @Nullable Double medianOddsRatio,
            @Nullable Double heterogeneityPValue,
            String sentence) {}

    /** Fewer cannot tell how centres spread (statistics, section 14). */
    private static final int FEWEST_CENTRES = 5;

    private static final long FEWEST_EVENTS = 10;

    private static final Note.Wording CENTRE_LEFT_OUT = Note.Wording.of(
            "centre-left-out", "One centre was left out of a level, because its entrapments outnumber its uses there.");

    static PooledReport of(PooledQuery query, DataCut cut, Counting counting) {
        Confidence confidence = query.scope().confidence();
        List<String> by = GroupBy.codes(query.by());
        List<Note> notes = new ArrayList<>();
        Map<Levels, List<Group>> byLevel = new LinkedHashMap<>();
        for (Counting.Group group : counting.groups()) {
            if (group.contradicts()) {
                notes.add(Note.of(CENTRE_LEFT_OUT));
                continue;
            }
            List<Group> centres = byLevel.computeIfAbsent(Levels.of(by, group.levels()), levels -> new ArrayList<>());
            centres.add(new Group("centre " + (centres.size() + 1), new Proportion(group.events(), group.uses())));
        }
        List<Pooled> groups = new ArrayList<>();
        byLevel.forEach((level, centres) -> {
            String name = level.isEmpty() ? "" : level.codes() + ": ";
            if (centres.size() < FEWEST_CENTRES || events(centres) < FEWEST_EVENTS) {
                groups.add(pooled(
                        level,
                        centres,
                        null,
                        "%s%s in %s of %d centres: too few to pool, which needs ten events and five centres."
                                .formatted(
                                        name,
                                        Words.entrapments(events(centres)),
                                        Words.uses(uses(centres)),
                                        centres.size())));
                return;
            }
            PooledProportionAnalysis analysis = PooledProportionAnalysis.of(centres, confidence);
            Note.Subject about = level.isEmpty() ? null : new Note.Subject(level.codes(), level.label(""));
            analysis.notes().forEach(note -> notes.add(Note.of(about, note)));
            groups.add(pooled(level, centres, analysis, name + sentence(analysis, confidence)));
        });
        if (groups.isEmpty()) {
            notes.add(Note.of(CommonNote.NOTHING_MATCHES));
        }
        notes.addAll(CommonNote.exclusions(counting));
        return new PooledReport(
                ReportHeading.of(
                        "pooled",
                        "What is the rate in a typical centre, and how far might a further one be from it?",
                        cut,
                        query.scope(),
                        by,
                        Calculation.POOLED_PROPORTION.method()),
                List.copyOf(groups),
                counting.excluded(),
                List.copyOf(notes));
    }

    private static long events(List<Group> centres) {
        return centres.stream()
                .mapToLong(centre -> centre.proportion().events())
                .sum();
    }

    private static long uses(List<Group> centres) {
        return centres.stream().mapToLong(centre -> centre.proportion().of()).sum();
    }

    private static Pooled pooled(
            Levels level, List<Group> centres, @Nullable PooledProportionAnalysis analysis, String sentence) {
        Estimate typical = analysis == null ? new Estimate(null, null, null) : analysis.waldAsProportion();
        Interval further = analysis == null ? Interval.NOT_ESTIMABLE : analysis.predictionAsProportion();
        return new Pooled(
                level,
                centres.size(),
                events(centres),
                uses(centres),
                analysis == null ? new Proportion(events(centres), uses(centres)).estimate() : analysis.crude(),
                typical.estimate(),
                typical.lower(),
                typical.upper(),
                further.lower(),
                further.upper(),
                analysis == null ? null : analysis.medianOddsRatio(),
                analysis == null ? null : analysis.lrHalfPValue(),
                sentence);
    }

    private static String sentence(PooledProportionAnalysis analysis, Confidence confidence) {
        Estimate typicalRate = analysis.waldAsProportion();
        String rate = Words.perThousand(typicalRate.estimate(), typicalRate.lower(), typicalRate.upper(), confidence);
        if (rate == null) {
            return "the data cannot carry a pooled rate; see the notes.";
        }
        String typical = "in a typical centre " + rate;
        Double predictionLower = analysis.predictionAsProportion().lower();
        Double predictionUpper = analysis.predictionAsProportion().upper();
        Double pValue = analysis.lrHalfPValue();
        if (predictionLower == null || predictionUpper == null || pValue == null) {
            return typical + ".";
        }
        return "%s; the true rate of a further centre like these would most likely lie between %s and %s per 1,000; evidence that centres differ: p %s."
                .formatted(
                        typical,
                        NumberText.perThousand(predictionLower),
                        NumberText.perThousand(predictionUpper),
                        NumberText.pValue(pValue));
    }

    @Override
    public Answer answer() {
        return heading.answer(
                groups.size() == 1 ? groups.get(0).sentence() : "For each of " + groups.size() + " groups, below.",
                List.of(columns()
                        .exhibit(
                                "The rate of a typical centre",
                                "",
                                Figure.intervals(
                                        Unit.PER_THOUSAND,
                                        "Entrapments per 1,000 uses of a typical centre",
                                        groups.stream().map(PooledReport::item).toList()),
                                groups)),
                notes);
    }

    @Override
    public Table table() {
        return columns().table(heading, notes, groups);
    }

    private Columns<Pooled> columns() {
        return new Columns<Pooled>()
                .levels(heading.by(), Pooled::level)
                .csv("centres", Pooled::centres)
                .shown("Centres", COUNT, group -> (long) group.centres())
                .column("events", "Entrapments", COUNT, Pooled::events)
                .column("uses", "Uses", COUNT, Pooled::uses)
                .csv("crude", Pooled::crude)
                .column("estimate", "Typical centre", PER_THOUSAND, Pooled::estimate)
                .interval("lower", "upper", heading.confidence(), PER_THOUSAND, Pooled::lower, Pooled::upper)
                .csv("predictionLower", Pooled::predictionLower)
                .csv("predictionUpper", Pooled::predictionUpper)
                .shown(
                        "A further centre",
                        PER_THOUSAND,
                        group -> new Limits(group.predictionLower(), group.predictionUpper()))
                .csv("medianOddsRatio", Pooled::medianOddsRatio)
                .onPage("heterogeneityPValue", "p, centres alike", P_VALUE, Pooled::heterogeneityPValue)
                .perThousand("perThousand", Pooled::estimate)
                .csv("sentence", Pooled::sentence);
    }

    private static Figure.Item item(Pooled group) {
        return new Figure.Item(
                group.level().label("All devices"),
                "",
                group.events(),
                group.uses(),
                group.estimate(),
                group.lower(),
                group.upper(),
                Figure.Mark.NONE,
                group.sentence());
    }
}
