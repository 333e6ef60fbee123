package entrapment.registry.reports;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.NUMBER;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;
import static entrapment.registry.exports.Column.Kind.RATIO;

import entrapment.registry.exports.Answer;
import java.util.List;

/** The planning report for people: a table, as there is no estimate to draw. */
final class PlanningAnswer {

    private PlanningAnswer() {}

    static Answer of(PlanningReport report) {
        ReportHeading heading = report.heading();
        return heading.answer(
                report.groups().size() == 1
                        ? report.groups().get(0).sentence()
                        : "For each of " + report.groups().size() + " groups, below.",
                List.of(Tabulation.of(
                                report.groups(),
                                Tabulation.levels(heading.by(), PlanningReport.Plan::level),
                                Tabulation.column("Entrapments", COUNT, PlanningReport.Plan::events),
                                Tabulation.column("Uses", COUNT, PlanningReport.Plan::uses),
                                Tabulation.column("Uses a year", COUNT, PlanningReport.Plan::usesPerYear),
                                Tabulation.column("Rate now", PER_THOUSAND, PlanningReport.Plan::estimate),
                                Tabulation.column(
                                        "Rise noticed in a year, times", RATIO, PlanningReport.Plan::detectableRatio),
                                Tabulation.column(
                                        "Fall noticed in a year, to",
                                        PER_THOUSAND,
                                        PlanningReport.Plan::detectableDecrease),
                                Tabulation.onPage("Half-width", PER_THOUSAND, PlanningReport.Plan::halfWidth),
                                Tabulation.onPage("Uses for it", COUNT, PlanningReport.Plan::usesForHalfWidth),
                                Tabulation.onPage("Years for it", NUMBER, PlanningReport.Plan::yearsForHalfWidth))
                        .exhibit("What a year of data would show", "", null)),
                report.notes());
    }
}
