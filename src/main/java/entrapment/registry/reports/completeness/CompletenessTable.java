package entrapment.registry.reports.completeness;

import entrapment.registry.exports.Table;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.ProportionEstimate;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * The report of completeness for programs: a row for each measure of a group, then one for each cell, period and centre to
 * look at.
 */
final class CompletenessTable {

    /** @param share null where there is only something to look at */
    private record Row(
            @Nullable String level,
            String measure,
            String name,
            @Nullable Long events,
            @Nullable Long of,
            @Nullable ProportionEstimate share,
            String sentence) {}

    private CompletenessTable() {}

    static Table of(CompletenessReport report) {
        String by = report.heading().by().get(0);
        List<Row> rows = new ArrayList<>();
        report.groups()
                .forEach(group -> rows.addAll(measures(group, report.heading().confidence())));
        boolean byCentre = by.equals(GroupBy.CENTRE.code());
        for (BeyondActivity.NamedCell cell : report.beyondActivity().named()) {
            String uses = cell.uses() == null ? "no uses returned" : Words.uses(cell.uses());
            rows.add(new Row(
                    byCentre ? cell.centre() : cell.period().toString(),
                    "cell",
                    cell.name(),
                    cell.cases(),
                    cell.uses(),
                    null,
                    "%s, %s: %s.".formatted(Words.cases(cell.cases()), uses, cell.reason())));
        }
        for (MissingPeriods.NamedPeriod missing : report.missingPeriods().named()) {
            rows.add(new Row(
                    byCentre ? missing.centre() : missing.period().toString(),
                    "missing-period",
                    missing.centre() + " " + missing.period(),
                    null,
                    null,
                    null,
                    "No return for this period."));
        }
        SilentCentres silent = report.silentCentres();
        for (SilentCentres.Silence silence : silent == null ? List.<SilentCentres.Silence>of() : silent.named()) {
            rows.add(new Row(
                    byCentre ? silence.centre() : null,
                    "silent-centre",
                    silence.centre(),
                    0L,
                    silence.uses(),
                    null,
                    silence.question()));
        }
        return new Columns<Row>()
                .csv(by, Row::level)
                .csv("measure", Row::measure)
                .csv("name", Row::name)
                .csv("events", Row::events)
                .csv("of", Row::of)
                .csv("estimate", figure(ProportionEstimate::estimate))
                .csv("lower", figure(ProportionEstimate::lower))
                .csv("upper", figure(ProportionEstimate::upper))
                .csv("sentence", Row::sentence)
                .table(report.heading(), report.notes(), rows);
    }

    private static Function<Row, @Nullable Object> figure(Function<ProportionEstimate, @Nullable Double> of) {
        return row -> {
            ProportionEstimate share = row.share();
            return share == null ? null : of.apply(share);
        };
    }

    private static List<Row> measures(CompletenessReport.Group group, Confidence confidence) {
        String level = group.level().codes();
        List<Row> rows = new ArrayList<>();
        group.fields()
                .forEach((field, unknown) ->
                        rows.add(row(level, "unknown", field, field + " unknown", unknown, confidence)));
        rows.add(row(level, "complete", "", "complete", group.complete(), confidence));
        rows.add(row(level, "with-queries", "", "with queries", group.withQueries(), confidence));
        rows.add(row(level, "beyond-activity", "", "beyond the activity returned", group.beyondActivity(), confidence));
        CompletenessReport.Periods periods = group.periods();
        rows.add(new Row(
                level,
                "missing-periods",
                "",
                periods.missing(),
                periods.of(),
                null,
                "returns missing: %d of %d periods.".formatted(periods.missing(), periods.of())));
        return rows;
    }

    /** These are counts of all there is, so without one there is nothing more that the data still fit. */
    private static Row row(
            String level, String measure, String name, String what, ProportionEstimate share, Confidence confidence) {
        return new Row(
                level,
                measure,
                name,
                share.events(),
                share.of(),
                share,
                what + ": "
                        + (share.events() == 0 && share.of() > 0
                                ? "0 of %s".formatted(Words.cases(share.of()))
                                : Words.share(share, confidence))
                        + ".");
    }
}
