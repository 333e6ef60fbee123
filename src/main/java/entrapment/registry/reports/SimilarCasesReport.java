package entrapment.registry.reports;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.cases.LikeCases;
import entrapment.registry.cases.OutcomeTally;
import entrapment.registry.cases.RetrievalTally;
import entrapment.registry.cases.SequenceTally;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.IntervalMethod;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import org.jspecify.annotations.Nullable;

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
@JsonPropertyOrder({
    "heading",
    "cases",
    "described",
    "groups",
    "sequences",
    "otherSequences",
    "minutesToRelease",
    "harm",
    "loosen",
    "notes",
    "cautions"
})
public record SimilarCasesReport(
        @JsonUnwrapped ReportHeading heading,
        long cases,
        long described,
        List<Tried> groups,
        List<Sequence> sequences,
        long otherSequences,
        Minutes minutesToRelease,
        Map<String, Occurrence> harm,
        @Nullable Loosening loosen,
        List<String> notes,
        List<String> cautions)
        implements Report {

    /**
     * The success of one technique.
     *
     * @param first cases that began with it
     * @param any cases in which it was tried at any time
     */
    record Tried(Map<String, String> level, RetrievalReport.Share first, RetrievalReport.Share any, String sentence) {}

    /**
     * Cases that went the same way.
     *
     * @param result of the last attempt
     * @param of how many cases are described
     */
    record Sequence(List<String> techniques, String result, long cases, long of, String sentence) {

        String path() {
            return String.join(" → ", techniques);
        }
    }

    /**
     * From entrapment to release, in minutes; quartiles by linear interpolation (type 7 of Hyndman RJ, Fan Y, Am Stat
     * 1996;50:361-365).
     *
     * @param cases released cases that state it
     * @param of released cases
     * @param median null where no case states it
     */
    record Minutes(
            long cases,
            long of,
            @Nullable Double lowerQuartile,
            @Nullable Double median,
            @Nullable Double upperQuartile,
            String sentence) {

        /** The quartiles of counted minutes. */
        static Minutes of(SortedMap<Long, Long> counts, long of) {
            long cases = counts.values().stream().mapToLong(Long::longValue).sum();
            Double lower = quantile(counts, cases, 0.25);
            Double median = quantile(counts, cases, 0.5);
            Double upper = quantile(counts, cases, 0.75);
            return new Minutes(cases, of, lower, median, upper, sentence(cases, of, lower, median, upper));
        }

        private static String sentence(
                long cases, long of, @Nullable Double lower, @Nullable Double median, @Nullable Double upper) {
            if (lower == null || median == null || upper == null) {
                return "No released case states how many minutes it took.";
            }
            return "Release took a median of %s minutes (quartiles %s and %s), in %s of %s that state it."
                    .formatted(
                            NumberText.exact(median),
                            NumberText.exact(lower),
                            NumberText.exact(upper),
                            NumberText.count(cases),
                            of == 1 ? "1 released case" : NumberText.count(of) + " released cases");
        }

        private static @Nullable Double quantile(SortedMap<Long, Long> counts, long cases, double share) {
            if (cases == 0) {
                return null;
            }
            double place = (cases - 1) * share;
            long below = (long) place;
            long low = at(counts, below);
            long high = at(counts, Math.min(below + 1, cases - 1));
            return low + (place - below) * (high - low);
        }

        /** The value at a place from 0 when all are laid out in order. */
        private static long at(SortedMap<Long, Long> counts, long place) {
            long passed = 0;
            for (Map.Entry<Long, Long> value : counts.entrySet()) {
                passed += value.getValue();
                if (place < passed) {
                    return value.getKey();
                }
            }
            throw new IllegalArgumentException("there are " + passed + " values, and none at " + place);
        }
    }

    /** A filter, and how many like cases there are without it. */
    record Loosening(String filter, long cases) {}

    /** What the database counted of the cases that are described. */
    record Evidence(
            List<RetrievalTally> retrieval,
            List<SequenceTally> sequences,
            SortedMap<Long, Long> minutes,
            List<OutcomeTally> outcomes) {}

    /** With fewer cases of other centres than this, the way they went is not told apart. */
    static final long FEWEST_OF_OTHERS = 3;

    /** Whether some like cases are of other centres, but so few that their figures would describe a single case. */
    static boolean describesOwnAlone(LikeCases like) {
        return like.others() > 0 && like.others() < FEWEST_OF_OTHERS;
    }

    static SimilarCasesReport of(
            SimilarCasesQuery query, DataCut cut, LikeCases like, Evidence evidence, List<Loosening> without) {
        Confidence confidence = query.scope().confidence();
        long described = describesOwnAlone(like) ? like.own() : like.all();
        List<Sequence> sequences = sequences(evidence.sequences(), described);
        long other = described - sequences.stream().mapToLong(Sequence::cases).sum();
        Loosening loosen = like.all() > 0 ? null : loosen(without);
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
                        confidence.level(),
                        IntervalMethod.WILSON.method()),
                like.all(),
                described,
                RetrievalReport.byTechnique(evidence.retrieval(), List.of(), confidence).stream()
                        .map(success ->
                                new Tried(success.level(), success.first(), success.cases(), success.sentence()))
                        .toList(),
                sequences,
                other,
                Minutes.of(evidence.minutes(), released),
                HarmReport.degrees(evidence.outcomes(), confidence),
                loosen,
                notes(query, like, other, loosen),
                ReportHeading.CAUTIONS);
    }

    /** A sequence of which others have too few cases shows the own ones alone. */
    private static List<Sequence> sequences(List<SequenceTally> tallies, long described) {
        List<Sequence> seen = new ArrayList<>();
        for (SequenceTally tally : tallies) {
            long cases = tally.own() + (tally.others() < FEWEST_OF_OTHERS ? 0 : tally.others());
            if (cases > 0) {
                seen.add(new Sequence(
                        tally.techniques(),
                        tally.result(),
                        cases,
                        described,
                        "%s: %s, %s of %s."
                                .formatted(
                                        String.join(" → ", tally.techniques()),
                                        tally.result(),
                                        NumberText.count(cases),
                                        Words.cases(described))));
            }
        }
        seen.sort(Comparator.comparingLong(Sequence::cases)
                .reversed()
                .thenComparing(Sequence::path)
                .thenComparing(Sequence::result));
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

    private static List<String> notes(SimilarCasesQuery query, LikeCases like, long other, @Nullable Loosening loosen) {
        List<String> notes = new ArrayList<>();
        if (like.all() == 0) {
            notes.add("No case in the registry is like this.");
            if (loosen != null) {
                notes.add("Loosen %s first: without it %s like this."
                        .formatted(
                                loosen.filter(),
                                loosen.cases() == 1 ? "1 case is" : NumberText.count(loosen.cases()) + " cases are"));
            } else if (!query.loosenable().isEmpty()) {
                notes.add("No single filter is to blame: taking off any one of them brings no case either.");
            }
        }
        notes.addAll(RetrievalReport.NOTES);
        if (describesOwnAlone(like)) {
            notes.add(
                    ("%s of other centres left out of every figure but the number of like cases: so few would describe"
                                    + " a single case.")
                            .formatted(Words.cases(like.others())));
        }
        if (other > 0) {
            notes.add(("Other sequences, %s: those seen in fewer than %d cases of other centres, if other centres are"
                            + " masked, and those seen once beyond the first %d.")
                    .formatted(Words.cases(other), FEWEST_OF_OTHERS, SequenceTally.MOST_SEEN_ONCE));
        }
        if (query.like().saysHowItEnded()) {
            notes.add(
                    "A filter says how the case ended. What was tried and what came of it are then seen among cases chosen"
                            + " by their end, so no success can be read from them.");
        }
        return List.copyOf(notes);
    }

    @Override
    public Answer answer() {
        return SimilarCasesAnswer.of(this);
    }

    /** One row for each technique and denominator, then the sequences, the minutes and the degrees of harm. */
    @Override
    public Table table() {
        List<String> columns = new ArrayList<>(List.of("part", "name", "counted"));
        columns.addAll(Occurrence.COLUMNS);
        columns.addAll(List.of("minutes", "sentence"));
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (Tried tried : groups) {
            String technique = String.join(" ", tried.level().values());
            rows.add(row("technique", technique, "released-first", tried.first(), tried.sentence()));
            rows.add(row("technique", technique, "released-any", tried.any(), tried.sentence()));
        }
        for (Sequence sequence : sequences) {
            rows.add(row(
                    "sequence",
                    sequence.path(),
                    sequence.result(),
                    sequence.cases(),
                    sequence.of(),
                    null,
                    sequence.sentence()));
        }
        if (otherSequences > 0) {
            rows.add(row(
                    "sequence",
                    "other-sequences",
                    "any",
                    otherSequences,
                    described,
                    null,
                    "Other sequences: %s of %s.".formatted(NumberText.count(otherSequences), Words.cases(described))));
        }
        Minutes minutes = minutesToRelease;
        rows.add(minutes("lower-quartile", minutes.lowerQuartile()));
        rows.add(minutes("median", minutes.median()));
        rows.add(minutes("upper-quartile", minutes.upperQuartile()));
        Confidence confidence = new Confidence(heading.confidence());
        harm.forEach((degree, occurrence) -> {
            List<@Nullable Object> row = new ArrayList<>(List.of("harm", degree, "cases"));
            occurrence.addTo(row);
            row.add(null);
            row.add("harm " + degree + ": " + occurrence.words(confidence) + ".");
            rows.add(row);
        });
        return new Table(heading.comments(notes), columns, rows);
    }

    private List<@Nullable Object> minutes(String counted, @Nullable Double value) {
        return row(
                "minutes",
                "entrapment-to-release",
                counted,
                minutesToRelease.cases(),
                minutesToRelease.of(),
                value,
                minutesToRelease.sentence());
    }

    private static List<@Nullable Object> row(
            String part, String name, String counted, RetrievalReport.Share share, String sentence) {
        List<@Nullable Object> row = new ArrayList<>(List.of(part, name, counted, share.released(), share.of()));
        row.add(share.estimate());
        row.add(share.lower());
        row.add(share.upper());
        row.add(null);
        row.add(sentence);
        return row;
    }

    private static List<@Nullable Object> row(
            String part, String name, String counted, long cases, long of, @Nullable Double minutes, String sentence) {
        List<@Nullable Object> row = new ArrayList<>(List.of(part, name, counted, cases, of));
        row.addAll(Collections.nCopies(3, null));
        row.add(minutes);
        row.add(sentence);
        return row;
    }
}
