package entrapment.registry.reports.retrieval;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.cases.RetrievalSplit;
import entrapment.registry.cases.RetrievalTally;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.reports.question.CommonNote;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.question.Released;
import entrapment.registry.reports.question.Report;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Cluster;
import entrapment.registry.stats.ClusteredProportion;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import entrapment.registry.vocabulary.Technique;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToLongFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.annotation.JsonSerialize;

/**
 * Which way out works, and how well as the first try?
 *
 * @param overall attempts of every technique together, one entry for each level of the splits
 * @param groups one technique each, at each level of the splits; never a ranking
 */
public record RetrievalReport(
        @JsonUnwrapped ReportHeading heading, List<Success> overall, List<Success> groups, List<Note> notes)
        implements Report {

    /**
     * The success of one technique, by what is counted.
     *
     * @param all its attempts; the interval allows for several in one case; every estimate is null where there was none
     * @param first cases that began with it
     * @param later its attempts after another had failed
     * @param cases cases in which it was tried, released by it
     */
    public record Success(
            Levels level,
            @JsonSerialize(using = Released.class) ProportionEstimate all,
            @JsonSerialize(using = Released.class) ProportionEstimate first,
            @JsonSerialize(using = Released.class) ProportionEstimate later,
            @JsonSerialize(using = Released.class) ProportionEstimate cases,
            String sentence) {}

    static final String TECHNIQUE = "technique";

    private static final Note.Wording NO_RANKING = Note.Wording.of(
            "no-ranking",
            "A technique that was tried later was tried in harder cases and because others had failed, so first and"
                    + " later success do not compare, and the techniques are not ranked.");
    private static final Note.Wording RELEASED_ALONE = Note.Wording.of(
            "released-alone",
            "released counts attempts whose result is released; a device left, stented over or deployed in place"
                    + " is not released.");

    /** To be said wherever the success of techniques is seen. */
    public static final List<Note> NOTES = List.of(Note.of(NO_RANKING), Note.of(RELEASED_ALONE));

    static RetrievalReport of(RetrievalQuery query, DataCut cut, List<RetrievalTally> tallies) {
        Confidence confidence = query.scope().confidence();
        List<String> by = query.by().stream().map(RetrievalSplit::code).toList();
        List<RetrievalTally> any =
                tallies.stream().filter(tally -> tally.technique() == null).toList();
        List<Note> notes = new ArrayList<>(NOTES);
        if (any.isEmpty()) {
            notes.add(Note.of(CommonNote.NOTHING_MATCHES));
        }
        return new RetrievalReport(
                ReportHeading.of(
                        "retrieval",
                        "Which way out works, and how well as the first try?",
                        cut,
                        query.scope(),
                        by,
                        Calculation.ATTEMPTS.method()),
                successes(null, by, any, confidence),
                byTechnique(tallies, by, confidence),
                List.copyOf(notes));
    }

    /** The techniques that were tried, in the order of their list. */
    public static List<Success> byTechnique(List<RetrievalTally> tallies, List<String> by, Confidence confidence) {
        return Stream.of(Technique.values())
                .flatMap(technique -> successes(
                        technique,
                        by,
                        tallies.stream()
                                .filter(tally -> technique.code().equals(tally.technique()))
                                .toList(),
                        confidence)
                        .stream())
                .toList();
    }

    private static List<Success> successes(
            @Nullable Technique technique, List<String> by, List<RetrievalTally> tallies, Confidence confidence) {
        Map<List<String>, List<RetrievalTally>> byLevels = tallies.stream()
                .collect(Collectors.groupingBy(RetrievalTally::levels, LinkedHashMap::new, Collectors.toList()));
        List<Success> successes = new ArrayList<>();
        byLevels.forEach((levels, own) -> {
            Map<String, Level> level = new LinkedHashMap<>();
            if (technique != null) {
                level.put(TECHNIQUE, Level.of(TECHNIQUE, technique.code()));
            }
            for (int index = 0; index < by.size(); index++) {
                level.put(by.get(index), Level.of(by.get(index), levels.get(index)));
            }
            successes.add(success(new Levels(level), own, confidence));
        });
        return successes;
    }

    private static Success success(Levels level, List<RetrievalTally> tallies, Confidence confidence) {
        ProportionEstimate all = share(tallies, RetrievalTally::tried, RetrievalTally::released, confidence);
        ProportionEstimate first =
                share(tallies, RetrievalTally::firstTried, RetrievalTally::firstReleased, confidence);
        ProportionEstimate later = share(
                tallies,
                tally -> tally.tried() - tally.firstTried(),
                tally -> tally.released() - tally.firstReleased(),
                confidence);
        ProportionEstimate cases = share(tallies, tally -> 1, RetrievalTally::released, confidence);
        return new Success(level, all, first, later, cases, sentence(first, later, cases, confidence));
    }

    /** Each case is a cluster; where it has one attempt at most, the interval is Wilson's. */
    private static ProportionEstimate share(
            List<RetrievalTally> tallies,
            ToLongFunction<RetrievalTally> of,
            ToLongFunction<RetrievalTally> released,
            Confidence confidence) {
        List<Cluster> clusters = tallies.stream()
                .filter(tally -> of.applyAsLong(tally) > 0)
                .map(tally -> new Cluster(of.applyAsLong(tally), released.applyAsLong(tally), tally.cases()))
                .toList();
        return ProportionEstimate.of(ClusteredProportion.of(clusters, confidence));
    }

    private static String sentence(
            ProportionEstimate first, ProportionEstimate later, ProportionEstimate cases, Confidence confidence) {
        return "As the first attempt %s; after another had failed %s; in all it released the device in %s of %s in which it was tried."
                .formatted(
                        share(first, confidence),
                        later.of() == 0
                                ? "never tried"
                                : NumberText.count(later.events()) + " of " + NumberText.count(later.of())
                                        + " released",
                        NumberText.count(cases.events()),
                        Words.cases(cases.of()));
    }

    private static String share(ProportionEstimate share, Confidence confidence) {
        String percent = Words.percent(share, confidence);
        return percent == null ? "never tried" : Words.of(share.events(), share.of()) + " released (" + percent + ")";
    }

    @Override
    public Answer answer() {
        return RetrievalAnswer.of(this);
    }

    @Override
    public Table table() {
        return RetrievalAnswer.table(this);
    }
}
