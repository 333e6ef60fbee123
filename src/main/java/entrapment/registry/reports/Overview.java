package entrapment.registry.reports;

import entrapment.registry.access.DataCut;
import entrapment.registry.exports.NumberText;
import entrapment.registry.reports.completeness.BeyondActivity;
import entrapment.registry.reports.completeness.CompletenessReport;
import entrapment.registry.reports.completeness.MissingPeriods;
import entrapment.registry.reports.harm.HarmReport;
import entrapment.registry.reports.incidence.IncidenceReport;
import entrapment.registry.reports.overtime.OverTimeReport;
import entrapment.registry.reports.question.Words;
import entrapment.registry.reports.retrieval.RetrievalReport;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Harm;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Period;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
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
        DataCut cut, @Nullable Period from, @Nullable Period to, List<Headline> headlines, List<Concern> attention) {

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
    static List<Period> lastPeriods(IncidenceReport byPeriod) {
        List<Period> periods = byPeriod.groups().stream()
                .filter(group -> group.uses() > 0)
                .flatMap(group -> group.level().levels().stream())
                .flatMap(level -> level instanceof Level.OfPeriod of ? Stream.of(of.period()) : Stream.empty())
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
        headlines.add(share(
                "retrieval",
                retrieval.overall().isEmpty()
                        ? new Proportion(0, 0)
                        : new Proportion(
                                retrieval.overall().get(0).first().events(),
                                retrieval.overall().get(0).first().of()),
                "%s were released at the first try (%s).",
                "No case was reported."));
        headlines.add(share(
                "harm",
                new Proportion(
                        harm.groups().stream()
                                .mapToLong(cost -> cost.atLeast(Harm.SEVERE))
                                .sum(),
                        harm.groups().stream().mapToLong(HarmReport.Cost::cases).sum()),
                "%s ended in severe harm or death (%s).",
                "No case was reported."));
        return List.copyOf(headlines);
    }

    private static Headline share(String question, Proportion proportion, String sentence, String none) {
        ProportionEstimate share = ProportionEstimate.of(proportion, IntervalMethod.WILSON, Confidence.DEFAULT);
        Double estimate = share.estimate();
        String percent = Words.percent(share, Confidence.DEFAULT);
        return estimate == null || percent == null
                ? new Headline(question, "–", none)
                : new Headline(
                        question,
                        NumberText.percent(estimate) + " %",
                        sentence.formatted(Words.of(share.events(), share.of()) + " cases", percent));
    }

    static List<Concern> attention(List<OverTimeReport> charts, CompletenessReport completeness) {
        List<Concern> concerns = new ArrayList<>();
        for (OverTimeReport chart : charts) {
            long signals = chart.signals();
            if (signals > 0) {
                concerns.add(new Concern(
                        "signal",
                        "over-time",
                        Map.of("chart", chart.chart().code()),
                        signals,
                        List.of(chart.verdict())));
            }
        }
        long queries = completeness.groups().stream()
                .mapToLong(group -> group.withQueries().events())
                .sum();
        if (queries > 0) {
            concerns.add(new Concern("queries", "completeness", Map.of(), queries, List.of()));
        }
        MissingPeriods missing = completeness.missingPeriods();
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
        BeyondActivity beyond = completeness.beyondActivity();
        if (beyond.cells() > 0) {
            concerns.add(new Concern(
                    "contradictions",
                    "completeness",
                    Map.of(),
                    beyond.cases(),
                    beyond.named().stream()
                            .limit(MOST_DETAILS)
                            .map(BeyondActivity.NamedCell::name)
                            .toList()));
        }
        return List.copyOf(concerns);
    }
}
