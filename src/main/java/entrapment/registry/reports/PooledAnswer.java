package entrapment.registry.reports;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;
import static entrapment.registry.exports.Column.Kind.P_VALUE;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Limits;
import entrapment.registry.exports.Unit;
import entrapment.registry.vocabulary.Labels;
import java.util.List;

/** The pooled report for people. */
final class PooledAnswer {

    private PooledAnswer() {}

    static Answer of(PooledReport report) {
        ReportHeading heading = report.heading();
        return heading.answer(
                report.groups().size() == 1
                        ? report.groups().get(0).sentence()
                        : "For each of " + report.groups().size() + " groups, below.",
                List.of(ExhibitBuilder.of(
                                report.groups(),
                                ExhibitBuilder.levels(heading.by(), PooledReport.Pooled::level),
                                ExhibitBuilder.column("Centres", COUNT, group -> (long) group.centres()),
                                ExhibitBuilder.column("Entrapments", COUNT, PooledReport.Pooled::events),
                                ExhibitBuilder.column("Uses", COUNT, PooledReport.Pooled::uses),
                                ExhibitBuilder.column("Typical centre", PER_THOUSAND, PooledReport.Pooled::estimate),
                                ExhibitBuilder.interval(
                                        heading, PER_THOUSAND, PooledReport.Pooled::lower, PooledReport.Pooled::upper),
                                new ExhibitBuilder.Part<>(
                                        Column.of("A further centre", PER_THOUSAND),
                                        group -> new Limits(group.predictionLower(), group.predictionUpper())),
                                ExhibitBuilder.onPage(
                                        "p, centres alike", P_VALUE, PooledReport.Pooled::heterogeneityPValue))
                        .exhibit(
                                "The rate of a typical centre",
                                "",
                                new Figure(
                                        Figure.Kind.INTERVALS,
                                        Unit.PER_THOUSAND,
                                        "Entrapments per 1,000 uses of a typical centre",
                                        "",
                                        report.groups().stream()
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
                                                .toList(),
                                        List.of(),
                                        List.of()))),
                report.notes());
    }
}
