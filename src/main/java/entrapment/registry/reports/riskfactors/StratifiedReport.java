package entrapment.registry.reports.riskfactors;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.CommonNote;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.riskfactors.RiskFactorsQuery.Model;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.ChiSquaredTest;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.ExactOddsRatio;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.StratifiedOddsRatioAnalysis;
import entrapment.registry.stats.Stratum;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * What raises the odds, compared within strata alone? Mantel–Haenszel odds ratios of each level of a factor against the
 * level with most uses, with the exact conditional analysis beside it.
 *
 * @param stratifyBy what divides the strata; their names are not given, for they may be other centres
 */
public record StratifiedReport(
        @JsonUnwrapped ReportHeading heading,
        Model model,
        List<GroupBy> stratifyBy,
        List<Odds> groups,
        Counting.Excluded excluded,
        List<Note> notes)
        implements RiskFactorsReport {

    /**
     * One level against the reference level, within strata.
     *
     * @param informativeStrata strata with four positive margins; all figures rest on them
     * @param droppedStrata strata that say nothing about this comparison
     * @param oddsRatio the figure to show: {@code shown} says which it is
     * @param shown {@code mantel-haenszel}, or {@code exact-mid-p} where an exposure group has fewer than five events
     * @param mantelHaenszel the Mantel–Haenszel odds ratio, whichever is shown
     * @param rbg its interval by Robins, Breslow and Greenland
     * @param exact the exact conditional analysis of all strata together
     * @param tarone test of one common ratio; below 0.10 read the strata, not the summary
     */
    record Odds(
            Factor factor,
            Level level,
            Level reference,
            long events,
            long uses,
            long referenceEvents,
            long referenceUses,
            int informativeStrata,
            int droppedStrata,
            @Nullable Double oddsRatio,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double pValue,
            String shown,
            @Nullable Double mantelHaenszel,
            Interval rbg,
            ExactOddsRatio exact,
            ChiSquaredTest tarone,
            String sentence)
            implements ComparedLevel {

        @Override
        public Proportion referenceCounts() {
            return new Proportion(referenceEvents, referenceUses);
        }
    }

    private static final double TELLING_APART = 0.10;

    private static final Note.Wording STRATUM_LEFT_OUT =
            Note.Wording.of("stratum-left-out", "a stratum was left out, because %s in %s contradict each other.");
    private static final Note.Wording MAY_DIFFER = Note.Wording.of(
            "may-differ", "the ratio may differ between strata (Tarone p %s); read the strata, not the summary.");

    static StratifiedReport of(RiskFactorsQuery query, DataCut cut, List<Counting> countings) {
        Confidence confidence = query.scope().confidence();
        List<Odds> groups = new ArrayList<>();
        Map<String, Note> exclusions = new TreeMap<>();
        List<Note> notes = new ArrayList<>();
        Counting.Excluded excluded = new Counting.Excluded(0, 0, 0);
        for (int index = 0; index < countings.size(); index++) {
            Counting counting = countings.get(index);
            excluded = counting.excluded();
            CommonNote.exclusions(counting).forEach(note -> exclusions.put(note.forPrograms(), note));
            LevelCounts counts = LevelCounts.of(query.factors().get(index), counting, STRATUM_LEFT_OUT, notes);
            if (counts.canBeCompared()) {
                Level reference = counts.mostUsed();
                counts.levels().keySet().stream()
                        .filter(level -> !level.equals(reference))
                        .forEach(level -> groups.add(odds(counts, level, reference, confidence, notes)));
            }
        }
        notes.addAll(exclusions.values());
        return new StratifiedReport(
                ReportHeading.of(
                        "risk-factors",
                        "What raises the odds, compared within strata?",
                        cut,
                        query.scope(),
                        query.factors().stream().map(Factor::code).toList(),
                        Calculation.STRATIFIED_ODDS_RATIO.method()),
                query.model(),
                query.stratifyBy(),
                List.copyOf(groups),
                excluded,
                List.copyOf(notes));
    }

    private static Odds odds(
            LevelCounts counts, Level level, Level reference, Confidence confidence, List<Note> notes) {
        Map<List<Level>, Proportion> exposed = counts.strata(level);
        Map<List<Level>, Proportion> base = counts.strata(reference);
        Proportion nobody = new Proportion(0, 0);
        List<Stratum> strata = new ArrayList<>();
        for (List<Level> place : base.keySet()) {
            strata.add(new Stratum(
                    "stratum " + (strata.size() + 1),
                    exposed.getOrDefault(place, nobody),
                    base.getOrDefault(place, nobody)));
        }
        StratifiedOddsRatioAnalysis analysis = StratifiedOddsRatioAnalysis.of(strata, confidence);
        ExactOddsRatio exact = analysis.exact();
        boolean exactFirst = analysis.exactFirst();
        Interval shown = exactFirst ? exact.midP() : analysis.rbg();
        Double pValue =
                exactFirst ? Double.valueOf(exact.midPValue()) : analysis.cmh().pValue();
        Double ratio = exactFirst ? exact.conditionalMle() : analysis.oddsRatio();
        Double tarone = analysis.tarone().pValue();
        if (tarone != null && tarone < TELLING_APART) {
            notes.add(Note.about(Note.Subject.of(counts.factor(), level), MAY_DIFFER, NumberText.pValue(tarone)));
        }
        return new Odds(
                counts.factor(),
                level,
                reference,
                counts.total(level).events(),
                counts.total(level).of(),
                counts.total(reference).events(),
                counts.total(reference).of(),
                analysis.informativeStrata(),
                strata.size() - analysis.informativeStrata(),
                ratio,
                shown.lower(),
                shown.upper(),
                pValue,
                exactFirst ? "exact-mid-p" : "mantel-haenszel",
                analysis.oddsRatio(),
                analysis.rbg(),
                exact,
                analysis.tarone(),
                sentence(
                        counts.factor().code() + " " + level.code(),
                        ratio,
                        shown,
                        exact,
                        analysis,
                        strata.size(),
                        confidence));
    }

    private static String sentence(
            String name,
            @Nullable Double ratio,
            Interval shown,
            ExactOddsRatio exact,
            StratifiedOddsRatioAnalysis analysis,
            int strata,
            Confidence confidence) {
        int silent = strata - analysis.informativeStrata();
        String told = silent == 0
                ? "all %d strata had information".formatted(strata)
                : "%d of %d strata had no information".formatted(silent, strata);
        Double lower = shown.lower();
        Double upper = shown.upper();
        if (ratio == null || lower == null || upper == null) {
            return "%s: no odds ratio can be given within strata; %s.".formatted(name, told);
        }
        if (ratio == 0) {
            return "%s: no entrapment in a stratum that could tell; the data fit odds ratios of %s and below; %s."
                    .formatted(name, NumberText.ratio(upper), told);
        }
        if (ratio.isInfinite()) {
            return "%s: no entrapment in the reference of any stratum that could tell; the data fit odds ratios of %s and above; %s."
                    .formatted(name, NumberText.ratio(lower), told);
        }
        return "Within strata the odds were %s times as high with %s (%s %% CI %s to %s; exact mid-P %s to %s); %s."
                .formatted(
                        NumberText.ratio(ratio),
                        name,
                        NumberText.level(confidence.level()),
                        NumberText.ratio(lower),
                        NumberText.ratio(upper),
                        limit(exact.midP().lower()),
                        limit(exact.midP().upper()),
                        told);
    }

    private static String limit(@Nullable Double limit) {
        return limit == null ? "not estimable" : NumberText.ratio(limit);
    }

    @Override
    public Table table() {
        return Columns.of(
                        RiskFactorsReport.<Odds>levels(),
                        new Columns<Odds>()
                                .csv("referenceEvents", Odds::referenceEvents)
                                .csv("referenceUses", Odds::referenceUses)
                                .csv("informativeStrata", Odds::informativeStrata)
                                .csv("droppedStrata", Odds::droppedStrata),
                        RiskFactorsReport.ratio(),
                        new Columns<Odds>()
                                .csv("shown", Odds::shown)
                                .csv("mantelHaenszel", Odds::mantelHaenszel)
                                .csv(
                                        "exactMidPLower",
                                        odds -> odds.exact().midP().lower())
                                .csv(
                                        "exactMidPUpper",
                                        odds -> odds.exact().midP().upper())
                                .csv("taronePValue", odds -> odds.tarone().pValue())
                                .csv("sentence", Odds::sentence))
                .table(heading, notes, groups);
    }
}
