package entrapment.registry.reports.planning;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.NUMBER;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;
import static entrapment.registry.exports.Column.Kind.RATIO;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.CommonNote;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.question.Report;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.PlanDetectableChangeAnalysis;
import entrapment.registry.stats.PlanPrecisionAnalysis;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import entrapment.registry.vocabulary.Period;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** How many uses until an interval is narrow enough, and what change a year of this volume could show. */
public record PlanningReport(
        @JsonUnwrapped ReportHeading heading,
        double power,
        List<Plan> groups,
        Counting.Excluded excluded,
        List<Note> notes)
        implements Report {

    /**
     * One level's outlook.
     *
     * @param usesPerYear the mean of the periods that reported
     * @param estimate the present rate, taken as known
     * @param halfWidth the half-width asked for, a proportion
     * @param usesForHalfWidth uses until Wilson's interval is that narrow
     * @param yearsForHalfWidth how long that takes at this volume
     * @param detectableRatio the smallest rise within a year that would be noticed, as a multiple of the present rate
     * @param detectableDecrease the proportion to which the rate must fall to be noticed within a year; null if none could
     */
    public record Plan(
            Levels level,
            long events,
            long uses,
            double usesPerYear,
            @Nullable Double estimate,
            @Nullable Double halfWidth,
            @Nullable Long usesForHalfWidth,
            @Nullable Double yearsForHalfWidth,
            @Nullable Double detectableRatio,
            @Nullable Double detectableDecrease,
            String sentence) {}

    private static final double ONE_SIDED = 0.025;
    private static final double WIDEST = 0.499;

    private static final Note.Wording RATE_AS_KNOWN = Note.Wording.of(
            "rate-as-known",
            "The present rate is taken as if it were known; no power is computed for a result already seen.");

    /** @param counting by what the query splits by, then by period */
    static PlanningReport of(PlanningQuery query, DataCut cut, Counting counting) {
        List<String> by = GroupBy.codes(query.by());
        Map<Levels, long[]> sums = new LinkedHashMap<>();
        TreeSet<Period> periods = new TreeSet<>();
        for (Counting.Group group : counting.groups()) {
            long[] sum = sums.computeIfAbsent(Levels.of(by, group.levels()), level -> new long[2]);
            sum[0] += group.events();
            sum[1] += group.uses();
            if (group.levels().get(by.size()) instanceof Level.OfPeriod of) {
                periods.add(of.period());
            }
        }
        double years = periods.isEmpty()
                ? 0
                : (double) periods.size() / periods.first().resolution().perYear();
        List<Plan> groups = new ArrayList<>();
        sums.forEach((level, sum) -> groups.add(plan(level, sum[0], sum[1], years, query)));
        List<Note> notes = new ArrayList<>();
        notes.add(Note.of(RATE_AS_KNOWN));
        if (groups.isEmpty()) {
            notes.add(Note.of(CommonNote.NOTHING_MATCHES));
        }
        notes.addAll(CommonNote.exclusions(counting));
        return new PlanningReport(
                ReportHeading.of(
                        "planning",
                        "How long until we could tell?",
                        cut,
                        query.scope(),
                        by,
                        Calculation.PLAN_DETECTABLE_CHANGE.method()),
                query.power(),
                List.copyOf(groups),
                counting.excluded(),
                List.copyOf(notes));
    }

    private static Plan plan(Levels level, long events, long uses, double years, PlanningQuery query) {
        double perYear = years == 0 ? 0 : uses / years;
        if (events == 0 || events >= uses || perYear < 1) {
            return new Plan(
                    level,
                    events,
                    uses,
                    perYear,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    "%s in %s: no rate to plan from.".formatted(Words.entrapments(events), Words.uses(uses)));
        }
        double rate = (double) events / uses;
        Double asked = query.halfWidth();
        double halfWidth = Math.min(WIDEST, asked == null ? rate / 2 : asked / 1000);
        PlanPrecisionAnalysis precision =
                PlanPrecisionAnalysis.of(rate, halfWidth, null, query.scope().confidence());
        PlanDetectableChangeAnalysis change =
                PlanDetectableChangeAnalysis.of(Math.round(perYear), rate, ONE_SIDED, query.power());
        Long needed = precision.nWilson();
        return new Plan(
                level,
                events,
                uses,
                perYear,
                rate,
                halfWidth,
                needed,
                needed == null ? null : needed / perYear,
                change.detectableRatio(),
                change.decreaseDetectableProportion(),
                sentence(level, rate, perYear, halfWidth, needed, change, query));
    }

    private static String sentence(
            Levels level,
            double rate,
            double perYear,
            double halfWidth,
            @Nullable Long needed,
            PlanDetectableChangeAnalysis change,
            PlanningQuery query) {
        String name = level.isEmpty() ? "" : level.codes() + ": ";
        Double ratio = change.detectableRatio();
        Double fall = change.decreaseDetectableProportion();
        return name
                + "With %s a year ".formatted(Words.uses(Math.round(perYear)))
                + (ratio == null
                        ? "no rise from %s per 1,000 would be noticed within a year"
                                .formatted(NumberText.perThousand(rate))
                        : "only a rise to %s times the rate of %s per 1,000 would be noticed within a year (power %s %%)"
                                .formatted(
                                        NumberText.ratio(ratio),
                                        NumberText.perThousand(rate),
                                        NumberText.level(query.power())))
                + (fall == null
                        ? "; no fall would be."
                        : "; a fall would be from %s per 1,000 down.".formatted(NumberText.perThousand(fall)))
                + " Smaller changes stay unseen."
                + (needed == null
                        ? ""
                        : " An interval of ± %s per 1,000 takes %s, about %s years."
                                .formatted(
                                        NumberText.perThousand(halfWidth),
                                        Words.uses(needed),
                                        NumberText.oneDecimal(needed / perYear)));
    }

    @Override
    public Answer answer() {
        return heading.answer(
                groups.size() == 1 ? groups.get(0).sentence() : "For each of " + groups.size() + " groups, below.",
                List.of(columns().exhibit("What a year of data would show", "", null, groups)),
                notes);
    }

    @Override
    public Table table() {
        return columns().table(heading, notes, groups);
    }

    private Columns<Plan> columns() {
        return new Columns<Plan>()
                .levels(heading.by(), Plan::level)
                .column("events", "Entrapments", COUNT, Plan::events)
                .column("uses", "Uses", COUNT, Plan::uses)
                .column("usesPerYear", "Uses a year", COUNT, Plan::usesPerYear)
                .column("estimate", "Rate now", PER_THOUSAND, Plan::estimate)
                .shown("Rise noticed in a year, times", RATIO, Plan::detectableRatio)
                .shown("Fall noticed in a year, to", PER_THOUSAND, Plan::detectableDecrease)
                .onPage("halfWidth", "Half-width", PER_THOUSAND, Plan::halfWidth)
                .onPage("usesForHalfWidth", "Uses for it", COUNT, Plan::usesForHalfWidth)
                .onPage("yearsForHalfWidth", "Years for it", NUMBER, Plan::yearsForHalfWidth)
                .csv("detectableRatio", Plan::detectableRatio)
                .csv("detectableDecrease", Plan::detectableDecrease)
                .perThousand("perThousand", Plan::estimate)
                .csv("sentence", Plan::sentence);
    }
}
