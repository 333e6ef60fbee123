package entrapment.registry.reports.retrieval;

import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Table;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.Words;
import entrapment.registry.reports.retrieval.RetrievalReport.Success;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;

/** The retrieval report as it is shown. */
final class RetrievalAnswer {

    private static final String AXIS = "Released, % (of attempts or cases that are counted)";
    private static final String ANY = "Any technique";

    /** One of the four denominators. */
    private record Counted(String name, String title, String series, Function<Success, ProportionEstimate> share) {}

    private static final Counted ALL = new Counted("all", "Attempts", "", Success::all);
    private static final Counted FIRST = new Counted("first", "First try", "first try", Success::first);
    private static final Counted LATER = new Counted("later", "After a failure", "after a failure", Success::later);
    private static final Counted CASES = new Counted("cases", "Cases", "", Success::cases);

    private RetrievalAnswer() {}

    static Table table(RetrievalReport report) {
        Confidence confidence = report.heading().confidence();
        return with(
                        List.of(ALL, FIRST, LATER, CASES),
                        technique().levels(report.heading().by(), Success::level),
                        confidence)
                .csv("sentence", Success::sentence)
                .table(report.heading(), report.notes(), rows(report));
    }

    private static Columns<Success> with(List<Counted> counted, Columns<Success> columns, Confidence confidence) {
        counted.forEach(each -> columns.released(each.name(), each.title(), confidence, each.share()));
        return columns;
    }

    private static Columns<Success> technique() {
        return new Columns<Success>()
                .csv(RetrievalReport.TECHNIQUE, success -> {
                    Level technique = success.level().get(RetrievalReport.TECHNIQUE);
                    return technique == null ? "any" : technique.code();
                })
                .shown("Technique", TEXT, RetrievalAnswer::label);
    }

    private static List<Success> rows(RetrievalReport report) {
        return Stream.concat(report.overall().stream(), report.groups().stream())
                .toList();
    }

    static Answer of(RetrievalReport report) {
        return report.heading()
                .answer(
                        sentence(report),
                        List.of(
                                exhibit(
                                        report,
                                        "Released at the first try, and after another had failed",
                                        List.of(FIRST, LATER),
                                        List.of(FIRST, LATER)),
                                exhibit(
                                        report,
                                        "Released in the cases in which it was tried at all",
                                        List.of(CASES, ALL),
                                        List.of(CASES))),
                        report.notes());
    }

    private static Exhibit exhibit(RetrievalReport report, String title, List<Counted> columns, List<Counted> drawn) {
        Columns<Success> all = with(columns, technique(), report.heading().confidence());
        List<Figure.Item> items = new ArrayList<>();
        for (Success success : rows(report)) {
            for (Counted counted : drawn) {
                items.add(Columns.item(
                        label(success), counted.series(), counted.share().apply(success), success.sentence()));
            }
        }
        return all.exhibit(title, "", Figure.intervals(Unit.PERCENT, AXIS, items), rows(report));
    }

    private static String sentence(RetrievalReport report) {
        return report.overall().size() == 1
                ? "All techniques together: "
                        + Words.small(report.overall().get(0).sentence())
                : report.overall().isEmpty()
                        ? "No attempt is recorded here."
                        : "For each of " + report.overall().size() + " groups, below.";
    }

    private static String label(Success success) {
        Levels level = success.level();
        return level.isEmpty() || level.get(RetrievalReport.TECHNIQUE) != null
                ? level.label(ANY)
                : ANY + ", " + level.label(ANY);
    }
}
