package entrapment.registry.reports;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.ChiSquaredTest;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.ExactOddsRatio;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.StratifiedOddsRatioAnalysis;
import entrapment.registry.stats.Stratum;
import entrapment.registry.vocabulary.Factor;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * What raises the odds, compared within strata alone? Mantel–Haenszel odds ratios of each level of a factor against the
 * level with most uses, with the exact conditional analysis beside it.
 *
 * @param stratifyBy what divides the strata; their names are not given, for they may be other centres
 */
@JsonPropertyOrder({"heading", "model", "stratifyBy", "groups", "excluded", "notes", "cautions"})
public record StratifiedRiskFactorsReport(
        @JsonUnwrapped ReportHeading heading,
        String model,
        List<String> stratifyBy,
        List<Odds> groups,
        Counting.Excluded excluded,
        List<String> notes,
        List<String> cautions)
        implements Report {

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
            String factor,
            String level,
            String reference,
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
        public String referenceCounts() {
            return Words.of(referenceEvents, referenceUses);
        }
    }

    private static final double TELLING_APART = 0.10;

    static StratifiedRiskFactorsReport of(RiskFactorsQuery query, DataCut cut, Map<Factor, Counting> countings) {
        Confidence confidence = query.scope().confidence();
        List<Odds> groups = new ArrayList<>();
        TreeSet<String> exclusions = new TreeSet<>();
        List<String> notes = new ArrayList<>();
        Counting.Excluded excluded = new Counting.Excluded(0, 0, 0);
        for (Map.Entry<Factor, Counting> entry : countings.entrySet()) {
            Counting counting = entry.getValue();
            excluded = counting.excluded();
            exclusions.addAll(Words.exclusions(counting));
            groups.addAll(odds(entry.getKey(), counting, confidence, notes));
        }
        notes.addAll(exclusions);
        return new StratifiedRiskFactorsReport(
                new ReportHeading(
                        "risk-factors",
                        "What raises the odds, compared within strata?",
                        cut,
                        query.scope().filters(),
                        query.factors().stream().map(Factor::code).toList(),
                        confidence.level(),
                        Calculation.STRATIFIED_ODDS_RATIO.method()),
                "stratified",
                query.stratifyBy().stream().map(GroupBy::code).toList(),
                List.copyOf(groups),
                excluded,
                List.copyOf(notes),
                ReportHeading.CAUTIONS);
    }

    private static List<Odds> odds(Factor factor, Counting counting, Confidence confidence, List<String> notes) {
        Map<String, Map<List<String>, Proportion>> levels = byLevel(factor, counting, notes);
        if (levels.size() < 2) {
            notes.add(factor.code() + ": fewer than two levels in use, so there is nothing to compare.");
            return List.of();
        }
        String reference = levels.entrySet().stream()
                .max(Map.Entry.comparingByValue(
                        (one, other) -> Long.compare(sum(one).of(), sum(other).of())))
                .orElseThrow()
                .getKey();
        Map<List<String>, Proportion> base = levels.getOrDefault(reference, Map.of());
        List<Odds> odds = new ArrayList<>();
        levels.forEach((level, strata) -> {
            if (!level.equals(reference)) {
                odds.add(odds(factor.code(), level, strata, reference, base, confidence, notes));
            }
        });
        return odds;
    }

    /** Events of uses by level of the factor, then by stratum; what cannot be compared is told in the notes. */
    private static Map<String, Map<List<String>, Proportion>> byLevel(
            Factor factor, Counting counting, List<String> notes) {
        Map<String, Map<List<String>, Proportion>> levels = new LinkedHashMap<>();
        long unknownEvents = 0;
        long unknownUses = 0;
        for (Counting.Group group : counting.groups()) {
            String level = group.levels().get(0);
            if (level.equals(Factor.UNKNOWN)) {
                unknownEvents += group.events();
                unknownUses += group.uses();
            } else if (group.events() > group.uses()) {
                notes.add("%s %s: a stratum was left out, because %s in %s contradict each other."
                        .formatted(factor.code(), level, Words.entrapments(group.events()), Words.uses(group.uses())));
            } else {
                levels.computeIfAbsent(level, key -> new LinkedHashMap<>())
                        .put(
                                group.levels().subList(1, group.levels().size()),
                                new Proportion(group.events(), group.uses()));
            }
        }
        if (unknownEvents + unknownUses > 0) {
            notes.add("%s: left out as unknown, %s in %s."
                    .formatted(factor.code(), Words.entrapments(unknownEvents), Words.uses(unknownUses)));
        }
        return levels;
    }

    private static Odds odds(
            String factor,
            String level,
            Map<List<String>, Proportion> exposed,
            String reference,
            Map<List<String>, Proportion> base,
            Confidence confidence,
            List<String> notes) {
        Proportion nobody = new Proportion(0, 0);
        List<Stratum> strata = new ArrayList<>();
        for (List<String> place : base.keySet()) {
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
            notes.add("%s %s: the ratio may differ between strata (Tarone p %s); read the strata, not the summary."
                    .formatted(factor, level, NumberText.pValue(tarone)));
        }
        return new Odds(
                factor,
                level,
                reference,
                sum(exposed).events(),
                sum(exposed).of(),
                sum(base).events(),
                sum(base).of(),
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
                sentence(factor + " " + level, ratio, shown, exact, analysis, strata.size(), confidence));
    }

    private static Proportion sum(Map<List<String>, Proportion> strata) {
        return new Proportion(
                strata.values().stream().mapToLong(Proportion::events).sum(),
                strata.values().stream().mapToLong(Proportion::of).sum());
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
    public Answer answer() {
        return RiskFactorsAnswer.of(heading, groups, notes);
    }

    @Override
    public Table table() {
        List<String> columns = List.of(
                "factor",
                "level",
                "reference",
                "events",
                "uses",
                "referenceEvents",
                "referenceUses",
                "informativeStrata",
                "droppedStrata",
                "oddsRatio",
                "lower",
                "upper",
                "pValue",
                "shown",
                "mantelHaenszel",
                "exactMidPLower",
                "exactMidPUpper",
                "taronePValue",
                "sentence");
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (Odds odds : groups) {
            List<@Nullable Object> row = new ArrayList<>(List.of(
                    odds.factor(),
                    odds.level(),
                    odds.reference(),
                    odds.events(),
                    odds.uses(),
                    odds.referenceEvents(),
                    odds.referenceUses(),
                    odds.informativeStrata(),
                    odds.droppedStrata()));
            row.add(odds.oddsRatio());
            row.add(odds.lower());
            row.add(odds.upper());
            row.add(odds.pValue());
            row.add(odds.shown());
            row.add(odds.mantelHaenszel());
            row.add(odds.exact().midP().lower());
            row.add(odds.exact().midP().upper());
            row.add(odds.tarone().pValue());
            row.add(odds.sentence());
            rows.add(row);
        }
        return new Table(heading.comments(notes), columns, rows);
    }
}
