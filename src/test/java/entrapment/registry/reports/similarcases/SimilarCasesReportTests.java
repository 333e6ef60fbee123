package entrapment.registry.reports.similarcases;

import static entrapment.registry.reports.question.ReportSamples.notes;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.ApprovedFile;
import entrapment.registry.cases.LikeCases;
import entrapment.registry.cases.OutcomeTally;
import entrapment.registry.cases.RetrievalTally;
import entrapment.registry.cases.SequenceTally;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.ReportSamples;
import entrapment.registry.reports.retrieval.RetrievalReport;
import entrapment.registry.reports.similarcases.SimilarCasesQuestion.Evidence;
import entrapment.registry.reports.similarcases.SimilarCasesReport.Loosening;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Harm;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Quartiles: R 4.2.2, {@code quantile(x, c(.25, .5, .75))}. Limits: {@code prop.test(x, n, correct = FALSE)}. */
class SimilarCasesReportTests {

    /** Nothing is told of what was tried in these cases. */
    private static Evidence nothing(LikeCases like, Loosening... without) {
        return new Evidence(like, List.of(), List.of(), new TreeMap<>(), List.of(), List.of(without));
    }

    private static final List<RetrievalTally> RETRIEVAL = List.of(
            new RetrievalTally(List.of(), "steady-traction", 1, 0, 1, 0, 4),
            new RetrievalTally(List.of(), "snare", 1, 1, 0, 0, 2),
            new RetrievalTally(List.of(), "snare", 1, 0, 0, 0, 1),
            new RetrievalTally(List.of(), "parallel-balloon", 1, 1, 0, 0, 1),
            new RetrievalTally(List.of(), null, 2, 1, 1, 0, 3),
            new RetrievalTally(List.of(), null, 2, 0, 1, 0, 1));

    private static final List<OutcomeTally> OUTCOMES = ReportSamples.outcomes(
            "north rotational-burr harm none 3",
            "north rotational-burr harm severe 1",
            "north rotational-burr release intact 3",
            "north rotational-burr release none 1");

    private static SimilarCasesQuery query(Map<Factor, List<String>> levels, Map<String, List<String>> leaves) {
        return new SimilarCasesQuery(ReportSamples.SCOPE.where(levels), leaves);
    }

    private static SequenceTally sequence(String path, String result, long own, long others) {
        return new SequenceTally(List.of(path.split(" ", -1)), result, own, others);
    }

    private static SimilarCasesReport report(LikeCases like, List<SequenceTally> sequences) {
        Evidence evidence = new Evidence(like, List.of(), sequences, new TreeMap<>(), List.of(), List.of());
        return SimilarCasesReport.of(query(Map.of(), Map.of()), ReportSamples.CUT, evidence);
    }

    private static SimilarCasesReport some() {
        return SimilarCasesReport.of(
                query(Map.of(Factor.DEVICE_CLASS, List.of("rotational-burr")), Map.of("phase", List.of("final-pass"))),
                ReportSamples.CUT,
                new Evidence(
                        new LikeCases(4, 0),
                        RETRIEVAL,
                        List.of(
                                sequence("steady-traction snare", "released", 2, 0),
                                sequence("steady-traction snare", "no-change", 1, 0),
                                sequence("steady-traction parallel-balloon", "released", 1, 0)),
                        new TreeMap<>(Map.of(12L, 1L, 35L, 1L)),
                        OUTCOMES,
                        List.of()));
    }

    @Test
    void keepsTheTechniquesInTheOrderOfTheirListWhateverTheirSuccess() {
        SimilarCasesReport report = some();

        assertThat(report.groups())
                .extracting(tried -> tried.level().codes())
                .containsExactly("steady-traction", "parallel-balloon", "snare");
        ProportionEstimate snare = report.groups().get(2).any();
        assertThat(List.of(snare.events(), snare.of())).containsExactly(2L, 3L);
        assertThat(report.groups().get(2).first().of()).isZero();
        assertThat(report.notes()).containsAll(RetrievalReport.NOTES);
        assertThat(report.cautions()).isEqualTo(ReportHeading.CAUTIONS);
    }

    @Test
    void listsSequencesMostFrequentFirstThenByName() {
        assertThat(some().sequences())
                .extracting(SimilarCasesReport.Sequence::sentence)
                .containsExactly(
                        "steady-traction → snare: released, 2 of 4 cases.",
                        "steady-traction → parallel-balloon: released, 1 of 4 cases.",
                        "steady-traction → snare: no-change, 1 of 4 cases.");
        assertThat(some().otherSequences()).isZero();
    }

    @Test
    void poolsWhatFewerThanThreeCasesOfOtherCentresWentThrough() {
        SimilarCasesReport report = report(
                new LikeCases(2, 7),
                List.of(
                        sequence("snare", "released", 0, 4),
                        sequence("lumen-wire", "no-change", 1, 2),
                        sequence("surgery", "released", 0, 1),
                        sequence("vasodilator", "worsened", 1, 0)));

        assertThat(report.sequences())
                .extracting(SimilarCasesReport.Sequence::path, SimilarCasesReport.Sequence::cases)
                .containsExactly(tuple("snare", 4L), tuple("lumen-wire", 1L), tuple("vasodilator", 1L));
        assertThat(report.otherSequences()).isEqualTo(3);
        assertThat(notes(report)).anyMatch(note -> note.startsWith("Other sequences, 3 cases"));
    }

    @Test
    void describesTheOwnCasesAloneWhereOthersAreOneOrTwo() {
        SimilarCasesReport report = report(new LikeCases(5, 2), List.of(sequence("snare", "released", 5, 0)));

        assertThat(report.cases()).isEqualTo(7);
        assertThat(report.described()).isEqualTo(5);
        assertThat(report.otherSequences()).isZero();
        assertThat(notes(report)).anyMatch(note -> note.startsWith("2 cases of other centres left out"));
        assertThat(report(new LikeCases(5, 3), List.of()).described()).isEqualTo(8);
    }

    @Test
    void tellsFiftySequencesSeenOnceApartAndPoolsTheRest() {
        List<SequenceTally> sequences = new ArrayList<>(List.of(sequence("surgery", "released", 2, 0)));
        IntStream.range(0, 60)
                .mapToObj(number -> sequence("snare" + " snare".repeat(number), "no-change", 1, 0))
                .forEach(sequences::add);

        SimilarCasesReport report = report(new LikeCases(62, 0), sequences);

        assertThat(report.sequences()).hasSize(51);
        assertThat(report.otherSequences()).isEqualTo(10);
    }

    @Test
    void namesTheFilterWhoseRemovalBringsMostCases() {
        SimilarCasesReport report = SimilarCasesReport.of(
                query(Map.of(Factor.VESSEL, List.of("graft")), Map.of("phase", List.of("crossing"))),
                ReportSamples.CUT,
                nothing(
                        new LikeCases(0, 0),
                        new Loosening("vessel", 3),
                        new Loosening("phase", 9),
                        new Loosening("access", 9)));

        assertThat(report.loosen()).isEqualTo(new Loosening("phase", 9));
        assertThat(notes(report))
                .contains(
                        "No case in the registry is like this.",
                        "Loosen phase first: without it 9 cases are like this.");
        assertThat(report.groups()).isEmpty();
        assertThat(report.harm().get(Harm.DEATH)).isEqualTo(new ProportionEstimate(0, 0, null, null, null));
        assertThat(report.minutesToRelease().median()).isNull();
    }

    @Test
    void saysThatNoSingleFilterIsToBlame() {
        SimilarCasesReport report = SimilarCasesReport.of(
                query(Map.of(Factor.VESSEL, List.of("graft")), Map.of()),
                ReportSamples.CUT,
                nothing(new LikeCases(0, 0), new Loosening("vessel", 0)));

        assertThat(report.loosen()).isNull();
        assertThat(notes(report)).anyMatch(note -> note.startsWith("No single filter is to blame"));
    }

    @Test
    void interpolatesQuartilesAsMostProgramsDo() {
        MinutesToRelease six = MinutesToRelease.of(new TreeMap<>(Map.of(3L, 1L, 8L, 1L, 21L, 2L, 34L, 1L, 90L, 1L)), 7);
        assertThat(six.lowerQuartile()).isCloseTo(11.25, within(1e-12));
        assertThat(six.median()).isEqualTo(21);
        assertThat(six.upperQuartile()).isCloseTo(30.75, within(1e-12));
        assertThat(six.sentence())
                .isEqualTo(
                        "Release took a median of 21 minutes (quartiles 11.25 and 30.75), in 6 of 7 released cases that"
                                + " state it.");

        MinutesToRelease four = MinutesToRelease.of(new TreeMap<>(Map.of(5L, 1L, 9L, 1L, 14L, 1L, 40L, 1L)), 4);
        assertThat(List.of(four.lowerQuartile(), four.median(), four.upperQuartile()))
                .containsExactly(8.0, 11.5, 20.5);
    }

    @Test
    void givesTheMinutesOfTheOneCaseThatStatesThem() {
        MinutesToRelease one = MinutesToRelease.of(new TreeMap<>(Map.of(7L, 1L)), 1);

        assertThat(List.of(one.lowerQuartile(), one.median(), one.upperQuartile()))
                .containsExactly(7.0, 7.0, 7.0);
        assertThat(MinutesToRelease.of(new TreeMap<>(), 3).sentence())
                .isEqualTo("No released case states how many minutes it took.");
    }

    @Test
    void warnsWhereAFilterSaysHowTheCaseEnded() {
        SimilarCasesReport report = SimilarCasesReport.of(
                query(Map.of(), Map.of("release", List.of("intact"))), ReportSamples.CUT, nothing(new LikeCases(4, 0)));

        assertThat(notes(report)).anyMatch(note -> note.startsWith("A filter says how the case ended."));
        assertThat(notes(some())).noneMatch(note -> note.startsWith("A filter says how the case ended."));
    }

    @Test
    void writesTechniquesSequencesMinutesAndHarmAsRows() {
        String csv = ReportSamples.csv(some());

        ApprovedFile.assertHolds(ReportSamples.expected("similar-cases.csv"), csv);
    }
}
