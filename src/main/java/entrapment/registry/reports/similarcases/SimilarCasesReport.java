package entrapment.registry.reports.similarcases;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.cases.LikeCases;
import entrapment.registry.cases.SequenceTally;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.reports.harm.HarmReport;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.question.Released;
import entrapment.registry.reports.question.Report;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.Words;
import entrapment.registry.reports.retrieval.RetrievalReport;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.stats.SmallCounts;
import entrapment.registry.vocabulary.Harm;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.annotation.JsonSerialize;

/**
 * What was done, and with what result, in cases like this? A look back at recorded cases, never a recommendation.
 *
 * @param cases how many cases are like this one
 * @param described how many of them the figures below are about; fewer where some would describe a single case of another
 *     centre
 * @param groups the techniques that were tried, in the order of their list; never a ranking
 * @param sequences what was tried in which order, most frequent first
 * @param otherSequences cases of sequences that are not told apart
 * @param harm by WHO degree
 * @param loosen with no like case, the filter to take off first; otherwise null
 */
public record SimilarCasesReport(
        @JsonUnwrapped ReportHeading heading,
        long cases,
        long described,
        List<Tried> groups,
        List<Sequence> sequences,
        long otherSequences,
        MinutesToRelease minutesToRelease,
        Map<Harm, ProportionEstimate> harm,
        @Nullable Loosening loosen,
        List<Note> notes)
        implements Report {

    /**
     * The success of one technique.
     *
     * @param first cases that began with it
     * @param any cases in which it was tried at any time
     */
    public record Tried(
            Levels level,
            @JsonSerialize(using = Released.class) ProportionEstimate first,
            @JsonSerialize(using = Released.class) ProportionEstimate any,
            String sentence) {}

    /**
     * Cases that went the same way.
     *
     * @param result of the last attempt
     * @param of how many cases are described
     */
    public record Sequence(List<Level> techniques, Level result, long cases, long of, String sentence) {

        /** With codes, for programs. */
        String path() {
            return joined(Level::code);
        }

        /** With labels, for people. */
        String steps() {
            return joined(Level::label);
        }

        private String joined(Function<Level, String> word) {
            return techniques.stream().map(word).collect(Collectors.joining(ARROW));
        }
    }

    private static final String ARROW = " → ";

    /** A filter, and how many like cases there are without it. */
    record Loosening(String filter, long cases) {}

    private static final Note.Wording NONE = Note.Wording.of("none", "No case in the registry is like this.");
    private static final Note.Wording LOOSEN = Note.Wording.of("loosen", "Loosen %s first: without it %s like this.");
    private static final Note.Wording NO_SINGLE_FILTER = Note.Wording.of(
            "no-single-filter", "No single filter is to blame: taking off any one of them brings no case either.");
    private static final Note.Wording OTHERS_LEFT_OUT = Note.Wording.of(
            "others-left-out",
            "%s of other centres left out of every figure but the number of like cases: so few would describe a single"
                    + " case.");
    private static final Note.Wording OTHER_SEQUENCES = Note.Wording.of(
            "other-sequences",
            "Other sequences, %s: those seen in fewer than %s cases of other centres, if other centres are"
                    + " masked, and those seen once beyond the first %s.");
    private static final Note.Wording CHOSEN_BY_THEIR_END = Note.Wording.of(
            "chosen-by-their-end",
            "A filter says how the case ended. What was tried, and with what result, is then seen among cases chosen by their"
                    + " end, so no success can be read from them.");

    /** With fewer cases of other centres than this, the way they went is not told apart. */
    static final int FEWEST_OF_OTHERS = 3;

    /** Whether some like cases are of other centres, but so few that their figures would describe a single case. */
    static boolean describesOwnAlone(LikeCases like) {
        return SmallCounts.isSmall(like.others(), FEWEST_OF_OTHERS);
    }

    static SimilarCasesReport of(SimilarCasesQuery query, DataCut cut, SimilarCasesQuestion.Evidence evidence) {
        Confidence confidence = query.scope().confidence();
        LikeCases like = evidence.like();
        long described = describesOwnAlone(like) ? like.own() : like.all();
        List<Sequence> sequences = sequences(evidence.sequences(), described);
        long other = described - sequences.stream().mapToLong(Sequence::cases).sum();
        Loosening loosen = like.all() > 0 ? null : loosen(evidence.without());
        long released = evidence.retrieval().stream()
                .filter(tally -> tally.technique() == null)
                .mapToLong(tally -> tally.released() * tally.cases())
                .sum();
        return new SimilarCasesReport(
                new ReportHeading(
                        "similar-cases",
                        "What was done, and with what result, in cases like this?",
                        cut,
                        query.filters(),
                        List.of(),
                        confidence,
                        IntervalMethod.WILSON.method()),
                like.all(),
                described,
                RetrievalReport.byTechnique(evidence.retrieval(), List.of(), confidence).stream()
                        .map(success ->
                                new Tried(success.level(), success.first(), success.cases(), success.sentence()))
                        .toList(),
                sequences,
                other,
                MinutesToRelease.of(evidence.minutes(), released),
                HarmReport.degrees(evidence.outcomes(), confidence),
                loosen,
                notes(query, like, other, loosen));
    }

    /** A sequence of which others have too few cases shows the own ones alone. */
    private static List<Sequence> sequences(List<SequenceTally> tallies, long described) {
        List<Sequence> seen = new ArrayList<>();
        for (SequenceTally tally : tallies) {
            long cases = tally.own() + (SmallCounts.isSmall(tally.others(), FEWEST_OF_OTHERS) ? 0 : tally.others());
            if (cases > 0) {
                List<Level> techniques = tally.techniques().stream()
                        .map(technique -> Level.of("technique", technique))
                        .toList();
                seen.add(new Sequence(
                        techniques,
                        Level.of("result", tally.result()),
                        cases,
                        described,
                        "%s: %s, %s of %s."
                                .formatted(
                                        String.join(ARROW, tally.techniques()),
                                        tally.result(),
                                        NumberText.count(cases),
                                        Words.cases(described))));
            }
        }
        seen.sort(Comparator.comparingLong(Sequence::cases)
                .reversed()
                .thenComparing(Sequence::path)
                .thenComparing(sequence -> sequence.result().code()));
        long once = seen.stream().filter(sequence -> sequence.cases() == 1).count();
        long cut = Math.max(0, once - SequenceTally.MOST_SEEN_ONCE);
        return List.copyOf(seen.subList(0, (int) (seen.size() - cut)));
    }

    /** The filter whose removal brings most cases, the first of them if several do; none if no single one helps. */
    private static @Nullable Loosening loosen(List<Loosening> without) {
        long most = without.stream().mapToLong(Loosening::cases).max().orElse(0);
        return without.stream()
                .filter(loosening -> most > 0 && loosening.cases() == most)
                .findFirst()
                .orElse(null);
    }

    private static List<Note> notes(SimilarCasesQuery query, LikeCases like, long other, @Nullable Loosening loosen) {
        List<Note> notes = new ArrayList<>();
        if (like.all() == 0) {
            notes.add(Note.of(NONE));
            if (loosen != null) {
                notes.add(Note.of(
                        LOOSEN, loosen.filter(), Words.cases(loosen.cases()) + (loosen.cases() == 1 ? " is" : " are")));
            } else if (!query.loosenable().isEmpty()) {
                notes.add(Note.of(NO_SINGLE_FILTER));
            }
        }
        notes.addAll(RetrievalReport.NOTES);
        if (describesOwnAlone(like)) {
            notes.add(Note.of(OTHERS_LEFT_OUT, Words.cases(like.others())));
        }
        if (other > 0) {
            notes.add(Note.of(OTHER_SEQUENCES, Words.cases(other), FEWEST_OF_OTHERS, SequenceTally.MOST_SEEN_ONCE));
        }
        if (query.like().saysHowItEnded()) {
            notes.add(Note.of(CHOSEN_BY_THEIR_END));
        }
        return List.copyOf(notes);
    }

    @Override
    public Answer answer() {
        return SimilarCasesAnswer.of(this);
    }

    @Override
    public Table table() {
        return SimilarCasesTable.of(this);
    }
}
