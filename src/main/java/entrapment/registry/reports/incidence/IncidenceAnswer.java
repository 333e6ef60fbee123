package entrapment.registry.reports.incidence;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.incidence.IncidenceReport.Rate;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.Words;
import entrapment.registry.vocabulary.Labels;
import java.util.List;
import java.util.stream.Collectors;

/** The incidence report as it is shown. */
final class IncidenceAnswer {

    private IncidenceAnswer() {}

    static Columns<Rate> columns(IncidenceReport report) {
        return new Columns<Rate>()
                .levels(report.heading().by(), Rate::level)
                .column("events", "Entrapments", COUNT, Rate::events)
                .column("uses", "Uses", COUNT, Rate::uses)
                .column("estimate", "Rate", PER_THOUSAND, Rate::estimate)
                .interval("lower", "upper", report.heading().confidence(), PER_THOUSAND, Rate::lower, Rate::upper)
                .onPage("No event: at most", PER_THOUSAND, Rate::upperBoundIfNone)
                .perThousand("perThousand", Rate::estimate)
                .perThousand("perThousandLower", Rate::lower)
                .perThousand("perThousandUpper", Rate::upper)
                .csv("sentence", Rate::sentence);
    }

    static Answer of(IncidenceReport report) {
        List<Figure.Item> items = report.groups().stream()
                .map(group -> new Figure.Item(
                        group.level().label("All devices"),
                        "",
                        group.events(),
                        group.uses(),
                        group.estimate(),
                        group.lower(),
                        group.upper(),
                        Figure.Mark.NONE,
                        group.sentence()))
                .toList();
        String split = report.heading().by().stream()
                .map(Labels::field)
                .map(Words::small)
                .collect(Collectors.joining(", "));
        return report.heading()
                .answer(
                        sentence(report),
                        List.of(columns(report)
                                .exhibit(
                                        split.isEmpty()
                                                ? "Entrapments per 1,000 uses"
                                                : "Entrapments per 1,000 uses by " + split,
                                        "",
                                        Figure.intervals(Unit.PER_THOUSAND, "Entrapments per 1,000 uses", items),
                                        report.groups())),
                        report.notes());
    }

    /** Of one group its own sentence; of several the same for all of them together. */
    private static String sentence(IncidenceReport report) {
        return report.groups().size() == 1
                ? report.groups().get(0).sentence()
                : IncidenceReport.sentence(
                        report.total(), report.interval(), report.heading().confidence());
    }
}
