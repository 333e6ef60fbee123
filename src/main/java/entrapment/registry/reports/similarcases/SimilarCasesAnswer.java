package entrapment.registry.reports.similarcases;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.harm.HarmAnswer;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.Words;
import entrapment.registry.reports.similarcases.SimilarCasesReport.Sequence;
import entrapment.registry.reports.similarcases.SimilarCasesReport.Tried;
import entrapment.registry.stats.Confidence;
import entrapment.registry.vocabulary.Labels;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import java.util.ArrayList;
import java.util.List;

/** The report of similar cases for people. */
final class SimilarCasesAnswer {

    private SimilarCasesAnswer() {}

    static Answer of(SimilarCasesReport report) {
        return report.heading()
                .answer(sentence(report), List.of(tries(report), ways(report), harm(report)), report.notes());
    }

    private static String sentence(SimilarCasesReport report) {
        SimilarCasesReport.Loosening loosen = report.loosen();
        if (report.cases() == 0) {
            return "No recorded case is like this."
                    + (loosen == null
                            ? ""
                            : " Without the filter " + Words.small(Labels.field(loosen.filter())) + " there "
                                    + (loosen.cases() == 1 ? "is " : "are ") + Words.cases(loosen.cases()) + ".");
        }
        return "%s like this in the registry%s. %s"
                .formatted(
                        Words.cases(report.cases()),
                        report.described() == report.cases()
                                ? ""
                                : ", of which " + Words.cases(report.described()) + " described here",
                        report.minutesToRelease().sentence());
    }

    private static Exhibit tries(SimilarCasesReport report) {
        Confidence confidence = report.heading().confidence();
        List<Figure.Item> items = new ArrayList<>();
        for (Tried tried : report.groups()) {
            items.add(Columns.item(label(tried), "first try", tried.first(), tried.sentence()));
            items.add(Columns.item(label(tried), "any try", tried.any(), tried.sentence()));
        }
        return new Columns<Tried>()
                .shown("Technique", TEXT, SimilarCasesAnswer::label)
                .released("first", "First try", confidence, Tried::first)
                .released("any", "Any try", confidence, Tried::any)
                .exhibit(
                        "What released the device",
                        "",
                        Figure.intervals(Unit.PERCENT, "Released, % of cases", items),
                        report.groups());
    }

    private static String label(Tried tried) {
        return tried.level().label("Any technique");
    }

    private static Exhibit ways(SimilarCasesReport report) {
        return new Columns<Sequence>()
                .shown("Tried, in this order", TEXT, Sequence::steps)
                .shown("The last one brought", TEXT, sequence -> sequence.result()
                        .label())
                .shown("Cases", COUNT, Sequence::cases)
                .exhibit(
                        "What was tried after what",
                        report.otherSequences() == 0
                                ? ""
                                : Words.cases(report.otherSequences())
                                        + " went other ways, each seen too rarely to show.",
                        new Figure(
                                Figure.Kind.FLOW,
                                Unit.COUNT,
                                "Cases",
                                "",
                                List.of(),
                                List.of(),
                                report.sequences().stream()
                                        .map(sequence -> new Figure.Path(
                                                sequence.techniques().stream()
                                                        .map(Level::label)
                                                        .toList(),
                                                sequence.result().label(),
                                                sequence.cases()))
                                        .toList()),
                        report.sequences());
    }

    private static Exhibit harm(SimilarCasesReport report) {
        return HarmAnswer.shares(
                report.heading(),
                "How these patients did",
                report.minutesToRelease().sentence(),
                report.harm().entrySet().stream()
                        .map(degree -> HarmAnswer.Outcome.of(
                                Levels.ALL, "These cases", "harm", degree.getKey(), degree.getValue()))
                        .toList());
    }
}
