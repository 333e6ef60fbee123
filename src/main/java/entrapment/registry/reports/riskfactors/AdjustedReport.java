package entrapment.registry.reports.riskfactors;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.CommonNote;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.Words;
import entrapment.registry.reports.riskfactors.RiskFactorsQuery.Model;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.CovariatePattern;
import entrapment.registry.stats.DesignMatrix;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.LogisticFirthAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.Separation;
import entrapment.registry.stats.Term;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * What raises the odds, allowing for the other factors? One Firth-penalised logistic model of the complete uses, with
 * profile-likelihood limits and penalised likelihood-ratio tests.
 *
 * @param eventsPerParameter below 2 no model is fitted, below 5 it is exploratory
 * @param separation whether plain maximum likelihood would have had finite estimates; null without a model
 * @param dropped uses left out because a factor of theirs is unknown, with their own rate
 * @param centres how centre entered the model: {@code columns} or {@code not in the model}
 */
@JsonPropertyOrder({
    "heading",
    "model",
    "events",
    "uses",
    "eventsPerParameter",
    "separation",
    "centres",
    "groups",
    "overall",
    "dropped",
    "excluded",
    "notes",
    "cautions"
})
public record AdjustedReport(
        @JsonUnwrapped ReportHeading heading,
        Model model,
        long events,
        long uses,
        @Nullable Double eventsPerParameter,
        @Nullable String separation,
        String centres,
        List<Odds> groups,
        LogisticFirthAnalysis.Overall overall,
        Dropped dropped,
        Counting.Excluded excluded,
        List<Note> notes,
        List<String> cautions)
        implements RiskFactorsReport {

    /** One level of a factor against its reference, the other factors held equal; limits by profile likelihood. */
    record Odds(
            Factor factor,
            Level level,
            Level reference,
            long events,
            long uses,
            @Nullable Double oddsRatio,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double pValue,
            String sentence)
            implements ComparedLevel {}

    /** What was left out for unknown values; the estimate is its rate, to be held against that of what was kept. */
    record Dropped(long events, long uses, @Nullable Double estimate) {}

    /** With few centres that each have events, centre is held equal by columns of its own (statistics, 6.5). */
    private static final int MOST_CENTRE_COLUMNS = 5;

    private static final long EVENTS_FOR_A_CENTRE_COLUMN = 5;

    private enum Wording implements Note.Wording {
        NO_CENTRE("Centre is not in this model: too many centres, or too few events in some. Ask"
                + " model=stratified&stratifyBy=centre for a comparison within centres."),
        NO_MODEL("Fewer than two levels in use of every factor, so there is no model."),
        PATTERNS_LEFT_OUT(
                "%s patterns were left out, because their entrapments outnumber their uses: cases and returns may"
                        + " be coded differently."),
        UNKNOWN_LEFT_OUT("Left out for unknown values: %s in %s%s."),
        NOT_IN_THE_MODEL("fewer than two levels in use, so it is not in the model.");

        private final String template;

        Wording(String template) {
            this.template = template;
        }

        @Override
        public String template() {
            return template;
        }
    }

    static AdjustedReport of(RiskFactorsQuery query, DataCut cut, Counting counting) {
        Confidence confidence = query.scope().confidence();
        List<Note> notes = new ArrayList<>();
        List<Counting.Group> kept = new ArrayList<>();
        Dropped dropped = sort(counting, kept, notes);
        List<Factor> factors = query.factors();
        List<LevelsOfFactor> inModel = new ArrayList<>();
        for (int index = 0; index < factors.size(); index++) {
            LevelsOfFactor levels = new LevelsOfFactor(factors.get(index), index, uses(index, kept));
            if (levels.inUse() < 2) {
                notes.add(Note.about(LevelCounts.about(factors.get(index)), Wording.NOT_IN_THE_MODEL));
            } else {
                inModel.add(levels);
            }
        }
        List<Term> terms = new ArrayList<>();
        inModel.forEach(levels -> terms.add(levels.term()));
        boolean centreColumns = centreColumns(kept, factors.size());
        if (centreColumns) {
            terms.add(term(CENTRE, uses(factors.size(), kept)));
        } else {
            notes.add(Note.of(Wording.NO_CENTRE));
        }
        notes.addAll(CommonNote.exclusions(counting));
        LogisticFirthAnalysis analysis = terms.isEmpty() || kept.isEmpty()
                ? null
                : LogisticFirthAnalysis.of(DesignMatrix.of(terms, patterns(kept, factors)), confidence);
        if (analysis == null) {
            notes.add(Note.of(Wording.NO_MODEL));
        } else {
            analysis.notes().forEach(note -> notes.add(Note.of(null, note)));
        }
        Separation separation = analysis == null ? null : analysis.separationOfMl();
        return new AdjustedReport(
                ReportHeading.of(
                        "risk-factors",
                        "What raises the odds, allowing for the other factors?",
                        cut,
                        query.scope(),
                        factors.stream().map(Factor::code).toList(),
                        Calculation.LOGISTIC_FIRTH.method()),
                query.model(),
                kept.stream().mapToLong(Counting.Group::events).sum(),
                kept.stream().mapToLong(Counting.Group::uses).sum(),
                analysis == null ? null : analysis.eventsPerParameter(),
                separation == null ? null : separation.toString(),
                centreColumns ? "columns" : "not in the model",
                analysis == null ? List.of() : odds(inModel, kept, analysis, confidence),
                analysis == null ? new LogisticFirthAnalysis.Overall(null, 0, null) : analysis.overallPlr(),
                dropped,
                counting.excluded(),
                List.copyOf(notes),
                ReportHeading.CAUTIONS);
    }

    /** Parts what can be modelled from what is unknown or contradicts itself. */
    private static Dropped sort(Counting counting, List<Counting.Group> kept, List<Note> notes) {
        long events = 0;
        long uses = 0;
        long contradictory = 0;
        for (Counting.Group group : counting.groups()) {
            if (group.levels().stream().anyMatch(Level::isUnknown)) {
                events += group.events();
                uses += group.uses();
            } else if (group.contradicts()) {
                contradictory++;
            } else {
                kept.add(group);
            }
        }
        if (contradictory > 0) {
            notes.add(Note.of(Wording.PATTERNS_LEFT_OUT, contradictory));
        }
        Double estimate = events > uses ? null : new Proportion(events, uses).estimate();
        if (events + uses > 0) {
            notes.add(Note.of(
                    Wording.UNKNOWN_LEFT_OUT,
                    Words.entrapments(events),
                    Words.uses(uses),
                    estimate == null ? "" : ", " + NumberText.perThousand(estimate) + " per 1,000"));
        }
        return new Dropped(events, uses, estimate);
    }

    private static final String CENTRE = "centre";

    /**
     * A factor of the model.
     *
     * @param place among the levels of a group
     * @param uses of each level, in the order of the groups
     */
    private record LevelsOfFactor(Factor factor, int place, Map<Level, Long> uses) {

        long inUse() {
            return uses.values().stream().filter(count -> count > 0).count();
        }

        Level reference() {
            return mostUsed(uses);
        }

        Term term() {
            return AdjustedReport.term(factor.code(), uses);
        }
    }

    private static Map<Level, Long> uses(int place, List<Counting.Group> kept) {
        Map<Level, Long> uses = new LinkedHashMap<>();
        kept.forEach(group -> uses.merge(group.levels().get(place), group.uses(), Long::sum));
        return uses;
    }

    private static Level mostUsed(Map<Level, Long> uses) {
        return uses.entrySet().stream()
                .filter(level -> level.getValue() > 0)
                .max(Map.Entry.comparingByValue())
                .orElseThrow()
                .getKey();
    }

    private static Term term(String name, Map<Level, Long> uses) {
        return new Term.Factor(
                name,
                uses.entrySet().stream()
                        .filter(level -> level.getValue() > 0)
                        .map(level -> level.getKey().code())
                        .toList(),
                mostUsed(uses).code());
    }

    private static boolean centreColumns(List<Counting.Group> kept, int place) {
        Map<Level, Long> events = new TreeMap<>();
        kept.forEach(group -> events.merge(group.levels().get(place), group.events(), Long::sum));
        return events.size() > 1
                && events.size() <= MOST_CENTRE_COLUMNS
                && events.values().stream().allMatch(count -> count >= EVENTS_FOR_A_CENTRE_COLUMN);
    }

    private static List<CovariatePattern> patterns(List<Counting.Group> kept, List<Factor> factors) {
        return kept.stream()
                .map(group -> {
                    Map<String, String> levels = new LinkedHashMap<>();
                    for (int index = 0; index < factors.size(); index++) {
                        levels.put(
                                factors.get(index).code(),
                                group.levels().get(index).code());
                    }
                    levels.put(CENTRE, group.levels().get(factors.size()).code());
                    return new CovariatePattern(levels, Map.of(), new Proportion(group.events(), group.uses()));
                })
                .toList();
    }

    private static List<Odds> odds(
            List<LevelsOfFactor> factors,
            List<Counting.Group> kept,
            LogisticFirthAnalysis analysis,
            Confidence confidence) {
        List<Odds> odds = new ArrayList<>();
        for (LevelsOfFactor factor : factors) {
            factor.uses().forEach((level, uses) -> {
                if (uses > 0 && !level.equals(factor.reference())) {
                    odds.add(odds(factor, level, kept, analysis, confidence));
                }
            });
        }
        return List.copyOf(odds);
    }

    private static Odds odds(
            LevelsOfFactor factor,
            Level level,
            List<Counting.Group> kept,
            LogisticFirthAnalysis analysis,
            Confidence confidence) {
        List<Counting.Group> own = kept.stream()
                .filter(group -> group.levels().get(factor.place()).equals(level))
                .toList();
        LogisticFirthAnalysis.Coefficient fitted =
                analysis.coefficients().get(factor.factor().code() + "[" + level.code() + "]");
        Interval limits = fitted == null ? Interval.NOT_ESTIMABLE : fitted.profileOddsRatio();
        Double ratio = fitted == null ? null : fitted.oddsRatio();
        Double pValue = fitted == null ? null : fitted.plrPValue();
        return new Odds(
                factor.factor(),
                level,
                factor.reference(),
                own.stream().mapToLong(Counting.Group::events).sum(),
                own.stream().mapToLong(Counting.Group::uses).sum(),
                ratio,
                limits.lower(),
                limits.upper(),
                pValue,
                sentence(
                        "%s %s against %s"
                                .formatted(
                                        factor.factor().code(),
                                        level.code(),
                                        factor.reference().code()),
                        ratio,
                        limits,
                        pValue,
                        analysis,
                        confidence));
    }

    private static String sentence(
            String name,
            @Nullable Double ratio,
            Interval limits,
            @Nullable Double pValue,
            LogisticFirthAnalysis analysis,
            Confidence confidence) {
        Double lower = limits.lower();
        Double upper = limits.upper();
        if (ratio == null || lower == null || upper == null) {
            return name + ": no adjusted odds ratio can be given; see the notes.";
        }
        return "Adjusted odds ratio %s for %s (%s %% CI %s to %s, Firth; p %s), from %s."
                .formatted(
                        NumberText.ratio(ratio),
                        name,
                        NumberText.level(confidence.level()),
                        NumberText.ratio(lower),
                        NumberText.ratio(upper),
                        pValue == null ? "not found" : NumberText.pValue(pValue),
                        Words.entrapments(analysis.events()));
    }

    @Override
    public Table table() {
        return Columns.of(
                        RiskFactorsAnswer.<Odds>levels(),
                        RiskFactorsAnswer.ratio(),
                        new Columns<Odds>().csv("sentence", Odds::sentence))
                .table(heading, notes, groups);
    }
}
