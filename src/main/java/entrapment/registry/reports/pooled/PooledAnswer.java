package entrapment.registry.reports.pooled;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;
import static entrapment.registry.exports.Column.Kind.P_VALUE;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Limits;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.pooled.PooledReport.Pooled;
import entrapment.registry.reports.question.Columns;
import java.util.List;

/** The pooled report as it is shown. */
final class PooledAnswer {

    private PooledAnswer() {}

    static Columns<Pooled> columns(PooledReport report) {
        return new Columns<Pooled>()
                .levels(report.heading().by(), Pooled::level)
                .csv("centres", Pooled::centres)
                .shown("Centres", COUNT, group -> (long) group.centres())
                .column("events", "Entrapments", COUNT, Pooled::events)
                .column("uses", "Uses", COUNT, Pooled::uses)
                .csv("crude", Pooled::crude)
                .column("estimate", "Typical centre", PER_THOUSAND, Pooled::estimate)
                .interval("lower", "upper", report.heading().confidence(), PER_THOUSAND, Pooled::lower, Pooled::upper)
                .csv("predictionLower", Pooled::predictionLower)
                .csv("predictionUpper", Pooled::predictionUpper)
                .shown(
                        "A further centre",
                        PER_THOUSAND,
                        group -> new Limits(group.predictionLower(), group.predictionUpper()))
                .csv("medianOddsRatio", Pooled::medianOddsRatio)
                .onPage("heterogeneityPValue", "p, centres alike", P_VALUE, Pooled::heterogeneityPValue)
                .perThousand("perThousand", Pooled::estimate)
                .csv("sentence", Pooled::sentence);
    }

    static Answer of(PooledReport report) {
        List<Pooled> groups = report.groups();
        return report.heading()
                .answer(
                        groups.size() == 1
                                ? groups.get(0).sentence()
                                : "For each of " + groups.size() + " groups, below.",
                        List.of(columns(report)
                                .exhibit(
                                        "The rate of a typical centre",
                                        "",
                                        Figure.intervals(
                                                Unit.PER_THOUSAND,
                                                "Entrapments per 1,000 uses of a typical centre",
                                                groups.stream()
                                                        .map(PooledAnswer::item)
                                                        .toList()),
                                        groups)),
                        report.notes());
    }

    private static Figure.Item item(Pooled group) {
        return new Figure.Item(
                group.level().label("All devices"),
                "",
                group.events(),
                group.uses(),
                group.estimate(),
                group.lower(),
                group.upper(),
                Figure.Mark.NONE,
                group.sentence());
    }
}
