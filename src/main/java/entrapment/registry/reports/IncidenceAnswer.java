package entrapment.registry.reports;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Unit;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Labels;
import java.util.List;
import java.util.stream.Stream;

/** The incidence report for people. */
final class IncidenceAnswer {

    private IncidenceAnswer() {}

    static Answer of(IncidenceReport report) {
        ReportHeading heading = report.heading();
        List<Figure.Item> items = report.groups().stream()
                .map(group -> new Figure.Item(
                        Labels.group(group.level(), "All devices"),
                        "",
                        group.events(),
                        group.uses(),
                        group.estimate(),
                        group.lower(),
                        group.upper(),
                        Figure.Mark.NONE,
                        group.sentence()))
                .toList();
        ExhibitBuilder table = ExhibitBuilder.of(
                report.groups(),
                ExhibitBuilder.levels(heading.by(), IncidenceReport.Rate::level),
                ExhibitBuilder.column("Entrapments", COUNT, IncidenceReport.Rate::events),
                ExhibitBuilder.column("Uses", COUNT, IncidenceReport.Rate::uses),
                ExhibitBuilder.column("Rate", PER_THOUSAND, IncidenceReport.Rate::estimate),
                ExhibitBuilder.interval(
                        heading, PER_THOUSAND, IncidenceReport.Rate::lower, IncidenceReport.Rate::upper),
                ExhibitBuilder.onPage("No event: at most", PER_THOUSAND, IncidenceReport.Rate::upperBoundIfNone));
        String split = String.join(
                ", ", heading.by().stream().map(Labels::field).map(Words::small).toList());
        return heading.answer(
                sentence(report),
                List.of(table.exhibit(
                        split.isEmpty() ? "Entrapments per 1,000 uses" : "Entrapments per 1,000 uses by " + split,
                        "",
                        new Figure(
                                Figure.Kind.INTERVALS,
                                Unit.PER_THOUSAND,
                                "Entrapments per 1,000 uses",
                                "",
                                items,
                                List.of(),
                                List.of()))),
                report.notes());
    }

    /** Of one group its own sentence; of several the same for all of them together, as they part what was counted. */
    private static String sentence(IncidenceReport report) {
        if (report.groups().size() == 1) {
            return report.groups().get(0).sentence();
        }
        long events = 0;
        long uses = 0;
        for (IncidenceReport.Rate group : report.groups()) {
            if (group.events() <= group.uses()) {
                events += group.events();
                uses += group.uses();
            }
        }
        IntervalMethod method = Stream.of(IntervalMethod.values())
                .filter(candidate ->
                        candidate.code().equals(report.heading().method().code()))
                .findFirst()
                .orElse(IntervalMethod.WILSON);
        return IncidenceReport.sentence(
                new Proportion(events, uses),
                method,
                new Confidence(report.heading().confidence()));
    }
}
