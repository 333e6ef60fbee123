package entrapment.registry.reports.completeness;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.NUMBER;
import static entrapment.registry.exports.Column.Kind.PERCENT;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.completeness.CompletenessReport.Group;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Labels;
import entrapment.registry.vocabulary.Level;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The report of completeness for people. */
final class CompletenessAnswer {

    private CompletenessAnswer() {}

    /** A field with how often it is unknown. */
    private record Field(String label, ProportionEstimate unknown) {}

    static Answer of(CompletenessReport report) {
        List<Exhibit> exhibits = new ArrayList<>();
        exhibits.add(complete(report));
        exhibits.add(fields(report));
        if (!report.missingPeriods().named().isEmpty()) {
            exhibits.add(new Columns<MissingPeriods.NamedPeriod>()
                    .shown("Centre", TEXT, missing -> new Level.OfCentre(missing.centre()).label())
                    .shown("Period", TEXT, missing -> missing.period().toString())
                    .exhibit(
                            "Returns that are missing",
                            "",
                            null,
                            report.missingPeriods().named()));
        }
        if (!report.beyondActivity().named().isEmpty()) {
            exhibits.add(new Columns<BeyondActivity.NamedCell>()
                    .shown("Centre", TEXT, cell -> new Level.OfCentre(cell.centre()).label())
                    .shown("Period", TEXT, cell -> cell.period().toString())
                    .shown("Device", TEXT, cell -> cell.deviceClass().label())
                    .shown("Cases", COUNT, BeyondActivity.NamedCell::cases)
                    .shown("Uses", COUNT, BeyondActivity.NamedCell::uses)
                    .shown("Why it is left out", TEXT, cell -> cell.reason().toString())
                    .exhibit(
                            "Cases and returns that contradict each other",
                            "",
                            null,
                            report.beyondActivity().named()));
        }
        SilentCentres silent = report.silentCentres();
        if (silent != null && !silent.named().isEmpty()) {
            exhibits.add(new Columns<SilentCentres.Silence>()
                    .shown("Centre", TEXT, silence -> new Level.OfCentre(silence.centre()).label())
                    .shown("Uses", COUNT, SilentCentres.Silence::uses)
                    .shown("Entrapments expected", NUMBER, SilentCentres.Silence::expected)
                    .shown("To ask", TEXT, SilentCentres.Silence::question)
                    .exhibit("Centres without a case where some would be expected", "", null, silent.named()));
        }
        return report.heading().answer(sentence(report), exhibits, report.notes());
    }

    private static String sentence(CompletenessReport report) {
        Proportion complete = report.complete();
        Confidence confidence = report.heading().confidence();
        long missing = report.missingPeriods().periods();
        return complete.of() == 0
                ? "No case is recorded here."
                : "Without an unknown field: %s. %s missing; %s beyond the uses reported."
                        .formatted(
                                Words.share(
                                        ProportionEstimate.of(complete, IntervalMethod.WILSON, confidence), confidence),
                                missing == 1 ? "1 return is" : NumberText.count(missing) + " returns are",
                                Words.cases(report.beyondActivity().cases()));
    }

    private static Exhibit complete(CompletenessReport report) {
        return new Columns<Group>()
                .levels(report.heading().by(), Group::level)
                .shown("Cases", COUNT, Group::cases)
                .shown("Complete", PERCENT, group -> group.complete().estimate())
                .interval(
                        report.heading().confidence(),
                        PERCENT,
                        group -> group.complete().lower(),
                        group -> group.complete().upper())
                .shown("With open queries", COUNT, group -> group.withQueries().events())
                .onPage("Cases beyond the uses", COUNT, group -> group.beyondActivity()
                        .events())
                .onPage(
                        "Returns missing",
                        TEXT,
                        group -> Words.of(
                                group.periods().missing(), group.periods().of()))
                .exhibit(
                        "Cases without an unknown field",
                        "",
                        Figure.intervals(
                                Unit.PERCENT,
                                "Cases without an unknown field, %",
                                report.groups().stream()
                                        .map(group -> Columns.item(
                                                group.level().label("All"), "", group.complete(), group.sentence()))
                                        .toList()),
                        report.groups());
    }

    /** Over all groups together, as they part the cases. */
    private static Exhibit fields(CompletenessReport report) {
        Confidence confidence = report.heading().confidence();
        Map<String, Proportion> sums = new LinkedHashMap<>();
        for (Group group : report.groups()) {
            group.fields()
                    .forEach((name, unknown) ->
                            sums.merge(name, new Proportion(unknown.events(), unknown.of()), Proportion::plus));
        }
        List<Field> fields = sums.entrySet().stream()
                .map(sum -> new Field(
                        Labels.field(sum.getKey()),
                        ProportionEstimate.of(sum.getValue(), IntervalMethod.WILSON, confidence)))
                .toList();
        return new Columns<Field>()
                .shown("Field", TEXT, Field::label)
                .share("Unknown", confidence, Field::unknown)
                .exhibit(
                        "How often each field is unknown",
                        "",
                        Figure.intervals(
                                Unit.PERCENT,
                                "Unknown, % of cases",
                                fields.stream()
                                        .map(field -> Columns.item(field.label(), "", field.unknown(), ""))
                                        .toList()),
                        fields);
    }
}
