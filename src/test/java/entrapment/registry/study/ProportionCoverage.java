package entrapment.registry.study;

import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Predicate;

/**
 * How often the interval of a proportion holds the truth, when a registry of n uses expects λ events: the sum of the
 * binomial probabilities of all counts whose interval holds λ/n. Nothing is drawn at random.
 */
final class ProportionCoverage {

    /** The expected events between which the lowest and mean coverage are sought. */
    static final double LEAST_EXPECTED = 0.05;

    static final double MOST_EXPECTED = 30;
    static final int STEPS_PER_EVENT = 100;

    private final int n;
    private final List<Interval> intervals;

    private ProportionCoverage(int n, List<Interval> intervals) {
        this.n = n;
        this.intervals = intervals;
    }

    /** The intervals of every count that up to {@link #MOST_EXPECTED} expected events can bring. */
    static ProportionCoverage of(IntervalMethod method, int n) {
        int last = BinomialDistribution.of(n, MOST_EXPECTED / n).last();
        List<Interval> intervals = new ArrayList<>();
        for (int x = 0; x <= last; x++) {
            intervals.add(new Proportion(x, n).interval(method, Confidence.DEFAULT));
        }
        return new ProportionCoverage(n, intervals);
    }

    /** The probability that the interval holds the truth, for λ expected events. */
    double at(double expected) {
        double truth = expected / n;
        return covering(truth, interval -> lower(interval) <= truth && truth <= upper(interval));
    }

    /** The coverage just beside a truth, as it is approached from a side where the limit that touches it misses. */
    private double beside(double truth) {
        return covering(truth, interval -> lower(interval) < truth && truth < upper(interval));
    }

    private double covering(double truth, Predicate<Interval> holds) {
        BinomialDistribution distribution = BinomialDistribution.of(n, truth);
        double sum = 0;
        for (int x = distribution.first(); x <= distribution.last(); x++) {
            if (holds.test(intervals.get(x))) {
                sum += distribution.probability(x);
            }
        }
        return sum;
    }

    /**
     * Lowest and mean coverage for λ between two bounds.
     *
     * @param lowest on the grid
     * @param at the λ of the lowest
     * @param mean over the grid
     * @param infimum the value between the points of the grid below which the coverage never falls
     * @param infimumAt where it comes closest to it
     */
    record Extremes(double lowest, double at, double mean, double infimum, double infimumAt) {}

    /** On a grid of {@link #STEPS_PER_EVENT} points an event, and between its points. */
    Extremes extremes(double leastExpected) {
        int from = (int) Math.round(leastExpected * STEPS_PER_EVENT);
        int to = (int) Math.round(MOST_EXPECTED * STEPS_PER_EVENT);
        double lowest = 1;
        double at = 0;
        double sum = 0;
        for (int i = from; i <= to; i++) {
            double expected = (double) i / STEPS_PER_EVENT;
            double coverage = at(expected);
            sum += coverage;
            if (coverage < lowest) {
                lowest = coverage;
                at = expected;
            }
        }
        double infimum = lowest;
        double infimumAt = at;
        for (double limit : limitsBetween(leastExpected / n, MOST_EXPECTED / n)) {
            double coverage = beside(limit);
            if (coverage < infimum) {
                infimum = coverage;
                infimumAt = limit * n;
            }
        }
        return new Extremes(lowest, at, sum / (to - from + 1), infimum, infimumAt);
    }

    /**
     * Between two neighbouring limits the counts that cover stay the same, and their probability, a sum over consecutive
     * counts, rises and then falls. So it comes closest to its lowest value beside a limit.
     */
    private List<Double> limitsBetween(double least, double most) {
        List<Double> limits = new ArrayList<>();
        for (Interval interval : intervals) {
            for (double limit : new double[] {lower(interval), upper(interval)}) {
                if (limit >= least && limit <= most) {
                    limits.add(limit);
                }
            }
        }
        return limits;
    }

    private static double lower(Interval interval) {
        return Objects.requireNonNull(interval.lower());
    }

    private static double upper(Interval interval) {
        return Objects.requireNonNull(interval.upper());
    }
}
