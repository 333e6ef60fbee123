package entrapment.registry.reports;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.P_VALUE;
import static entrapment.registry.exports.Column.Kind.RATIO;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Figures;
import entrapment.registry.exports.Unit;
import entrapment.registry.vocabulary.Labels;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The reports of risk factors for people, one exhibit for each factor, whatever the model. */
final class RiskFactorsAnswer {

    /** What the three models have in common. */
    private record Odds(
            String factor,
            String level,
            String reference,
            long events,
            long uses,
            @Nullable String referenceCounts,
            @Nullable Double oddsRatio,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double pValue,
            String sentence) {

        String levelLabel() {
            return Labels.level(factor, level);
        }

        String referenceLabel() {
            return Labels.level(factor, reference);
        }

        /** Whether the whole interval lies on one side of 1. */
        boolean standsOut() {
            Double least = lower;
            Double most = upper;
            return least != null && most != null && (least > 1 || most < 1);
        }

        String words() {
            Double ratio = oddsRatio;
            return Words.small(Labels.field(factor)) + " " + Words.small(levelLabel()) + " against "
                    + Words.small(referenceLabel()) + " "
                    + (ratio == null
                            ? "not estimable"
                            : Figures.ratio(ratio) + " (" + end(lower) + " to " + end(upper) + ")");
        }

        private static String end(@Nullable Double limit) {
            return limit == null ? "–" : Figures.ratio(limit);
        }
    }

    private RiskFactorsAnswer() {}

    static Answer of(RiskFactorsReport report) {
        return answer(
                report.heading(),
                report.groups().stream()
                        .map(odds -> new Odds(
                                odds.factor(),
                                odds.level(),
                                odds.reference(),
                                odds.events(),
                                odds.uses(),
                                Words.of(odds.referenceEvents(), odds.referenceUses()),
                                odds.oddsRatio(),
                                odds.lower(),
                                odds.upper(),
                                odds.pValue(),
                                odds.sentence()))
                        .toList(),
                report.notes());
    }

    static Answer of(StratifiedRiskFactorsReport report) {
        return answer(
                report.heading(),
                report.groups().stream()
                        .map(odds -> new Odds(
                                odds.factor(),
                                odds.level(),
                                odds.reference(),
                                odds.events(),
                                odds.uses(),
                                Words.of(odds.referenceEvents(), odds.referenceUses()),
                                odds.oddsRatio(),
                                odds.lower(),
                                odds.upper(),
                                odds.pValue(),
                                odds.sentence()))
                        .toList(),
                report.notes());
    }

    static Answer of(AdjustedRiskFactorsReport report) {
        return answer(
                report.heading(),
                report.groups().stream()
                        .map(odds -> new Odds(
                                odds.factor(),
                                odds.level(),
                                odds.reference(),
                                odds.events(),
                                odds.uses(),
                                null,
                                odds.oddsRatio(),
                                odds.lower(),
                                odds.upper(),
                                odds.pValue(),
                                odds.sentence()))
                        .toList(),
                report.notes());
    }

    private static Answer answer(ReportHeading heading, List<Odds> all, List<String> notes) {
        Map<String, List<Odds>> factors =
                all.stream().collect(Collectors.groupingBy(Odds::factor, LinkedHashMap::new, Collectors.toList()));
        List<Exhibit> exhibits = new ArrayList<>();
        factors.forEach((factor, levels) -> exhibits.add(exhibit(heading, factor, levels)));
        return heading.answer(sentence(heading, all), exhibits, notes);
    }

    private static String sentence(ReportHeading heading, List<Odds> all) {
        List<Odds> apart = all.stream().filter(Odds::standsOut).toList();
        if (all.isEmpty()) {
            return "There is nothing to compare here.";
        }
        String level = Figures.level(heading.confidence());
        return apart.isEmpty()
                ? "None of the %d comparisons has a %s %% interval that leaves out 1: the data fit no difference, and many others."
                        .formatted(all.size(), level)
                : "Of %d comparisons, %d %s a %s %% interval that leaves out 1, and about %s would by chance alone: odds ratio of %s."
                        .formatted(
                                all.size(),
                                apart.size(),
                                apart.size() == 1 ? "has" : "have",
                                level,
                                Figures.oneDecimal(all.size() * (1 - heading.confidence())),
                                apart.stream().map(Odds::words).collect(Collectors.joining("; ")));
    }

    private static Exhibit exhibit(ReportHeading heading, String factor, List<Odds> levels) {
        String reference = levels.get(0).referenceLabel();
        List<Tabulation.Part<Odds>> first = new ArrayList<>();
        first.add(Tabulation.column(Labels.field(factor), TEXT, Odds::levelLabel));
        first.add(Tabulation.column("Entrapments", COUNT, Odds::events));
        first.add(Tabulation.column("Uses", COUNT, Odds::uses));
        if (levels.get(0).referenceCounts() != null) {
            first.add(Tabulation.onPage("Against " + Words.small(reference), TEXT, Odds::referenceCounts));
        }
        return Tabulation.of(
                        levels,
                        first,
                        Tabulation.column("Odds ratio", RATIO, Odds::oddsRatio),
                        Tabulation.interval(heading, RATIO, Odds::lower, Odds::upper),
                        Tabulation.column("p", P_VALUE, Odds::pValue))
                .exhibit(
                        Labels.field(factor) + ", against " + Words.small(reference),
                        "",
                        new Figure(
                                Figure.Kind.FOREST,
                                Unit.RATIO,
                                "Odds ratio against " + Words.small(reference) + " (logarithmic)",
                                "",
                                levels.stream()
                                        .map(odds -> new Figure.Item(
                                                odds.levelLabel(),
                                                "",
                                                odds.events(),
                                                odds.uses(),
                                                odds.oddsRatio(),
                                                odds.lower(),
                                                odds.upper(),
                                                Figure.Mark.NONE,
                                                odds.sentence()))
                                        .toList(),
                                List.of(Figure.Line.at("no difference", 1)),
                                List.of()));
    }
}
