package entrapment.registry.reports;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.PERCENT;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Unit;
import entrapment.registry.vocabulary.Labels;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** The report of similar cases for people. */
final class SimilarCasesAnswer {

    private SimilarCasesAnswer() {}

    static Answer of(SimilarCasesReport report) {
        ReportHeading heading = report.heading();
        List<Exhibit> exhibits = new ArrayList<>();
        exhibits.add(ExhibitBuilder.of(
                        report.groups(),
                        List.of(ExhibitBuilder.column(
                                "Technique", TEXT, tried -> Labels.group(tried.level(), "Any technique"))),
                        ExhibitBuilder.column(
                                "First try: released of",
                                TEXT,
                                tried -> Words.of(
                                        tried.first().released(), tried.first().of())),
                        ExhibitBuilder.onPage(
                                "First try", PERCENT, tried -> tried.first().estimate()),
                        ExhibitBuilder.interval(
                                heading, PERCENT, tried -> tried.first().lower(), tried -> tried.first()
                                        .upper()),
                        ExhibitBuilder.column(
                                "Any try: released of",
                                TEXT,
                                tried -> Words.of(
                                        tried.any().released(), tried.any().of())),
                        ExhibitBuilder.onPage(
                                "Any try", PERCENT, tried -> tried.any().estimate()),
                        ExhibitBuilder.interval(
                                heading, PERCENT, tried -> tried.any().lower(), tried -> tried.any()
                                        .upper()))
                .exhibit("What released the device", "", tries(report)));
        exhibits.add(ExhibitBuilder.of(
                        report.sequences(),
                        List.of(ExhibitBuilder.column("Tried, in this order", TEXT, SimilarCasesAnswer::steps)),
                        ExhibitBuilder.column(
                                "The last one brought", TEXT, sequence -> Labels.level("result", sequence.result())),
                        ExhibitBuilder.column("Cases", COUNT, SimilarCasesReport.Sequence::cases))
                .exhibit(
                        "What was tried after what",
                        report.otherSequences() == 0
                                ? ""
                                : Words.cases(report.otherSequences())
                                        + " went other ways, each seen too rarely to show.",
                        flow(report)));
        List<HarmAnswer.Outcome> harm = report.harm().entrySet().stream()
                .map(degree ->
                        new HarmAnswer.Outcome("These cases", Labels.level("harm", degree.getKey()), degree.getValue()))
                .toList();
        exhibits.add(HarmAnswer.table(heading, harm)
                .exhibit(
                        "How these patients did",
                        report.minutesToRelease().sentence(),
                        new Figure(
                                Figure.Kind.SHARES,
                                Unit.PERCENT,
                                "Share of cases, %",
                                "",
                                HarmAnswer.items(harm, true),
                                List.of(),
                                List.of())));
        return heading.answer(sentence(report), exhibits, report.notes());
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

    private static String steps(SimilarCasesReport.Sequence sequence) {
        return sequence.techniques().stream()
                .map(technique -> Labels.level("technique", technique))
                .collect(Collectors.joining(" → "));
    }

    private static Figure tries(SimilarCasesReport report) {
        List<Figure.Item> items = new ArrayList<>();
        for (SimilarCasesReport.Tried tried : report.groups()) {
            String label = Labels.group(tried.level(), "Any technique");
            items.add(item(label, "first try", tried.first(), tried.sentence()));
            items.add(item(label, "any try", tried.any(), tried.sentence()));
        }
        return new Figure(Figure.Kind.INTERVALS, Unit.PERCENT, "Released, % of cases", "", items, List.of(), List.of());
    }

    private static Figure.Item item(String label, String series, RetrievalReport.Share share, String sentence) {
        return new Figure.Item(
                label,
                series,
                share.released(),
                share.of(),
                share.estimate(),
                share.lower(),
                share.upper(),
                Figure.Mark.NONE,
                sentence);
    }

    private static Figure flow(SimilarCasesReport report) {
        return new Figure(
                Figure.Kind.FLOW,
                Unit.COUNT,
                "Cases",
                "",
                List.of(),
                List.of(),
                report.sequences().stream()
                        .map(sequence -> new Figure.Path(
                                sequence.techniques().stream()
                                        .map(technique -> Labels.level("technique", technique))
                                        .toList(),
                                Labels.level("result", sequence.result()),
                                sequence.cases()))
                        .toList());
    }
}
