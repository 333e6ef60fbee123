package entrapment.registry.reports;

import static entrapment.registry.exports.Column.Kind.PERCENT;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Unit;
import entrapment.registry.vocabulary.Labels;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/** The retrieval report for people. */
final class RetrievalAnswer {

    private static final String AXIS = "Released, % (of attempts or cases that are counted)";
    private static final String ANY = "Any technique";

    private RetrievalAnswer() {}

    static Answer of(RetrievalReport report) {
        ReportHeading heading = report.heading();
        List<RetrievalReport.Success> groups = new ArrayList<>(report.overall());
        groups.addAll(report.groups());
        Exhibit tries = ExhibitBuilder.of(
                        groups,
                        List.of(ExhibitBuilder.column("Technique", TEXT, success -> technique(success.level()))),
                        share("First try", RetrievalReport.Success::first),
                        percent("First try", RetrievalReport.Success::first),
                        interval(heading, RetrievalReport.Success::first),
                        share("After a failure", RetrievalReport.Success::later),
                        percent("After a failure", RetrievalReport.Success::later),
                        interval(heading, RetrievalReport.Success::later))
                .exhibit(
                        "Released at the first try, and after another had failed",
                        "",
                        figure(
                                groups,
                                Map.entry("first try", RetrievalReport.Success::first),
                                Map.entry("after a failure", RetrievalReport.Success::later)));
        Exhibit all = ExhibitBuilder.of(
                        groups,
                        List.of(ExhibitBuilder.column("Technique", TEXT, success -> technique(success.level()))),
                        share("Cases", RetrievalReport.Success::cases),
                        percent("Cases", RetrievalReport.Success::cases),
                        interval(heading, RetrievalReport.Success::cases),
                        share("Attempts", RetrievalReport.Success::all),
                        percent("Attempts", RetrievalReport.Success::all),
                        interval(heading, RetrievalReport.Success::all))
                .exhibit(
                        "Released in the cases in which it was tried at all",
                        "",
                        figure(groups, Map.entry("cases in which it was tried", RetrievalReport.Success::cases)));
        return heading.answer(sentence(report), List.of(tries, all), report.notes());
    }

    private static String sentence(RetrievalReport report) {
        return report.overall().size() == 1
                ? "All techniques together: "
                        + Words.small(report.overall().get(0).sentence())
                : report.overall().isEmpty()
                        ? "No attempt is recorded here."
                        : "For each of " + report.overall().size() + " groups, below.";
    }

    private static String technique(Map<String, String> level) {
        String label = Labels.group(level, ANY);
        return level.containsKey("technique") || level.isEmpty() ? label : ANY + ", " + label;
    }

    private static ExhibitBuilder.Part<RetrievalReport.Success> share(
            String title, Function<RetrievalReport.Success, RetrievalReport.Share> share) {
        return ExhibitBuilder.column(
                title + ": released of",
                TEXT,
                success -> Words.of(
                        share.apply(success).released(), share.apply(success).of()));
    }

    private static ExhibitBuilder.Part<RetrievalReport.Success> percent(
            String title, Function<RetrievalReport.Success, RetrievalReport.Share> share) {
        return ExhibitBuilder.onPage(
                title, PERCENT, success -> share.apply(success).estimate());
    }

    private static ExhibitBuilder.Part<RetrievalReport.Success> interval(
            ReportHeading heading, Function<RetrievalReport.Success, RetrievalReport.Share> share) {
        return ExhibitBuilder.interval(
                heading, PERCENT, success -> share.apply(success).lower(), success -> share.apply(success)
                        .upper());
    }

    @SafeVarargs
    private static Figure figure(
            List<RetrievalReport.Success> groups,
            Map.Entry<String, Function<RetrievalReport.Success, RetrievalReport.Share>>... series) {
        List<Figure.Item> items = new ArrayList<>();
        for (RetrievalReport.Success success : groups) {
            for (Map.Entry<String, Function<RetrievalReport.Success, RetrievalReport.Share>> one : series) {
                RetrievalReport.Share share = one.getValue().apply(success);
                items.add(new Figure.Item(
                        technique(success.level()),
                        series.length == 1 ? "" : one.getKey(),
                        share.released(),
                        share.of(),
                        share.estimate(),
                        share.lower(),
                        share.upper(),
                        Figure.Mark.NONE,
                        success.sentence()));
            }
        }
        return new Figure(Figure.Kind.INTERVALS, Unit.PERCENT, AXIS, "", items, List.of(), List.of());
    }
}
