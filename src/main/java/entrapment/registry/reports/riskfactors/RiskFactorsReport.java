package entrapment.registry.reports.riskfactors;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.P_VALUE;
import static entrapment.registry.exports.Column.Kind.RATIO;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.Report;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Labels;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** What raises the odds, by one of three models; for people one exhibit for each factor, whatever the model. */
public interface RiskFactorsReport extends Report {

    RiskFactorsQuery.Model model();

    /** Each level of each factor against its reference. */
    List<? extends ComparedLevel> groups();

    @Override
    default Answer answer() {
        Map<Factor, List<ComparedLevel>> factors = new LinkedHashMap<>();
        groups().forEach(odds -> factors.computeIfAbsent(odds.factor(), factor -> new ArrayList<>())
                .add(odds));
        List<Exhibit> exhibits = new ArrayList<>();
        factors.forEach((factor, levels) -> exhibits.add(exhibit(heading(), factor, levels)));
        return heading().answer(sentence(heading(), groups()), exhibits, notes());
    }

    /** For programs the columns that each model begins with. */
    static <T extends ComparedLevel> Columns<T> levels() {
        return new Columns<T>()
                .csv("factor", odds -> odds.factor().code())
                .csv("level", odds -> odds.level().code())
                .csv("reference", odds -> odds.reference().code())
                .csv("events", ComparedLevel::events)
                .csv("uses", ComparedLevel::uses);
    }

    /** For programs the odds ratio of each model. */
    static <T extends ComparedLevel> Columns<T> ratio() {
        return new Columns<T>()
                .csv("oddsRatio", ComparedLevel::oddsRatio)
                .csv("lower", ComparedLevel::lower)
                .csv("upper", ComparedLevel::upper)
                .csv("pValue", ComparedLevel::pValue);
    }

    private static String sentence(ReportHeading heading, List<? extends ComparedLevel> all) {
        List<? extends ComparedLevel> apart =
                all.stream().filter(ComparedLevel::standsOut).toList();
        if (all.isEmpty()) {
            return "There is nothing to compare here.";
        }
        String level = NumberText.level(heading.confidence().level());
        return apart.isEmpty()
                ? "None of the %d comparisons has a %s %% interval that leaves out 1: the data fit no difference, and many others."
                        .formatted(all.size(), level)
                : "Of %d comparisons, %d %s a %s %% interval that leaves out 1, and about %s would by chance alone: odds ratio of %s."
                        .formatted(
                                all.size(),
                                apart.size(),
                                apart.size() == 1 ? "has" : "have",
                                level,
                                NumberText.oneDecimal(
                                        all.size() * heading.confidence().alpha()),
                                apart.stream().map(ComparedLevel::words).collect(Collectors.joining("; ")));
    }

    private static Exhibit exhibit(ReportHeading heading, Factor factor, List<ComparedLevel> levels) {
        String label = Labels.field(factor.code());
        String reference = Words.small(levels.get(0).reference().label());
        Columns<ComparedLevel> columns = new Columns<ComparedLevel>()
                .shown(label, TEXT, odds -> odds.level().label())
                .shown("Entrapments", COUNT, ComparedLevel::events)
                .shown("Uses", COUNT, ComparedLevel::uses);
        if (levels.get(0).referenceCounts() != null) {
            columns.onPage("Against " + reference, TEXT, odds -> {
                Proportion counts = odds.referenceCounts();
                return counts == null ? null : Words.of(counts.events(), counts.of());
            });
        }
        return columns.shown("Odds ratio", RATIO, ComparedLevel::oddsRatio)
                .interval(heading.confidence(), RATIO, ComparedLevel::lower, ComparedLevel::upper)
                .shown("p", P_VALUE, ComparedLevel::pValue)
                .exhibit(
                        label + ", against " + reference,
                        "",
                        new Figure(
                                Figure.Kind.FOREST,
                                Unit.RATIO,
                                "Odds ratio against " + reference + " (logarithmic)",
                                "",
                                levels.stream().map(RiskFactorsReport::item).toList(),
                                List.of(Figure.Line.at("no difference", 1)),
                                List.of()),
                        levels);
    }

    private static Figure.Item item(ComparedLevel odds) {
        return new Figure.Item(
                odds.level().label(),
                "",
                odds.events(),
                odds.uses(),
                odds.oddsRatio(),
                odds.lower(),
                odds.upper(),
                Figure.Mark.NONE,
                odds.sentence());
    }
}
