package entrapment.registry.reports;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
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
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What raises the odds? Crude odds ratios: each level of a factor against the level with most uses.
 *
 * @param overall for each factor one test of all its levels together
 * @param excluded what was left out because cases and returns contradict each other
 */
@JsonPropertyOrder({"heading", "model", "groups", "overall", "excluded", "notes", "cautions"})
public record RiskFactorsReport(
        @JsonUnwrapped ReportHeading heading,
        String model,
        List<Odds> groups,
        List<Overall> overall,
        Counting.Excluded excluded,
        List<String> notes,
        List<String> cautions)
        implements Report {

    /**
     * One level against the reference level.
     *
     * @param estimable whether all four margins of the table are positive; otherwise the estimates are null
     * @param oddsRatio the sample odds ratio, with its mid-P interval and p-value
     * @param woolf the logarithmic normal interval, for checking by hand; ½ added only where a cell is 0
     * @param haldaneAnscombe the same with ½ added to every cell always
     * @param fisherPValue Fisher's exact test, two-sided by probability
     */
    record Odds(
            String factor,
            String level,
            String reference,
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
        public String referenceCounts() {
            return Words.of(referenceEvents, referenceUses);
        }
    }

    /** One test of all levels of a factor; the p-values of single levels come second to it. */
    record Overall(String factor, OverallTest test) {}

    static RiskFactorsReport of(RiskFactorsQuery query, DataCut cut, Map<Factor, Counting> countings) {
        Confidence confidence = query.scope().confidence();
        List<Odds> groups = new ArrayList<>();
        List<Overall> overall = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        notes.add("Crude figures: other factors may explain a difference.");
        Map<String, Boolean> exclusions = new LinkedHashMap<>();
        Counting.Excluded excluded = new Counting.Excluded(0, 0, 0);
        for (Map.Entry<Factor, Counting> entry : countings.entrySet()) {
            String factor = entry.getKey().code();
            Counting counting = entry.getValue();
            excluded = counting.excluded();
            Words.exclusions(counting).forEach(note -> exclusions.put(note, true));
            List<Counting.Group> levels = usable(factor, counting, notes);
            if (levels.size() < 2) {
                notes.add(factor + ": fewer than two levels in use, so there is nothing to compare.");
                continue;
            }
            OddsRatioLevelsAnalysis analysis = OddsRatioLevelsAnalysis.of(
                    levels.stream()
                            .map(level ->
                                    new Group(level.levels().get(0), new Proportion(level.events(), level.uses())))
                            .toList(),
                    null,
                    confidence);
            Counting.Group reference = named(levels, analysis.reference());
            analysis.levels()
                    .forEach(level ->
                            groups.add(odds(factor, named(levels, level.name()), reference, level, confidence)));
            overall.add(new Overall(factor, analysis.overall()));
            analysis.notes().forEach(note -> notes.add(factor + ": " + note.withCode()));
        }
        notes.addAll(exclusions.keySet());
        return new RiskFactorsReport(
                new ReportHeading(
                        "risk-factors",
                        "What raises the odds?",
                        cut,
                        query.scope().filters(),
                        query.factors().stream().map(Factor::code).toList(),
                        confidence.level(),
                        Calculation.ODDS_RATIO_LEVELS.method()),
                "crude",
                List.copyOf(groups),
                List.copyOf(overall),
                excluded,
                List.copyOf(notes),
                ReportHeading.CAUTIONS);
    }

    /** The levels that can be compared; what is unknown, or contradicts itself, is told in the notes instead. */
    private static List<Counting.Group> usable(String factor, Counting counting, List<String> notes) {
        List<Counting.Group> usable = new ArrayList<>();
        for (Counting.Group group : counting.groups()) {
            String level = group.levels().get(0);
            if (level.equals(Factor.UNKNOWN)) {
                notes.add("%s: left out as unknown, %s in %s."
                        .formatted(factor, Words.entrapments(group.events()), Words.uses(group.uses())));
            } else if (group.events() > group.uses()) {
                notes.add("%s %s: left out, because %s in %s contradict each other."
                        .formatted(factor, level, Words.entrapments(group.events()), Words.uses(group.uses())));
            } else {
                usable.add(group);
            }
        }
        return usable;
    }

    private static Counting.Group named(List<Counting.Group> levels, String name) {
        return levels.stream()
                .filter(level -> level.levels().get(0).equals(name))
                .findFirst()
                .orElseThrow();
    }

    private static Odds odds(
            String factor,
            Counting.Group group,
            Counting.Group reference,
            OddsRatioLevelsAnalysis.Level level,
            Confidence confidence) {
        TwoByTwo table = TwoByTwo.of(
                new Proportion(group.events(), group.uses()), new Proportion(reference.events(), reference.uses()));
        return new Odds(
                factor,
                level.name(),
                reference.levels().get(0),
                group.events(),
                group.uses(),
                reference.events(),
                reference.uses(),
                level.estimable(),
                level.oddsRatio(),
                level.estimable() ? level.midP().lower() : null,
                level.estimable() ? level.midP().upper() : null,
                level.midPValue(),
                level.woolf(),
                table.haldaneAnscombe(confidence),
                level.fisherPValue(),
                sentence(factor, group, reference, level, confidence));
    }

    private static String sentence(
            String factor,
            Counting.Group group,
            Counting.Group reference,
            OddsRatioLevelsAnalysis.Level level,
            Confidence confidence) {
        String name = factor + " " + level.name();
        String base = factor + " " + reference.levels().get(0);
        String counts = "%d of %s against %d of %s with %s"
                .formatted(
                        group.events(),
                        NumberText.count(group.uses()),
                        reference.events(),
                        NumberText.count(reference.uses()),
                        reference.levels().get(0));
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
                            group.events() == 0 ? "No entrapment with " + name : "Nothing but entrapments with " + base,
                            NumberText.ratio(upper),
                            counts);
        }
        if (ratio.isInfinite()) {
            return "%s, so no upper limit can be given; the data fit odds ratios of %s and above (%s)."
                    .formatted(
                            reference.events() == 0
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
                "oddsRatio",
                "lower",
                "upper",
                "pValue",
                "woolfOddsRatio",
                "woolfLower",
                "woolfUpper",
                "woolfHaldaneAnscombeApplied",
                "fisherPValue",
                "perThousand",
                "referencePerThousand",
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
                    odds.referenceUses()));
            row.add(odds.oddsRatio());
            row.add(odds.lower());
            row.add(odds.upper());
            row.add(odds.pValue());
            row.add(odds.woolf().oddsRatio());
            row.add(odds.woolf().lower());
            row.add(odds.woolf().upper());
            row.add(odds.woolf().haldaneAnscombeApplied());
            row.add(odds.fisherPValue());
            row.add(Words.thousandfold(new Proportion(odds.events(), odds.uses()).estimate()));
            row.add(Words.thousandfold(new Proportion(odds.referenceEvents(), odds.referenceUses()).estimate()));
            row.add(odds.sentence());
            rows.add(row);
        }
        return new Table(heading.comments(notes), columns, rows);
    }
}
