package entrapment.registry.study;

import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.OddsRatioAnalysis;
import entrapment.registry.stats.TwoByTwo;
import entrapment.registry.stats.Woolf;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;

/**
 * How often the interval of an odds ratio holds the truth, when events are rare in two groups of fixed size: the sum of the
 * probabilities of all tables whose interval holds it. Nothing is drawn at random.
 *
 * <p>Tables with an empty margin say nothing about an odds ratio; coverage is among the others.
 */
final class OddsRatioCoverage {

    private final int exposed;
    private final int reference;
    private final Map<TwoByTwo, Map<Method, Interval>> intervals = new HashMap<>();

    OddsRatioCoverage(int exposed, int reference) {
        this.exposed = exposed;
        this.reference = reference;
    }

    /** The intervals that are compared, in the order of the table. */
    enum Method {
        MID_P("mid-P"),
        EXACT("exact"),
        WOOLF("Woolf, halves at a zero"),
        WOOLF_HALVES("Woolf, halves always");

        private final String title;

        Method(String title) {
            this.title = title;
        }

        String title() {
            return title;
        }
    }

    /**
     * One truth and its result.
     *
     * @param expected events expected in the reference group
     * @param oddsRatio the true one
     * @param emptyMargin probability of a table without any event, or with nothing else
     * @param zeroCell probability of a zero cell, among the other tables
     * @param coverage of each method, among the other tables
     */
    record Row(double expected, double oddsRatio, double emptyMargin, double zeroCell, Map<Method, Double> coverage) {}

    Row row(double expected, double oddsRatio) {
        double risk = expected / reference;
        double odds = oddsRatio * risk / (1 - risk);
        BinomialDistribution inExposed = BinomialDistribution.of(exposed, odds / (1 + odds));
        BinomialDistribution inReference = BinomialDistribution.of(reference, risk);
        Map<Method, Double> covered = new EnumMap<>(Method.class);
        double emptyMargin = 0;
        double zeroCell = 0;
        double others = 0;
        for (int a = inExposed.first(); a <= inExposed.last(); a++) {
            for (int c = inReference.first(); c <= inReference.last(); c++) {
                double probability = inExposed.probability(a) * inReference.probability(c);
                TwoByTwo table = new TwoByTwo(a, exposed - a, c, reference - c);
                if (!table.estimable()) {
                    emptyMargin += probability;
                    continue;
                }
                others += probability;
                zeroCell += least(table) == 0 ? probability : 0;
                intervals
                        .computeIfAbsent(table, OddsRatioCoverage::intervals)
                        .forEach((method, interval) ->
                                covered.merge(method, holds(interval, oddsRatio) ? probability : 0, Double::sum));
            }
        }
        double all = others;
        covered.replaceAll((method, sum) -> sum / all);
        return new Row(expected, oddsRatio, emptyMargin, zeroCell / all, covered);
    }

    /**
     * The lowest coverage of one method over a range of expected events in the reference group.
     *
     * @param coverage the lowest
     * @param at the expected events there
     */
    record Lowest(double coverage, double at) {}

    /** On a grid of expected events, each a multiple of the step. */
    Map<Method, Lowest> lowest(double oddsRatio, double step, double most) {
        Map<Method, Lowest> lowest = new EnumMap<>(Method.class);
        for (int i = 1; i * step <= most; i++) {
            Row row = row(i * step, oddsRatio);
            row.coverage()
                    .forEach((method, coverage) -> lowest.merge(
                            method,
                            new Lowest(coverage, row.expected()),
                            (old, found) -> found.coverage() < old.coverage() ? found : old));
        }
        return lowest;
    }

    private static Map<Method, Interval> intervals(TwoByTwo table) {
        OddsRatioAnalysis analysis = OddsRatioAnalysis.of(table, Confidence.DEFAULT);
        return new EnumMap<>(Map.of(
                Method.MID_P,
                analysis.midP(),
                Method.EXACT,
                analysis.exact(),
                Method.WOOLF,
                limits(analysis.woolf()),
                Method.WOOLF_HALVES,
                limits(table.haldaneAnscombe(Confidence.DEFAULT))));
    }

    private static long least(TwoByTwo table) {
        return Math.min(Math.min(table.a(), table.b()), Math.min(table.c(), table.d()));
    }

    private static Interval limits(Woolf woolf) {
        return new Interval(woolf.lower(), woolf.upper());
    }

    private static boolean holds(Interval interval, double truth) {
        return Objects.requireNonNull(interval.lower()) <= truth && truth <= Objects.requireNonNull(interval.upper());
    }
}
