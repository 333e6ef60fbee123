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
                List.of(ExhibitBuilder.of(
                                report.groups(),
                                ExhibitBuilder.levels(heading.by(), PlanningReport.Plan::level),
                                ExhibitBuilder.column("Entrapments", COUNT, PlanningReport.Plan::events),
                                ExhibitBuilder.column("Uses", COUNT, PlanningReport.Plan::uses),
                                ExhibitBuilder.column("Uses a year", COUNT, PlanningReport.Plan::usesPerYear),
                                ExhibitBuilder.column("Rate now", PER_THOUSAND, PlanningReport.Plan::estimate),
                                ExhibitBuilder.column(
                                        "Rise noticed in a year, times", RATIO, PlanningReport.Plan::detectableRatio),
                                ExhibitBuilder.column(
                                        "Fall noticed in a year, to",
                                        PER_THOUSAND,
                                        PlanningReport.Plan::detectableDecrease),
                                ExhibitBuilder.onPage("Half-width", PER_THOUSAND, PlanningReport.Plan::halfWidth),
                                ExhibitBuilder.onPage("Uses for it", COUNT, PlanningReport.Plan::usesForHalfWidth),
                                ExhibitBuilder.onPage("Years for it", NUMBER, PlanningReport.Plan::yearsForHalfWidth))
                        .exhibit("What a year of data would show", "", null)),
                report.notes());
    }
}
