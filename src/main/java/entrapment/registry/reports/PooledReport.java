package entrapment.registry.reports;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Group;
import entrapment.registry.stats.PooledProportionAnalysis;
import entrapment.registry.stats.Proportion;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** The rate in a typical centre by a random-intercept model, and where a further centre's true rate would most likely lie. */
@JsonPropertyOrder({"heading", "groups", "excluded", "notes", "cautions"})
public record PooledReport(
        @JsonUnwrapped ReportHeading heading,
        List<Pooled> groups,
        Counting.Excluded excluded,
        List<String> notes,
        List<String> cautions)
        implements Report {

    /**
     * One level's pooled rate; all proportions in [0, 1].
     *
     * @param crude all events of all uses: the mean use, not the typical centre
     * @param estimate the median centre; null where the data cannot carry the model
     * @param predictionLower of the interval for the true rate of a further centre
     * @param medianOddsRatio how many times the odds of one centre are those of another, in the median pair
     * @param heterogeneityPValue evidence that centres differ
     */
    record Pooled(
            Map<String, String> level,
            int centres,
            long events,
            long uses,
            @Nullable Double crude,
            @Nullable Double estimate,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double predictionLower,
            @Nullable Double predictionUpper,
            @Nullable Double medianOddsRatio,
            @Nullable Double heterogeneityPValue,
            String sentence) {}

    /** Fewer cannot tell how centres spread (statistics, section 14). */
    private static final int FEWEST_CENTRES = 5;

    private static final long FEWEST_EVENTS = 10;

    static PooledReport of(PooledQuery query, DataCut cut, Counting counting) {
        Confidence confidence = query.scope().confidence();
        List<String> by = query.by().stream().map(GroupBy::code).toList();
        List<String> notes = new ArrayList<>();
        Map<List<String>, List<Group>> byLevel = new LinkedHashMap<>();
        for (Counting.Group group : counting.groups()) {
            if (group.events() > group.uses()) {
                notes.add("One centre was left out of a level, because its entrapments outnumber its uses there.");
                continue;
            }
            List<Group> centres =
                    byLevel.computeIfAbsent(group.levels().subList(0, by.size()), levels -> new ArrayList<>());
            centres.add(new Group("centre " + (centres.size() + 1), new Proportion(group.events(), group.uses())));
        }
        List<Pooled> groups = new ArrayList<>();
        byLevel.forEach((levels, centres) -> {
            Map<String, String> level = Words.level(by, levels);
            String name = level.isEmpty() ? "" : String.join(", ", level.values()) + ": ";
            if (centres.size() < FEWEST_CENTRES || events(centres) < FEWEST_EVENTS) {
                groups.add(tooFew(level, name, centres));
                return;
            }
            PooledProportionAnalysis analysis = PooledProportionAnalysis.of(centres, confidence);
            analysis.notes().forEach(note -> notes.add(name + note.withCode()));
            groups.add(pooled(level, name, centres, analysis, confidence));
        });
        if (groups.isEmpty()) {
            notes.add("Nothing in the registry matches these filters.");
        }
        notes.addAll(Words.exclusions(counting));
        return new PooledReport(
                new ReportHeading(
                        "pooled",
                        "What is the rate in a typical centre, and how far might a further one be from it?",
                        cut,
                        query.scope().filters(),
                        by,
                        confidence.level(),
                        Calculation.POOLED_PROPORTION.method()),
                List.copyOf(groups),
                counting.excluded(),
                List.copyOf(notes),
                ReportHeading.CAUTIONS);
    }

    private static long events(List<Group> centres) {
        return centres.stream()
                .mapToLong(centre -> centre.proportion().events())
                .sum();
    }

    private static long uses(List<Group> centres) {
        return centres.stream().mapToLong(centre -> centre.proportion().of()).sum();
    }

    private static Pooled tooFew(Map<String, String> level, String name, List<Group> centres) {
        return new Pooled(
                level,
                centres.size(),
                events(centres),
                uses(centres),
                new Proportion(events(centres), uses(centres)).estimate(),
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                "%s%s in %s of %d centres: too few to pool, which needs ten events and five centres."
                        .formatted(
                                name, Words.entrapments(events(centres)), Words.uses(uses(centres)), centres.size()));
    }

    private static Pooled pooled(
            Map<String, String> level,
            String name,
            List<Group> centres,
            PooledProportionAnalysis analysis,
            Confidence confidence) {
        return new Pooled(
                level,
                centres.size(),
                centres.stream()
                        .mapToLong(centre -> centre.proportion().events())
                        .sum(),
                centres.stream().mapToLong(centre -> centre.proportion().of()).sum(),
                analysis.crude(),
                analysis.waldAsProportion().estimate(),
                analysis.waldAsProportion().lower(),
                analysis.waldAsProportion().upper(),
                analysis.predictionAsProportion().lower(),
                analysis.predictionAsProportion().upper(),
                analysis.medianOddsRatio(),
                analysis.lrHalfPValue(),
                name + sentence(analysis, confidence));
    }

    private static String sentence(PooledProportionAnalysis analysis, Confidence confidence) {
        Double estimate = analysis.waldAsProportion().estimate();
        Double lower = analysis.waldAsProportion().lower();
        Double upper = analysis.waldAsProportion().upper();
        if (estimate == null || lower == null || upper == null) {
            return "the data cannot carry a pooled rate; see the notes.";
        }
        String typical = "in a typical centre %s per 1,000 (%s %% CI %s to %s)"
                .formatted(
                        NumberText.perThousand(estimate),
                        NumberText.level(confidence.level()),
                        NumberText.perThousand(lower),
                        NumberText.perThousand(upper));
        Double predictionLower = analysis.predictionAsProportion().lower();
        Double predictionUpper = analysis.predictionAsProportion().upper();
        Double pValue = analysis.lrHalfPValue();
        if (predictionLower == null || predictionUpper == null || pValue == null) {
            return typical + ".";
        }
        return "%s; the true rate of a further centre like these would most likely lie between %s and %s per 1,000; evidence that centres differ: p %s."
                .formatted(
                        typical,
                        NumberText.perThousand(predictionLower),
                        NumberText.perThousand(predictionUpper),
                        NumberText.pValue(pValue));
    }

    @Override
    public Answer answer() {
        return PooledAnswer.of(this);
    }

    @Override
    public Table table() {
        List<String> columns = new ArrayList<>(heading.by());
        columns.addAll(List.of(
                "centres",
                "events",
                "uses",
                "crude",
                "estimate",
                "lower",
                "upper",
                "predictionLower",
                "predictionUpper",
                "medianOddsRatio",
                "heterogeneityPValue",
                "perThousand",
                "sentence"));
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (Pooled pooled : groups) {
            List<@Nullable Object> row = new ArrayList<>(pooled.level().values());
            row.add(pooled.centres());
            row.add(pooled.events());
            row.add(pooled.uses());
            row.add(pooled.crude());
            row.add(pooled.estimate());
            row.add(pooled.lower());
            row.add(pooled.upper());
            row.add(pooled.predictionLower());
            row.add(pooled.predictionUpper());
            row.add(pooled.medianOddsRatio());
            row.add(pooled.heterogeneityPValue());
            row.add(Words.thousandfold(pooled.estimate()));
            row.add(pooled.sentence());
            rows.add(row);
        }
        return new Table(heading.comments(notes), columns, rows);
    }
}
