package entrapment.registry.reports;

import entrapment.registry.access.DataCut;
import entrapment.registry.exports.NumberText;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Harm;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What somebody who opens the registry should see first: of the own centre, or of the network for its steward.
 *
 * @param from first of the periods that the headlines are about; null while there is no return
 * @param to last of them
 * @param headlines three figures with their intervals
 * @param attention what somebody should look into, the most pressing first
 */
public record Overview(
        DataCut cut, @Nullable String from, @Nullable String to, List<Headline> headlines, List<Concern> attention) {

    /**
     * One figure.
     *
     * @param question the report that has more of it
     * @param figure estimate with its unit; a dash where there is none
     * @param sentence the same with counts and interval
     */
    public record Headline(String question, String figure, String sentence) {}

    /**
     * Something to look into.
     *
     * @param kind {@code signal}, {@code queries}, {@code returns} or {@code contradictions}
     * @param question the report that has more of it
     * @param query of that report
     * @param count how many there are
     * @param details which, as far as the viewer may know
     */
    public record Concern(String kind, String question, Map<String, String> query, long count, List<String> details) {}

    private static final int PERIODS = 4;
    private static final int MOST_DETAILS = 8;

    /** The last periods that have a return, up to four. */
    static List<String> lastPeriods(IncidenceReport byPeriod) {
        List<String> periods = byPeriod.groups().stream()
                .filter(group -> group.uses() > 0)
                .map(group -> String.valueOf(group.level().get("period")))
                .sorted()
                .toList();
        return periods.subList(Math.max(0, periods.size() - PERIODS), periods.size());
    }

    static List<Headline> headlines(IncidenceReport incidence, RetrievalReport retrieval, HarmReport harm) {
        List<Headline> headlines = new ArrayList<>();
        IncidenceReport.Rate rate =
                incidence.groups().isEmpty() ? null : incidence.groups().get(0);
        Double estimate = rate == null ? null : rate.estimate();
        headlines.add(new Headline(
                "incidence",
                estimate == null ? "–" : NumberText.perThousand(estimate) + " per 1,000 uses",
                rate == null ? "No use was reported." : rate.sentence()));
        RetrievalReport.Share first = retrieval.overall().isEmpty()
                ? new RetrievalReport.Share(0, 0, null, null, null)
                : retrieval.overall().get(0).first();
        headlines.add(share(
                "retrieval",
                first.released(),
                first.of(),
                "%s were released at the first try (%s %%, 95 %% CI %s to %s).",
                "No case was reported."));
        long bad = 0;
        long cases = 0;
        for (HarmReport.Cost cost : harm.groups()) {
            cases += cost.cases();
            for (Harm degree : List.of(Harm.SEVERE, Harm.DEATH)) {
                Occurrence occurrence = cost.harm().get(degree.code());
                bad += occurrence == null ? 0 : occurrence.events();
            }
        }
        headlines.add(share(
                "harm",
                bad,
                cases,
                "%s ended in severe harm or death (%s %%, 95 %% CI %s to %s).",
                "No case was reported."));
        return List.copyOf(headlines);
    }

    private static Headline share(String question, long events, long of, String sentence, String none) {
        Proportion proportion = new Proportion(events, of);
        Double estimate = proportion.estimate();
        Double lower =
                proportion.interval(IntervalMethod.WILSON, Confidence.DEFAULT).lower();
        Double upper =
                proportion.interval(IntervalMethod.WILSON, Confidence.DEFAULT).upper();
        return estimate == null || lower == null || upper == null
                ? new Headline(question, "–", none)
                : new Headline(
                        question,
                        NumberText.percent(estimate) + " %",
                        sentence.formatted(
                                Words.of(events, of) + " cases",
                                NumberText.percent(estimate),
                                NumberText.percent(lower),
                                NumberText.percent(upper)));
    }

    static List<Concern> attention(List<OverTimeReport> charts, CompletenessReport completeness) {
        List<Concern> concerns = new ArrayList<>();
        for (OverTimeReport chart : charts) {
            long signals = OverTimeAnswer.signals(chart);
            if (signals > 0) {
                concerns.add(new Concern(
                        "signal", "over-time", Map.of("chart", chart.chart()), signals, List.of(chart.verdict())));
            }
        }
        long queries = completeness.groups().stream()
                .mapToLong(group -> group.withQueries().events())
                .sum();
        if (queries > 0) {
            concerns.add(new Concern("queries", "completeness", Map.of(), queries, List.of()));
        }
        CompletenessReport.MissingPeriods missing = completeness.missingPeriods();
        if (missing.periods() > 0) {
            concerns.add(new Concern(
                    "returns",
                    "completeness",
                    Map.of(),
                    missing.periods(),
                    missing.named().stream()
                            .limit(MOST_DETAILS)
                            .map(one -> one.centre() + " " + one.period())
                            .toList()));
        }
        CompletenessReport.BeyondActivity beyond = completeness.beyondActivity();
        if (beyond.cells() > 0) {
            concerns.add(new Concern(
                    "contradictions",
                    "completeness",
                    Map.of(),
                    beyond.cases(),
                    beyond.named().stream()
                            .limit(MOST_DETAILS)
                            .map(cell -> cell.centre() + " " + cell.period() + " " + cell.deviceClass())
                            .toList()));
        }
        return List.copyOf(concerns);
    }
}
