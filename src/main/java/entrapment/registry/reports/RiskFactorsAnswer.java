package entrapment.registry.reports;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.P_VALUE;
import static entrapment.registry.exports.Column.Kind.RATIO;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.vocabulary.Labels;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** The reports of risk factors for people, one exhibit for each factor, whatever the model. */
final class RiskFactorsAnswer {

    private RiskFactorsAnswer() {}

    static Answer of(ReportHeading heading, List<? extends ComparedLevel> all, List<String> notes) {
        Map<String, List<ComparedLevel>> factors = new LinkedHashMap<>();
        all.forEach(odds -> factors.computeIfAbsent(odds.factor(), factor -> new ArrayList<>())
                .add(odds));
        List<Exhibit> exhibits = new ArrayList<>();
        factors.forEach((factor, levels) -> exhibits.add(exhibit(heading, factor, levels)));
        return heading.answer(sentence(heading, all), exhibits, notes);
    }

    private static String sentence(ReportHeading heading, List<? extends ComparedLevel> all) {
        List<? extends ComparedLevel> apart =
                all.stream().filter(ComparedLevel::standsOut).toList();
        if (all.isEmpty()) {
            return "There is nothing to compare here.";
        }
        String level = NumberText.level(heading.confidence());
        return apart.isEmpty()
                ? "None of the %d comparisons has a %s %% interval that leaves out 1: the data fit no difference, and many others."
                        .formatted(all.size(), level)
                : "Of %d comparisons, %d %s a %s %% interval that leaves out 1, and about %s would by chance alone: odds ratio of %s."
                        .formatted(
                                all.size(),
                                apart.size(),
                                apart.size() == 1 ? "has" : "have",
                                level,
                                NumberText.oneDecimal(all.size() * (1 - heading.confidence())),
                                apart.stream().map(ComparedLevel::words).collect(Collectors.joining("; ")));
    }

    private static Exhibit exhibit(ReportHeading heading, String factor, List<ComparedLevel> levels) {
        String reference = levels.get(0).referenceLabel();
        List<ExhibitBuilder.Part<ComparedLevel>> first = new ArrayList<>();
        first.add(ExhibitBuilder.column(Labels.field(factor), TEXT, ComparedLevel::levelLabel));
        first.add(ExhibitBuilder.column("Entrapments", COUNT, ComparedLevel::events));
        first.add(ExhibitBuilder.column("Uses", COUNT, ComparedLevel::uses));
        if (levels.get(0).referenceCounts() != null) {
            first.add(ExhibitBuilder.onPage("Against " + Words.small(reference), TEXT, ComparedLevel::referenceCounts));
        }
        return ExhibitBuilder.of(
                        levels,
                        first,
                        ExhibitBuilder.column("Odds ratio", RATIO, ComparedLevel::oddsRatio),
                        ExhibitBuilder.interval(heading, RATIO, ComparedLevel::lower, ComparedLevel::upper),
                        ExhibitBuilder.column("p", P_VALUE, ComparedLevel::pValue))
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
