package entrapment.registry.reports.retrieval;

import static entrapment.registry.reports.question.ReportSamples.CUT;
import static entrapment.registry.reports.question.ReportSamples.SCOPE;
import static entrapment.registry.reports.question.ReportSamples.STEWARD;
import static entrapment.registry.reports.question.ReportSamples.csv;
import static entrapment.registry.reports.question.ReportSamples.expected;
import static entrapment.registry.reports.question.ReportSamples.json;
import static entrapment.registry.reports.question.ReportSamples.names;
import static entrapment.registry.reports.question.ReportSamples.notes;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.ApprovedFile;
import entrapment.registry.cases.RetrievalSplit;
import entrapment.registry.cases.RetrievalTally;
import entrapment.registry.exports.CsvWriter;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.reports.retrieval.RetrievalReport.Success;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Technique;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * Counts for comparison: the twelve cases of attempts-mixed in reference-values.json, whose standard error is that of R
 * survey::svyratio. The interval of later attempts, which is not among its fields, is the same formula in Python 3.
 */
class RetrievalReportTests {

    private static final RetrievalQuery ALL = new RetrievalQuery(SCOPE, List.of());

    private static final double REFERENCE = 1e-9;

    /** Twelve cases with up to four attempts: tried, released, first tried, first released, cases. */
    private static List<RetrievalTally> mixed(@Nullable String technique) {
        return List.of(
                tally(technique, 1, 1, 1, 1, 5),
                tally(technique, 2, 0, 1, 0, 1),
                tally(technique, 2, 1, 1, 0, 3),
                tally(technique, 3, 1, 1, 0, 2),
                tally(technique, 4, 0, 1, 0, 1));
    }

    @Test
    void givesTheSharesOfTheReferenceRow() {
        RetrievalReport report = RetrievalReport.of(ALL, CUT, mixed(null));

        assertThat(report.groups()).isEmpty();
        assertThat(report.overall()).singleElement().satisfies(any -> {
            assertThat(any.level()).isEqualTo(Levels.ALL);
            assertShare(any.all(), 10, 23, 0.250456907735014, 0.639097318886288);
            assertShare(any.first(), 5, 12, 0.193260313658757, 0.68048868745045);
            assertShare(any.later(), 5, 11, 0.1919716997273913, 0.7450921900357141);
            assertShare(any.cases(), 10, 12, 0.551969137747027, 0.953034857816146);
            assertThat(any.sentence())
                    .isEqualTo("As the first attempt 5 of 12 released (41.7 %, 95 % CI 19.3 to 68.0); after another had"
                            + " failed 5 of 11 released; in all it released the device in 10 of 12 cases in which it was"
                            + " tried.");
        });
    }

    private static void assertShare(ProportionEstimate share, long released, long of, double lower, double upper) {
        assertThat(share.events()).isEqualTo(released);
        assertThat(share.of()).isEqualTo(of);
        assertThat(share.estimate()).isCloseTo((double) released / of, within(1e-15));
        assertThat(share.lower()).isCloseTo(lower, within(REFERENCE));
        assertThat(share.upper()).isCloseTo(upper, within(REFERENCE));
    }

    @Test
    void countsATechniqueInItsOwnGroup() {
        List<RetrievalTally> tallies = new ArrayList<>(mixed("snare"));
        tallies.add(tally("parallel-balloon", 1, 1, 0, 0, 4));
        tallies.addAll(mixed(null));

        RetrievalReport report = RetrievalReport.of(ALL, CUT, tallies);

        assertThat(report.overall())
                .singleElement()
                .satisfies(any -> assertThat(any.all().of()).isEqualTo(23));
        assertThat(report.groups())
                .extracting(group -> group.level().byName() + " " + group.all().events() + "/"
                        + group.all().of())
                .containsExactly("{technique=parallel-balloon} 4/4", "{technique=snare} 10/23");
    }

    @Test
    void listsTechniquesInTheOrderOfTheVocabularyAndNoneThatWasNotTried() {
        List<String> codes = Stream.of(Technique.values()).map(Code::code).toList();
        List<RetrievalTally> tallies = new ArrayList<>();
        codes.forEach(code -> tallies.add(tally(code, 1, 0, 1, 0, 3)));
        Collections.reverse(tallies);

        assertThat(RetrievalReport.of(ALL, CUT, tallies).groups())
                .extracting(group -> group.level().codes())
                .containsExactlyElementsOf(codes);
        assertThat(RetrievalReport.of(ALL, CUT, tallies.subList(0, 2)).groups()).hasSize(2);
    }

    @Test
    void saysWhatWasNeverTriedFirstOrLater() {
        assertThat(sentence(tally("snare", 1, 1, 1, 1, 6)))
                .isEqualTo(
                        "As the first attempt 6 of 6 released (100 %, 95 % CI 61.0 to 100); after another had failed never"
                                + " tried; in all it released the device in 6 of 6 cases in which it was tried.");
        assertThat(sentence(tally("snare", 1, 0, 0, 0, 1)))
                .isEqualTo(
                        "As the first attempt never tried; after another had failed 0 of 1 released; in all it released"
                                + " the device in 0 of 1 case in which it was tried.");
        assertThat(sentence(tally("snare", 1, 0, 1, 0, 20)))
                .startsWith(
                        "As the first attempt 0 of 20 released (0 %, 95 % CI 0 to 16.1); after another had failed never"
                                + " tried;");
    }

    @Test
    void givesNoShareOfWhatWasNeverTried() {
        Success later = success(tally("snare", 2, 1, 0, 0, 3));

        assertThat(later.first()).isEqualTo(new ProportionEstimate(0, 0, null, null, null));
        assertThat(later.later().of()).isEqualTo(6);
        assertThat(later.cases().of()).isEqualTo(3);
    }

    @Test
    void neverNarrowsTheIntervalBelowThatOfIndependentAttempts() {
        Success alike = success(tally("snare", 2, 1, 1, 0, 10));

        assertThat(alike.all().events()).isEqualTo(10);
        assertThat(alike.all().of()).isEqualTo(20);
        // Wilson's interval of 10 of 20, R: prop.test(10, 20, correct = FALSE)
        assertThat(alike.all().lower()).isCloseTo(0.299298008198212, within(1e-9));
        assertThat(alike.all().upper()).isCloseTo(0.700701991801788, within(1e-9));
    }

    @Test
    void splitsEachTechniqueByTheLevelsAskedFor() {
        RetrievalQuery query =
                new RetrievalQuery(SCOPE, List.of(RetrievalSplit.TIMI_FLOW, RetrievalSplit.GUIDE_FRENCH));

        RetrievalReport report = RetrievalReport.of(
                query,
                CUT,
                List.of(
                        new RetrievalTally(List.of("0", "6"), "snare", 1, 1, 1, 1, 2),
                        new RetrievalTally(List.of("0", "6"), "snare", 2, 0, 0, 0, 1),
                        new RetrievalTally(List.of("0", "7"), "snare", 1, 0, 1, 0, 4),
                        new RetrievalTally(List.of("3", "6"), "steady-traction", 1, 1, 1, 1, 8),
                        new RetrievalTally(List.of("0", "6"), null, 1, 1, 1, 1, 16)));

        assertThat(report.heading().by()).containsExactly("timiFlow", "guideFrench");
        assertThat(report.groups())
                .extracting(group -> group.level().byName() + " " + group.all().events() + "/"
                        + group.all().of())
                .containsExactly(
                        "{technique=steady-traction, timiFlow=3, guideFrench=6} 8/8",
                        "{technique=snare, timiFlow=0, guideFrench=6} 2/4",
                        "{technique=snare, timiFlow=0, guideFrench=7} 0/4");
        assertThat(report.overall())
                .extracting(success -> success.level().byName())
                .containsExactly(
                        Map.of("timiFlow", Level.of("timiFlow", "0"), "guideFrench", Level.of("guideFrench", "6")));
    }

    @Test
    void usesTheLevelOfConfidenceThatWasAskedFor() {
        RetrievalQuery query =
                new RetrievalQuery(new ReportScope(STEWARD, Selection.ALL, new Confidence(0.9), null), List.of());

        assertThat(RetrievalReport.of(query, CUT, mixed("snare"))
                        .groups()
                        .get(0)
                        .sentence())
                .startsWith("As the first attempt 5 of 12 released (41.7 %, 90 % CI ");
    }

    @Test
    void warnsOfComparingFirstWithLaterAndSaysWhatCountsAsReleased() {
        String harder =
                "A technique that was tried later was tried in harder cases and because others had failed, so first"
                        + " and later success do not compare, and the techniques are not ranked.";
        String released =
                "released counts attempts whose result is released; a device left, stented over or deployed in"
                        + " place is not released.";

        assertThat(notes(RetrievalReport.of(ALL, CUT, mixed(null)))).containsExactly(harder, released);
        assertThat(notes(RetrievalReport.of(ALL, CUT, List.of())))
                .containsExactly(harder, released, "Nothing in the registry matches these filters.");
    }

    @Test
    void answersNothingForAnEmptyRegistry() {
        RetrievalReport report = RetrievalReport.of(ALL, CUT, List.of());

        assertThat(report.overall()).isEmpty();
        assertThat(report.groups()).isEmpty();
        assertThat(CsvWriter.write(report.table(), false).lines()).hasSize(1);
        assertThat(report.cautions()).isEqualTo(ReportHeading.CAUTIONS);
    }

    @Test
    void hasTheFieldsOfTheContract() {
        List<RetrievalTally> tallies = new ArrayList<>(mixed("snare"));
        tallies.addAll(mixed(null));

        JsonNode report = json(RetrievalReport.of(ALL, CUT, tallies));

        assertThat(names(report))
                .containsExactly(
                        "report",
                        "question",
                        "dataCut",
                        "filters",
                        "by",
                        "confidence",
                        "method",
                        "overall",
                        "groups",
                        "notes",
                        "cautions");
        assertThat(report.at("/report").stringValue()).isEqualTo("retrieval");
        assertThat(report.at("/method/code").stringValue()).isEqualTo(Calculation.ATTEMPTS.code());
        assertThat(names(report.at("/groups/0")))
                .containsExactly("level", "all", "first", "later", "cases", "sentence");
        for (String part : List.of("all", "first", "later", "cases")) {
            assertThat(names(report.at("/groups/0/" + part)))
                    .containsExactly("released", "of", "estimate", "lower", "upper");
        }
        assertThat(report.at("/groups/0/level").toString()).isEqualTo("{\"technique\":\"snare\"}");
    }

    @Test
    void writesTheApprovedCsv() {
        List<RetrievalTally> tallies = new ArrayList<>();
        for (RetrievalTally each : mixed(null)) {
            tallies.add(at("7", each));
        }
        for (RetrievalTally each : mixed("snare")) {
            tallies.add(at("7", each));
        }
        tallies.add(at("unknown", tally(null, 1, 0, 1, 0, 20)));
        tallies.add(at("unknown", tally("steady-traction", 1, 0, 1, 0, 20)));
        tallies.add(at("7", tally("parallel-balloon", 1, 1, 0, 0, 1)));

        ApprovedFile.assertHolds(
                expected("retrieval.csv"),
                csv(RetrievalReport.of(new RetrievalQuery(SCOPE, List.of(RetrievalSplit.GUIDE_FRENCH)), CUT, tallies)));
    }

    private static RetrievalTally at(String level, RetrievalTally tally) {
        return new RetrievalTally(
                List.of(level),
                tally.technique(),
                tally.tried(),
                tally.released(),
                tally.firstTried(),
                tally.firstReleased(),
                tally.cases());
    }

    private static String sentence(RetrievalTally tally) {
        return success(tally).sentence();
    }

    private static Success success(RetrievalTally tally) {
        return RetrievalReport.of(ALL, CUT, List.of(tally)).groups().get(0);
    }

    private static RetrievalTally tally(
            @Nullable String technique, long tried, long released, long firstTried, long firstReleased, long cases) {
        return new RetrievalTally(List.of(), technique, tried, released, firstTried, firstReleased, cases);
    }
}
