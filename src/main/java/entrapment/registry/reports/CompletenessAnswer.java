package entrapment.registry.reports;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.NUMBER;
import static entrapment.registry.exports.Column.Kind.PERCENT;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.stats.Confidence;
import entrapment.registry.vocabulary.Labels;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The report of completeness for people. */
final class CompletenessAnswer {

    private CompletenessAnswer() {}

    /** A field with how often it is unknown. */
    private record Field(String name, Occurrence unknown) {}

    static Answer of(CompletenessReport report) {
        ReportHeading heading = report.heading();
        List<Exhibit> exhibits = new ArrayList<>();
        exhibits.add(ExhibitBuilder.of(
                        report.groups(),
                        ExhibitBuilder.levels(heading.by(), CompletenessReport.Group::level),
                        ExhibitBuilder.column("Cases", COUNT, CompletenessReport.Group::cases),
                        ExhibitBuilder.column(
                                "Complete", PERCENT, group -> group.complete().estimate()),
                        ExhibitBuilder.interval(
                                heading, PERCENT, group -> group.complete().lower(), group -> group.complete()
                                        .upper()),
                        ExhibitBuilder.column("With open queries", COUNT, group -> group.withQueries()
                                .events()),
                        ExhibitBuilder.onPage("Cases beyond the uses", COUNT, group -> group.beyondActivity()
                                .events()),
                        ExhibitBuilder.onPage(
                                "Returns missing",
                                TEXT,
                                group -> Words.of(
                                        group.periods().missing(),
                                        group.periods().of())))
                .exhibit("Cases without an unknown field", "", complete(report)));
        exhibits.add(fields(report));
        if (!report.missingPeriods().named().isEmpty()) {
            exhibits.add(ExhibitBuilder.of(
                            report.missingPeriods().named(),
                            List.of(ExhibitBuilder.<CompletenessReport.NamedPeriod>column(
                                    "Centre", TEXT, missing -> Labels.level("centre", missing.centre()))),
                            ExhibitBuilder.column(
                                    "Period", TEXT, missing -> missing.period().toString()))
                    .exhibit("Returns that are missing", "", null));
        }
        if (!report.beyondActivity().named().isEmpty()) {
            exhibits.add(ExhibitBuilder.of(
                            report.beyondActivity().named(),
                            List.of(ExhibitBuilder.<CompletenessReport.NamedCell>column(
                                    "Centre", TEXT, cell -> Labels.level("centre", cell.centre()))),
                            ExhibitBuilder.column(
                                    "Period", TEXT, cell -> cell.period().toString()),
                            ExhibitBuilder.column(
                                    "Device", TEXT, cell -> Labels.level("deviceClass", cell.deviceClass())),
                            ExhibitBuilder.column("Cases", COUNT, CompletenessReport.NamedCell::cases),
                            ExhibitBuilder.column("Uses", COUNT, CompletenessReport.NamedCell::uses),
                            ExhibitBuilder.column("Why it is left out", TEXT, cell -> cell.reason()
                                    .toString()))
                    .exhibit("Cases and returns that contradict each other", "", null));
        }
        CompletenessReport.SilentCentres silent = report.silentCentres();
        if (silent != null && !silent.named().isEmpty()) {
            exhibits.add(ExhibitBuilder.of(
                            silent.named(),
                            List.of(ExhibitBuilder.<CompletenessReport.Silence>column(
                                    "Centre", TEXT, silence -> Labels.level("centre", silence.centre()))),
                            ExhibitBuilder.column("Uses", COUNT, CompletenessReport.Silence::uses),
                            ExhibitBuilder.column("Entrapments expected", NUMBER, CompletenessReport.Silence::expected),
                            ExhibitBuilder.column("To ask", TEXT, CompletenessReport.Silence::question))
                    .exhibit("Centres without a case where some would be expected", "", null));
        }
        return heading.answer(sentence(report), exhibits, report.notes());
    }

    private static String sentence(CompletenessReport report) {
        long cases = 0;
        long complete = 0;
        for (CompletenessReport.Group group : report.groups()) {
            cases += group.cases();
            complete += group.complete().events();
        }
        Confidence confidence = new Confidence(report.heading().confidence());
        long missing = report.missingPeriods().periods();
        return cases == 0
                ? "No case is recorded here."
                : "Without an unknown field: %s. %s missing; %s beyond the uses reported."
                        .formatted(
                                Occurrence.of(complete, cases, confidence).words(confidence),
                                missing == 1 ? "1 return is" : NumberText.count(missing) + " returns are",
                                Words.cases(report.beyondActivity().cases()));
    }

    private static Figure complete(CompletenessReport report) {
        return new Figure(
                Figure.Kind.INTERVALS,
                Unit.PERCENT,
                "Cases without an unknown field, %",
                "",
                report.groups().stream()
                        .map(group -> item(Labels.group(group.level(), "All"), group.complete(), group.sentence()))
                        .toList(),
                List.of(),
                List.of());
    }

    /** Over all groups together, as they part the cases. */
    private static Exhibit fields(CompletenessReport report) {
        ReportHeading heading = report.heading();
        Confidence confidence = new Confidence(heading.confidence());
        Map<String, long[]> sums = new LinkedHashMap<>();
        for (CompletenessReport.Group group : report.groups()) {
            group.fields().forEach((name, unknown) -> {
                long[] sum = sums.computeIfAbsent(name, key -> new long[2]);
                sum[0] += unknown.events();
                sum[1] += unknown.of();
            });
        }
        List<Field> fields = sums.entrySet().stream()
                .map(sum -> new Field(sum.getKey(), Occurrence.of(sum.getValue()[0], sum.getValue()[1], confidence)))
                .toList();
        return ExhibitBuilder.of(
                        fields,
                        List.of(ExhibitBuilder.<Field>column("Field", TEXT, field -> Labels.field(field.name()))),
                        ExhibitBuilder.column(
                                "Unknown", COUNT, field -> field.unknown().events()),
                        ExhibitBuilder.column(
                                "Of", COUNT, field -> field.unknown().of()),
                        ExhibitBuilder.column(
                                "Share", PERCENT, field -> field.unknown().estimate()),
                        ExhibitBuilder.interval(
                                heading, PERCENT, field -> field.unknown().lower(), field -> field.unknown()
                                        .upper()))
                .exhibit(
                        "How often each field is unknown",
                        "",
                        new Figure(
                                Figure.Kind.INTERVALS,
                                Unit.PERCENT,
                                "Unknown, % of cases",
                                "",
                                fields.stream()
                                        .map(field -> item(Labels.field(field.name()), field.unknown(), ""))
                                        .toList(),
                                List.of(),
                                List.of()));
    }

    private static Figure.Item item(String label, Occurrence occurrence, String sentence) {
        return new Figure.Item(
                label,
                "",
                occurrence.events(),
                occurrence.of(),
                occurrence.estimate(),
                occurrence.lower(),
                occurrence.upper(),
                Figure.Mark.NONE,
                sentence);
    }
}
