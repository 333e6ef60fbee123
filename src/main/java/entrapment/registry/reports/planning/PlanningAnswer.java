package entrapment.registry.reports.planning;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.NUMBER;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;
import static entrapment.registry.exports.Column.Kind.RATIO;

import entrapment.registry.exports.Answer;
import entrapment.registry.reports.planning.PlanningReport.Plan;
import entrapment.registry.reports.question.Columns;
import java.util.List;

/** The planning report as it is shown: a table, as there is no estimate to draw. */
final class PlanningAnswer {

    private PlanningAnswer() {}

    static Columns<Plan> columns(PlanningReport report) {
        return new Columns<Plan>()
                .levels(report.heading().by(), Plan::level)
                .column("events", "Entrapments", COUNT, Plan::events)
                .column("uses", "Uses", COUNT, Plan::uses)
                .column("usesPerYear", "Uses a year", COUNT, Plan::usesPerYear)
                .column("estimate", "Rate now", PER_THOUSAND, Plan::estimate)
                .shown("Rise noticed in a year, times", RATIO, Plan::detectableRatio)
                .shown("Fall noticed in a year, to", PER_THOUSAND, Plan::detectableDecrease)
                .onPage("halfWidth", "Half-width", PER_THOUSAND, Plan::halfWidth)
                .onPage("usesForHalfWidth", "Uses for it", COUNT, Plan::usesForHalfWidth)
                .onPage("yearsForHalfWidth", "Years for it", NUMBER, Plan::yearsForHalfWidth)
                .csv("detectableRatio", Plan::detectableRatio)
                .csv("detectableDecrease", Plan::detectableDecrease)
                .perThousand("perThousand", Plan::estimate)
                .csv("sentence", Plan::sentence);
    }

    static Answer of(PlanningReport report) {
        List<Plan> groups = report.groups();
        return report.heading()
                .answer(
                        groups.size() == 1
                                ? groups.get(0).sentence()
                                : "For each of " + groups.size() + " groups, below.",
                        List.of(columns(report).exhibit("What a year of data would show", "", null, groups)),
                        report.notes());
    }
}
