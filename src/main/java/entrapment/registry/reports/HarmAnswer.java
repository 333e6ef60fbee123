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
import java.util.Map;
import java.util.function.Function;
import java.util.function.UnaryOperator;

/** The report of harm for people. */
final class HarmAnswer {

    private static final String AXIS = "Share of cases, %";

    private HarmAnswer() {}

    /** One outcome of one group. */
    record Outcome(String group, String label, Occurrence occurrence) {}

    static Answer of(HarmReport report) {
        ReportHeading heading = report.heading();
        List<Outcome> harm = outcomes(report, HarmReport.Cost::harm, code -> Labels.level("harm", code));
        List<Exhibit> exhibits = new ArrayList<>();
        exhibits.add(table(heading, harm)
                .exhibit(
                        "Degree of harm",
                        "",
                        new Figure(
                                Figure.Kind.SHARES, Unit.PERCENT, AXIS, "", items(harm, true), List.of(), List.of())));
        exhibits.add(intervals(
                heading,
                "Complications",
                outcomes(report, HarmReport.Cost::complications, code -> Labels.level("complications", code))));
        exhibits.add(intervals(heading, "Emergencies", outcomes(report, HarmReport.Cost::emergencies, Labels::field)));
        String sentence = report.groups().size() == 1
                ? report.groups().get(0).sentence()
                : report.groups().isEmpty()
                        ? "No case is recorded here."
                        : "For each of " + report.groups().size() + " groups, below.";
        return heading.answer(sentence, exhibits, report.notes());
    }

    private static List<Outcome> outcomes(
            HarmReport report,
            Function<HarmReport.Cost, Map<String, Occurrence>> outcomes,
            UnaryOperator<String> label) {
        List<Outcome> all = new ArrayList<>();
        for (HarmReport.Cost cost : report.groups()) {
            String group = Labels.group(cost.level(), "All cases");
            outcomes.apply(cost)
                    .forEach((code, occurrence) -> all.add(new Outcome(group, label.apply(code), occurrence)));
        }
        return all;
    }

    private static Exhibit intervals(ReportHeading heading, String title, List<Outcome> outcomes) {
        return table(heading, outcomes)
                .exhibit(
                        title,
                        "",
                        new Figure(
                                Figure.Kind.INTERVALS,
                                Unit.PERCENT,
                                AXIS,
                                "",
                                items(outcomes, false),
                                List.of(),
                                List.of()));
    }

    static ExhibitBuilder table(ReportHeading heading, List<Outcome> outcomes) {
        boolean split = outcomes.stream().map(Outcome::group).distinct().count() > 1;
        List<ExhibitBuilder.Part<Outcome>> first = new ArrayList<>();
        if (split) {
            first.add(ExhibitBuilder.column("Group", TEXT, Outcome::group));
        }
        first.add(ExhibitBuilder.column("Outcome", TEXT, Outcome::label));
        return ExhibitBuilder.of(
                outcomes,
                first,
                ExhibitBuilder.column(
                        "Cases", COUNT, outcome -> outcome.occurrence().events()),
                ExhibitBuilder.column(
                        "Of", COUNT, outcome -> outcome.occurrence().of()),
                ExhibitBuilder.column(
                        "Share", PERCENT, outcome -> outcome.occurrence().estimate()),
                ExhibitBuilder.interval(
                        heading, PERCENT, outcome -> outcome.occurrence().lower(), outcome -> outcome.occurrence()
                                .upper()));
    }

    /** Shares have a bar for each group, intervals a line for each outcome. */
    static List<Figure.Item> items(List<Outcome> outcomes, boolean shares) {
        boolean split = outcomes.stream().map(Outcome::group).distinct().count() > 1;
        return outcomes.stream()
                .map(outcome -> new Figure.Item(
                        shares ? outcome.group() : outcome.label(),
                        shares ? outcome.label() : split ? outcome.group() : "",
                        outcome.occurrence().events(),
                        outcome.occurrence().of(),
                        outcome.occurrence().estimate(),
                        outcome.occurrence().lower(),
                        outcome.occurrence().upper(),
                        Figure.Mark.NONE,
                        ""))
                .toList();
    }
}
