package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * Which centres lie further from the registry's rate than chance explains? A question for their data and case mix, not a
 * ranking.
 *
 * @param target θ, the rate the lines are built on; {@code null} without data
 * @param centres one for each centre, in the order given
 * @param notes why lines are missing, or how far they can be trusted
 */
public record FunnelAnalysis(@Nullable Double target, List<Centre> centres, List<Note> notes) {

    private static final double TAIL_95 = 0.025;
    private static final double TAIL_998 = 0.001;
    private static final double LEAST_EXPECTED = 1;
    private static final int FEWEST_CENTRES = 5;

    /** Where a centre lies; the words of an answer. */
    public enum Position {
        ABOVE_998("above 99.8%"),
        ABOVE_95("above 95%"),
        WITHIN("within"),
        BELOW_95("below 95%"),
        BELOW_998("below 99.8%"),
        NO_DATA("no data");

        private final String words;

        Position(String words) {
            this.words = words;
        }

        @Override
        public String toString() {
            return words;
        }
    }

    /**
     * The funnel's lines at a centre's size, for drawing.
     *
     * @param at95 tails of 0.025
     * @param at998 tails of 0.001
     */
    public record Limits(Interval at95, Interval at998) {

        private static final Limits NONE = new Limits(Interval.NOT_ESTIMABLE, Interval.NOT_ESTIMABLE);
    }

    /**
     * A centre's place.
     *
     * @param name as given
     * @param estimate x/n; {@code null} for n = 0
     * @param expected nθ
     * @param limits the lines, interpolated between counts
     * @param flag from the exact tail: the only flag to act on
     * @param positionByLine where the point is drawn, which for a tiny centre may lie outside the lines by a single event
     * @param upperPValue P(X ≥ x)
     * @param lowerPValue P(X ≤ x)
     * @param midPValue twice the smaller tail less P(X = x)
     * @param tooSmallToFlagLow whether even no event at all would not be flagged beyond 99.8 %
     * @param perhapsNotReporting whether there is no event where that has a probability below 0.01: to be asked, not said
     */
    public record Centre(
            String name,
            @Nullable Double estimate,
            @Nullable Double expected,
            Limits limits,
            Position flag,
            Position positionByLine,
            @Nullable Double upperPValue,
            @Nullable Double lowerPValue,
            @Nullable Double midPValue,
            boolean tooSmallToFlagLow,
            boolean perhapsNotReporting) {}

    /** The funnel about the pooled rate of its centres. */
    public static FunnelAnalysis of(List<Group> centres) {
        long of = centres.stream().mapToLong(centre -> centre.proportion().of()).sum();
        long events = centres.stream()
                .mapToLong(centre -> centre.proportion().events())
                .sum();
        return funnel(centres, of == 0 ? null : (double) events / of);
    }

    /**
     * The funnel about a target from elsewhere.
     *
     * <p>Valid for independent uses with at most one event each. Flags from exact tails: beyond 99.8 % if
     * P(X≥x) ≤ 0.001 or P(X≤x) ≤ 0.001 at θ, beyond 95 % at 0.025. Lines: with r the smallest integer that has F(r) ≥ p and
     * a = (F(r)−p)/f(r), (r−a)/n, held inside [0, 1] [1].
     *
     * <p>Edges: n = 0: {@code no data}. A pooled rate of 0 or 1: no lines, p-values 1, nobody flagged.
     *
     * <p><b>Same as</b> R {@code pbinom(x, n, theta)}, and for the lines {@code qbinom} with the interpolation of [1].
     * Accuracy: relative 1e-10.
     *
     * <p>[1] Spiegelhalter DJ, Stat Med 2005;24:1185, appendix A.1, doi:10.1002/sim.1970.
     *
     * @param target in (0, 1)
     * @throws IllegalArgumentException if the target is out of its range or not a number
     */
    public static FunnelAnalysis of(List<Group> centres, double target) {
        Counts.requireInside("target", target);
        return funnel(centres, target);
    }

    private static FunnelAnalysis funnel(List<Group> centres, @Nullable Double target) {
        return new FunnelAnalysis(
                target,
                centres.stream().map(centre -> place(centre, target)).toList(),
                notes(
                        target,
                        centres.stream()
                                .filter(centre -> centre.proportion().of() > 0)
                                .count()));
    }

    private static Centre place(Group centre, @Nullable Double target) {
        Proportion p = centre.proportion();
        Double estimate = p.estimate();
        if (estimate == null || target == null || target == 0 || target == 1) {
            boolean noData = estimate == null || target == null;
            Position position = noData ? Position.NO_DATA : Position.WITHIN;
            Double certain = noData ? null : 1.0;
            return new Centre(
                    centre.name(),
                    estimate,
                    target == null ? null : p.of() * target,
                    Limits.NONE,
                    position,
                    position,
                    certain,
                    certain,
                    certain,
                    true,
                    false);
        }
        BinomialDistribution distribution = new BinomialDistribution(p.of(), target);
        Limits limits = new Limits(line(distribution, TAIL_95), line(distribution, TAIL_998));
        return new Centre(
                centre.name(),
                estimate,
                distribution.mean(),
                limits,
                flag(distribution, p.events()),
                position(estimate, limits),
                pValue(distribution.logUpperTail(p.events())),
                pValue(distribution.logLowerTail(p.events())),
                distribution.midPValue(p.events()),
                distribution.mean() < LEAST_EXPECTED || !distribution.reachesBelow(0, TAIL_998),
                p.events() == 0 && distribution.reachesBelow(0, SilenceAnalysis.UNLIKELY));
    }

    private static Position flag(CountDistribution distribution, long x) {
        if (distribution.reachesAbove(x, TAIL_95)) {
            return distribution.reachesAbove(x, TAIL_998) ? Position.ABOVE_998 : Position.ABOVE_95;
        }
        if (distribution.reachesBelow(x, TAIL_95)) {
            return distribution.reachesBelow(x, TAIL_998) ? Position.BELOW_998 : Position.BELOW_95;
        }
        return Position.WITHIN;
    }

    private static double pValue(double log) {
        return Math.max(Double.MIN_NORMAL, FastMath.exp(log));
    }

    private static List<Note> notes(@Nullable Double target, long used) {
        if (target == null) {
            return List.of(new Note(NoteCode.NO_EXPOSURE, "No centre has any use, so there is no funnel."));
        }
        List<Note> notes = new ArrayList<>();
        if (target == 0) {
            notes.add(new Note(NoteCode.NO_EVENT, "No centre has an event: lines need a target from elsewhere."));
        } else if (target == 1) {
            notes.add(new Note(NoteCode.BOUNDARY, "Every observation had the event: there are no lines to draw."));
        }
        if (used < FEWEST_CENTRES) {
            notes.add(new Note(
                    NoteCode.FEW_CENTRES,
                    "Fewer than five centres: each weighs so much in the pooled rate that the lines say little."));
        }
        return List.copyOf(notes);
    }

    /**
     * Both lines at one tail and a centre's size, held inside [0, 1]. They are interpolated between counts: with r the smallest
     * integer that has F(r) ≥ p and a = (F(r)−p)/f(r), (r−a)/n (Spiegelhalter DJ, Stat Med 2005;24:1185, appendix A.1).
     */
    private static Interval line(BinomialDistribution distribution, double tail) {
        double n = distribution.of();
        long low = distribution.lowerCount(tail);
        long high = distribution.upperCount(tail);
        double lower = low - share(distribution.logLowerTail(low), tail, distribution.logProbability(low));
        // F(r) − (1−tail) is tail − P(X > r).
        double upper = high
                - (tail - FastMath.exp(distribution.beyond(high))) / FastMath.exp(distribution.logProbability(high));
        return new Interval(hold(lower / n), hold(upper / n));
    }

    private static double share(double logTail, double tail, double logProbability) {
        return (FastMath.exp(logTail) - tail) / FastMath.exp(logProbability);
    }

    private static double hold(double limit) {
        return Math.max(0, Math.min(1, limit));
    }

    /** Where a point is drawn among the lines. */
    private static Position position(double estimate, Limits limits) {
        if (beyond(estimate, limits.at95().upper())) {
            return beyond(estimate, limits.at998().upper()) ? Position.ABOVE_998 : Position.ABOVE_95;
        }
        if (beyond(limits.at95().lower(), estimate)) {
            return beyond(limits.at998().lower(), estimate) ? Position.BELOW_998 : Position.BELOW_95;
        }
        return Position.WITHIN;
    }

    private static boolean beyond(@Nullable Double high, @Nullable Double low) {
        return high != null && low != null && high > low;
    }
}
