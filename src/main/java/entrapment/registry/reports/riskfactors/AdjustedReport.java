package entrapment.registry.reports.riskfactors;

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
import entrapment.registry.stats.DesignMatrix;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.LogisticFirthAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.Separation;
import entrapment.registry.stats.Term;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import java.util.ArrayList;
import java.util.List;
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
        List<Note> notes)
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

    private static final Note.Wording NO_CENTRE = Note.Wording.of(
            "no-centre",
            "Centre is not in this model: too many centres, or too few events in some. Ask"
                    + " model=stratified&stratifyBy=centre for a comparison within centres.");
    private static final Note.Wording NO_MODEL =
            Note.Wording.of("no-model", "Fewer than two levels in use of every factor, so there is no model.");
    private static final Note.Wording PATTERNS_LEFT_OUT = Note.Wording.of(
            "patterns-left-out",
            "%s patterns were left out, because their entrapments outnumber their uses: cases and returns may"
                    + " be coded differently.");
    private static final Note.Wording UNKNOWN_LEFT_OUT =
            Note.Wording.of("unknown-left-out", "Left out for unknown values: %s in %s%s.");
    private static final Note.Wording NOT_IN_THE_MODEL =
            Note.Wording.of("not-in-the-model", "fewer than two levels in use, so it is not in the model.");

    static AdjustedReport of(RiskFactorsQuery query, DataCut cut, Counting counting) {
        Confidence confidence = query.scope().confidence();
        List<Note> notes = new ArrayList<>();
        List<Counting.Group> kept = new ArrayList<>();
        Dropped dropped = sort(counting, kept, notes);
        List<Factor> factors = query.factors();
        ModelData data = new ModelData(factors, kept);
        List<ModelData.Levels> inModel = new ArrayList<>();
        for (int place = 0; place < factors.size(); place++) {
            ModelData.Levels levels = data.levels(place);
            if (levels.inUse() < 2) {
                notes.add(Note.about(LevelCounts.about(factors.get(place)), NOT_IN_THE_MODEL));
            } else {
                inModel.add(levels);
            }
        }
        List<Term> terms =
                new ArrayList<>(inModel.stream().map(ModelData.Levels::term).toList());
        boolean centreColumns = data.carriesCentres();
        if (centreColumns) {
            terms.add(data.levels(factors.size()).term());
        } else {
            notes.add(Note.of(NO_CENTRE));
        }
        notes.addAll(CommonNote.exclusions(counting));
        LogisticFirthAnalysis analysis = terms.isEmpty() || kept.isEmpty()
                ? null
                : LogisticFirthAnalysis.of(DesignMatrix.of(terms, data.patterns()), confidence);
        if (analysis == null) {
            notes.add(Note.of(NO_MODEL));
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
                analysis == null ? List.of() : odds(data, inModel, analysis, confidence),
                analysis == null ? new LogisticFirthAnalysis.Overall(null, 0, null) : analysis.overallPlr(),
                dropped,
                counting.excluded(),
                List.copyOf(notes));
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
            notes.add(Note.of(PATTERNS_LEFT_OUT, contradictory));
        }
        Double estimate = events > uses ? null : new Proportion(events, uses).estimate();
        if (events + uses > 0) {
            notes.add(Note.of(
                    UNKNOWN_LEFT_OUT,
                    Words.entrapments(events),
                    Words.uses(uses),
                    estimate == null ? "" : ", " + NumberText.perThousand(estimate) + " per 1,000"));
        }
        return new Dropped(events, uses, estimate);
    }

    private static List<Odds> odds(
            ModelData data, List<ModelData.Levels> inModel, LogisticFirthAnalysis analysis, Confidence confidence) {
        List<Odds> odds = new ArrayList<>();
        for (ModelData.Levels levels : inModel) {
            Factor factor = data.factors().get(levels.place());
            levels.uses().forEach((level, uses) -> {
                if (uses > 0 && !level.equals(levels.reference())) {
                    odds.add(odds(
                            factor, level, levels.reference(), data.at(levels.place(), level), analysis, confidence));
                }
            });
        }
        return List.copyOf(odds);
    }

    private static Odds odds(
            Factor factor,
            Level level,
            Level reference,
            Proportion own,
            LogisticFirthAnalysis analysis,
            Confidence confidence) {
        LogisticFirthAnalysis.Coefficient fitted =
                analysis.coefficients().get(factor.code() + "[" + level.code() + "]");
        Interval limits = fitted == null ? Interval.NOT_ESTIMABLE : fitted.profileOddsRatio();
        Double ratio = fitted == null ? null : fitted.oddsRatio();
        Double pValue = fitted == null ? null : fitted.plrPValue();
        return new Odds(
                factor,
                level,
                reference,
                own.events(),
                own.of(),
                ratio,
                limits.lower(),
                limits.upper(),
                pValue,
                sentence(
                        "%s %s against %s".formatted(factor.code(), level.code(), reference.code()),
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
                        RiskFactorsReport.<Odds>levels(),
                        RiskFactorsReport.ratio(),
                        new Columns<Odds>().csv("sentence", Odds::sentence))
                .table(heading, notes, groups);
    }
}
