package entrapment.registry.reports.similarcases;

import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.ProportionEstimate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The report of similar cases for programs: techniques by denominator, then sequences, minutes and degrees of harm. */
final class SimilarCasesTable {

    private record Row(
            String part,
            String name,
            String counted,
            ProportionEstimate share,
            @Nullable Double minutes,
            String sentence) {

        /** Counts without an estimate. */
        static Row counts(String part, String name, String counted, long cases, long of, String sentence) {
            return new Row(part, name, counted, new ProportionEstimate(cases, of, null, null, null), null, sentence);
        }
    }

    private SimilarCasesTable() {}

    static Table of(SimilarCasesReport report) {
        List<Row> rows = new ArrayList<>();
        for (SimilarCasesReport.Tried tried : report.groups()) {
            String technique = tried.level().codes();
            rows.add(new Row("technique", technique, "released-first", tried.first(), null, tried.sentence()));
            rows.add(new Row("technique", technique, "released-any", tried.any(), null, tried.sentence()));
        }
        for (SimilarCasesReport.Sequence sequence : report.sequences()) {
            rows.add(Row.counts(
                    "sequence",
                    sequence.path(),
                    sequence.result().code(),
                    sequence.cases(),
                    sequence.of(),
                    sequence.sentence()));
        }
        if (report.otherSequences() > 0) {
            rows.add(Row.counts(
                    "sequence",
                    "other-sequences",
                    "any",
                    report.otherSequences(),
                    report.described(),
                    "Other sequences: %s of %s."
                            .formatted(NumberText.count(report.otherSequences()), Words.cases(report.described()))));
        }
        MinutesToRelease minutes = report.minutesToRelease();
        rows.add(minutes("lower-quartile", minutes, minutes.lowerQuartile()));
        rows.add(minutes("median", minutes, minutes.median()));
        rows.add(minutes("upper-quartile", minutes, minutes.upperQuartile()));
        report.harm()
                .forEach((degree, share) -> rows.add(new Row(
                        "harm",
                        degree.code(),
                        "cases",
                        share,
                        null,
                        "harm " + degree.code() + ": "
                                + Words.share(share, report.heading().confidence()) + ".")));
        return new Columns<Row>()
                .csv("part", Row::part)
                .csv("name", Row::name)
                .csv("counted", Row::counted)
                .csv("events", row -> row.share().events())
                .csv("of", row -> row.share().of())
                .csv("estimate", row -> row.share().estimate())
                .csv("lower", row -> row.share().lower())
                .csv("upper", row -> row.share().upper())
                .csv("minutes", Row::minutes)
                .csv("sentence", Row::sentence)
                .table(report.heading(), report.notes(), rows);
    }

    private static Row minutes(String counted, MinutesToRelease minutes, @Nullable Double value) {
        return new Row(
                "minutes",
                "entrapment-to-release",
                counted,
                new ProportionEstimate(minutes.cases(), minutes.of(), null, null, null),
                value,
                minutes.sentence());
    }
}
