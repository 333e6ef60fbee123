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
import entrapment.registry.reports.riskfactors.RiskFactorsQuery.Model;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Group;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.OddsRatioLevelsAnalysis;
import entrapment.registry.stats.OverallTest;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.TwoByTwo;
import entrapment.registry.stats.Woolf;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What raises the odds? Crude odds ratios: each level of a factor against the level with most uses.
 *
 * @param overall for each factor one test of all its levels together
 * @param excluded what was left out because cases and returns contradict each other
 */
public record CrudeReport(
        @JsonUnwrapped ReportHeading heading,
        Model model,
        List<Odds> groups,
        List<Overall> overall,
        Counting.Excluded excluded,
        List<Note> notes)
        implements RiskFactorsReport {

    /**
     * One level against the reference level.
     *
     * @param estimable whether all four margins of the table are positive; otherwise the estimates are null
     * @param oddsRatio the sample odds ratio, with its mid-P interval and p-value
     * @param woolf the logarithmic normal interval, for checking by hand; ½ added only where a cell is 0
     * @param haldaneAnscombe the same with ½ added to every cell always
     * @param fisherPValue Fisher's exact test, two-sided by probability
     */
    public record Odds(
            Factor factor,
            Level level,
            Level reference,
            long events,
            long uses,
            long referenceEvents,
            long referenceUses,
            boolean estimable,
            @Nullable Double oddsRatio,
            @Nullable Double lower,
            @Nullable Double upper,
            Double pValue,
            Woolf woolf,
            Woolf haldaneAnscombe,
            double fisherPValue,
            String sentence)
            implements ComparedLevel {

        @Override
        public Proportion referenceCounts() {
            return new Proportion(referenceEvents, referenceUses);
        }
    }

    /** One test of all levels of a factor; the p-values of single levels come second to it. */
    record Overall(Factor factor, OverallTest test) {}

    private static final Note.Wording CRUDE =
            Note.Wording.of("crude", "Crude figures: other factors may explain a difference.");

    static CrudeReport of(RiskFactorsQuery query, DataCut cut, List<Counting> countings) {
        Confidence confidence = query.scope().confidence();
        List<Odds> groups = new ArrayList<>();
        List<Overall> overall = new ArrayList<>();
        List<Note> notes = new ArrayList<>();
        notes.add(Note.of(CRUDE));
        Set<Note> exclusions = new LinkedHashSet<>();
        Counting.Excluded excluded = new Counting.Excluded(0, 0, 0);
        for (int index = 0; index < countings.size(); index++) {
            Factor factor = query.factors().get(index);
            Counting counting = countings.get(index);
            excluded = counting.excluded();
            exclusions.addAll(CommonNote.exclusions(counting));
            LevelCounts counts = LevelCounts.of(factor, counting, CommonNote.CONTRADICTION, notes);
            if (!counts.canBeCompared()) {
                continue;
            }
            List<Level> levels = List.copyOf(counts.levels().keySet());
            OddsRatioLevelsAnalysis analysis = OddsRatioLevelsAnalysis.of(
                    levels.stream()
                            .map(level -> new Group(level.code(), counts.total(level)))
                            .toList(),
                    null,
                    confidence);
            Level reference = named(levels, analysis.reference());
            analysis.levels()
                    .forEach(level ->
                            groups.add(odds(counts, named(levels, level.name()), reference, level, confidence)));
            overall.add(new Overall(factor, analysis.overall()));
            analysis.notes().forEach(note -> notes.add(Note.of(LevelCounts.about(factor), note)));
        }
        notes.addAll(exclusions);
        return new CrudeReport(
                ReportHeading.of(
                        "risk-factors",
                        "What raises the odds?",
                        cut,
                        query.scope(),
                        query.factors().stream().map(Factor::code).toList(),
                        Calculation.ODDS_RATIO_LEVELS.method()),
                query.model(),
                List.copyOf(groups),
                List.copyOf(overall),
                excluded,
                List.copyOf(notes));
    }

    /** The kernel names levels by their codes. */
    private static Level named(List<Level> levels, String code) {
        return levels.stream()
                .filter(level -> level.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    private static Odds odds(
            LevelCounts counts,
            Level own,
            Level reference,
            OddsRatioLevelsAnalysis.Level level,
            Confidence confidence) {
        Proportion exposed = counts.total(own);
        Proportion base = counts.total(reference);
        return new Odds(
                counts.factor(),
                own,
                reference,
                exposed.events(),
                exposed.of(),
                base.events(),
                base.of(),
                level.estimable(),
                level.oddsRatio(),
                level.estimable() ? level.midP().lower() : null,
                level.estimable() ? level.midP().upper() : null,
                level.midPValue(),
                level.woolf(),
                TwoByTwo.of(exposed, base).haldaneAnscombe(confidence),
                level.fisherPValue(),
                sentence(
                        counts.factor().code() + " " + own.code(),
                        exposed,
                        counts.factor().code(),
                        reference,
                        base,
                        level,
                        confidence));
    }

    private static String sentence(
            String name,
            Proportion exposed,
            String factor,
            Level reference,
            Proportion referenceCounts,
            OddsRatioLevelsAnalysis.Level level,
            Confidence confidence) {
        String base = factor + " " + reference.code();
        String counts = "%d of %s against %d of %s with %s"
                .formatted(
                        exposed.events(),
                        NumberText.count(exposed.of()),
                        referenceCounts.events(),
                        NumberText.count(referenceCounts.of()),
                        reference.code());
        Interval midP = level.midP();
        Double ratio = level.oddsRatio();
        Double lower = midP.lower();
        Double upper = midP.upper();
        if (!level.estimable() || ratio == null || lower == null || upper == null) {
            return name + ": no odds ratio can be given; " + counts + ".";
        }
        if (ratio == 0) {
            return "%s, so no lower limit can be given; the data fit odds ratios of %s and below (%s)."
                    .formatted(
                            exposed.events() == 0
                                    ? "No entrapment with " + name
                                    : "Nothing but entrapments with " + base,
                            NumberText.ratio(upper),
                            counts);
        }
        if (ratio.isInfinite()) {
            return "%s, so no upper limit can be given; the data fit odds ratios of %s and above (%s)."
                    .formatted(
                            referenceCounts.events() == 0
                                    ? "No entrapment with " + base
                                    : "Nothing but entrapments with " + name,
                            NumberText.ratio(lower),
                            counts);
        }
        return ("Odds of entrapment were %s times as high with %s (%s %% CI %s to %s; mid-P p %s); %s;"
                        + " an association in recorded cases, not proof of cause.")
                .formatted(
                        NumberText.ratio(ratio),
                        name,
                        NumberText.level(confidence.level()),
                        NumberText.ratio(lower),
                        NumberText.ratio(upper),
                        NumberText.pValue(level.midPValue()),
                        counts);
    }

    @Override
    public Table table() {
        return Columns.of(
                        RiskFactorsReport.<Odds>levels(),
                        new Columns<Odds>()
                                .csv("referenceEvents", Odds::referenceEvents)
                                .csv("referenceUses", Odds::referenceUses),
                        RiskFactorsReport.ratio(),
                        new Columns<Odds>()
                                .csv("woolfOddsRatio", odds -> odds.woolf().oddsRatio())
                                .csv("woolfLower", odds -> odds.woolf().lower())
                                .csv("woolfUpper", odds -> odds.woolf().upper())
                                .csv("woolfHaldaneAnscombeApplied", odds -> odds.woolf()
                                        .haldaneAnscombeApplied())
                                .csv("fisherPValue", Odds::fisherPValue)
                                .perThousand(
                                        "perThousand", odds -> new Proportion(odds.events(), odds.uses()).estimate())
                                .perThousand("referencePerThousand", odds -> odds.referenceCounts()
                                        .estimate())
                                .csv("sentence", Odds::sentence))
                .table(heading, notes, groups);
    }
}
