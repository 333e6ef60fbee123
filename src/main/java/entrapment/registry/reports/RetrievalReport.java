package entrapment.registry.reports;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.cases.RetrievalSplit;
import entrapment.registry.cases.RetrievalTally;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Cluster;
import entrapment.registry.stats.ClusteredProportion;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Technique;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToLongFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Which way out works, and how well as the first try?
 *
 * @param overall attempts of every technique together, one entry for each level of the splits
 * @param groups one technique each, at each level of the splits; never a ranking
 */
@JsonPropertyOrder({"heading", "overall", "groups", "notes", "cautions"})
public record RetrievalReport(
        @JsonUnwrapped ReportHeading heading,
        List<Success> overall,
        List<Success> groups,
        List<String> notes,
        List<String> cautions)
        implements Report {

    /** How many released of how many, with the interval; proportions in [0, 1]; null where there was no attempt. */
    record Share(
            long released,
            long of,
            @Nullable Double estimate,
            @Nullable Double lower,
            @Nullable Double upper) {}

    /**
     * The success of one technique, by what is counted.
     *
     * @param all its attempts; the interval allows for several in one case
     * @param first cases that began with it
     * @param later its attempts after another had failed
     * @param cases cases in which it was tried, released by it
     */
    record Success(Map<String, String> level, Share all, Share first, Share later, Share cases, String sentence) {}

    private static final String TECHNIQUE = "technique";

    /** To be said wherever the success of techniques is seen. */
    static final List<String> NOTES = List.of(
            "A technique that was tried later was tried in harder cases and because others had failed, so first and later"
                    + " success do not compare, and the techniques are not ranked.",
            "released counts attempts whose result is released; a device left, stented over or deployed in place is not"
                    + " released.");

    static RetrievalReport of(RetrievalQuery query, DataCut cut, List<RetrievalTally> tallies) {
        Confidence confidence = query.scope().confidence();
        List<String> by = query.by().stream().map(RetrievalSplit::code).toList();
        List<RetrievalTally> any =
                tallies.stream().filter(tally -> tally.technique() == null).toList();
        List<String> notes = new ArrayList<>(NOTES);
        if (any.isEmpty()) {
            notes.add("Nothing in the registry matches these filters.");
        }
        return new RetrievalReport(
                new ReportHeading(
                        "retrieval",
                        "Which way out works, and how well as the first try?",
                        cut,
                        query.scope().filters(),
                        by,
                        confidence.level(),
                        Calculation.ATTEMPTS.method()),
                successes(null, by, any, confidence),
                byTechnique(tallies, by, confidence),
                List.copyOf(notes),
                ReportHeading.CAUTIONS);
    }

    /** The techniques that were tried, in the order of their list. */
    static List<Success> byTechnique(List<RetrievalTally> tallies, List<String> by, Confidence confidence) {
        return Stream.of(Technique.values())
                .map(Code::code)
                .flatMap(technique -> successes(
                        technique,
                        by,
                        tallies.stream()
                                .filter(tally -> technique.equals(tally.technique()))
                                .toList(),
                        confidence)
                        .stream())
                .toList();
    }

    private static List<Success> successes(
            @Nullable String technique, List<String> by, List<RetrievalTally> tallies, Confidence confidence) {
        Map<List<String>, List<RetrievalTally>> byLevels = tallies.stream()
                .collect(Collectors.groupingBy(RetrievalTally::levels, LinkedHashMap::new, Collectors.toList()));
        List<Success> successes = new ArrayList<>();
        byLevels.forEach((levels, own) -> {
            Map<String, String> level = new LinkedHashMap<>();
            if (technique != null) {
                level.put(TECHNIQUE, technique);
            }
            level.putAll(Words.level(by, levels));
            successes.add(success(level, own, confidence));
        });
        return successes;
    }

    private static Success success(Map<String, String> level, List<RetrievalTally> tallies, Confidence confidence) {
        Share all = share(tallies, RetrievalTally::tried, RetrievalTally::released, confidence);
        Share first = share(tallies, RetrievalTally::firstTried, RetrievalTally::firstReleased, confidence);
        Share later = share(
                tallies,
                tally -> tally.tried() - tally.firstTried(),
                tally -> tally.released() - tally.firstReleased(),
                confidence);
        Share cases = share(tallies, tally -> 1, RetrievalTally::released, confidence);
        return new Success(level, all, first, later, cases, sentence(first, later, cases, confidence));
    }

    /** Each case is a cluster; where it has one attempt at most, the interval is Wilson's. */
    private static Share share(
            List<RetrievalTally> tallies,
            ToLongFunction<RetrievalTally> of,
            ToLongFunction<RetrievalTally> released,
            Confidence confidence) {
        List<Cluster> clusters = tallies.stream()
                .filter(tally -> of.applyAsLong(tally) > 0)
                .map(tally -> new Cluster(of.applyAsLong(tally), released.applyAsLong(tally), tally.cases()))
                .toList();
        ClusteredProportion proportion = ClusteredProportion.of(clusters, confidence);
        boolean oneEach = clusters.stream().allMatch(cluster -> cluster.attempts() == 1);
        Interval interval = oneEach ? proportion.naiveWilson() : proportion.effectiveWilson();
        return new Share(
                proportion.successes(),
                proportion.attempts(),
                proportion.estimate(),
                interval.lower(),
                interval.upper());
    }

    private static String sentence(Share first, Share later, Share cases, Confidence confidence) {
        return "As the first attempt %s; after another had failed %s; in all it released the device in %s of %s in which it was tried."
                .formatted(
                        share(first, confidence),
                        later.of() == 0
                                ? "never tried"
                                : NumberText.count(later.released()) + " of " + NumberText.count(later.of())
                                        + " released",
                        NumberText.count(cases.released()),
                        cases.of() == 1 ? "1 case" : NumberText.count(cases.of()) + " cases");
    }

    private static String share(Share share, Confidence confidence) {
        Double estimate = share.estimate();
        Double lower = share.lower();
        Double upper = share.upper();
        if (estimate == null || lower == null || upper == null) {
            return "never tried";
        }
        return "%s of %s released (%s %%, %s %% CI %s to %s)"
                .formatted(
                        NumberText.count(share.released()),
                        NumberText.count(share.of()),
                        NumberText.percent(estimate),
                        NumberText.level(confidence.level()),
                        NumberText.percent(lower),
                        NumberText.percent(upper));
    }

    @Override
    public Answer answer() {
        return RetrievalAnswer.of(this);
    }

    @Override
    public Table table() {
        List<String> columns = new ArrayList<>();
        columns.add(TECHNIQUE);
        columns.addAll(heading.by());
        for (String part : List.of("all", "first", "later", "cases")) {
            for (String figure : List.of("Released", "Of", "Estimate", "Lower", "Upper")) {
                columns.add(part + figure);
            }
        }
        columns.add("sentence");
        List<List<@Nullable Object>> rows = new ArrayList<>();
        Stream.concat(overall.stream(), groups.stream()).forEach(success -> {
            List<@Nullable Object> row = new ArrayList<>();
            row.add(success.level().getOrDefault(TECHNIQUE, "any"));
            heading.by().forEach(name -> row.add(success.level().get(name)));
            for (Share share : List.of(success.all(), success.first(), success.later(), success.cases())) {
                row.add(share.released());
                row.add(share.of());
                row.add(share.estimate());
                row.add(share.lower());
                row.add(share.upper());
            }
            row.add(success.sentence());
            rows.add(row);
        });
        return new Table(heading.comments(notes), columns, rows);
    }
}
