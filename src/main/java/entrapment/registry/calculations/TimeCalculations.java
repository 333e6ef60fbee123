package entrapment.registry.calculations;

import static entrapment.registry.calculations.CountFields.MOST;
import static entrapment.registry.calculations.CountFields.MOST_ROWS;

import entrapment.registry.intake.Fields;
import entrapment.registry.stats.CusumAnalysis;
import entrapment.registry.stats.CusumDesign;
import entrapment.registry.stats.CusumDesignAnalysis;
import entrapment.registry.stats.CusumRule;
import entrapment.registry.stats.GChartAnalysis;
import entrapment.registry.stats.PChartAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.Rate;
import entrapment.registry.stats.ScoredGroup;
import entrapment.registry.stats.TChartAnalysis;
import entrapment.registry.stats.TrendAnalysis;
import entrapment.registry.stats.UChartAnalysis;
import java.util.List;
import java.util.function.Supplier;

/** Bodies about trend, control charts and the CUSUM. */
final class TimeCalculations {

    /** A normal chart's three standard deviations, on each side. */
    private static final double CUSTOMARY_TAIL = 0.00135;

    private static final double LARGEST_SCORE = 1e9;
    private static final double LONGEST_TIME = 1e9;
    private static final double MOST_PER_EXPOSURE = 1e12;
    private static final int MOST_OUTCOMES = 1_000_000;
    private static final double LARGEST_RATIO = 1_000;
    private static final double LARGEST_THRESHOLD = 1_000;
    private static final double LEAST_RISK = 1e-6;
    private static final int MOST_POINTS = 1_000_000;

    /** Below 1/p0 at the least p0 there is. */
    private static final int MOST_RISE = 999_999;

    private static final int MOST_RUNS = 20;
    private static final double LONGEST_RUN = 1e12;

    private TimeCalculations() {}

    static Supplier<Record> trend(Fields fields) {
        List<ScoredGroup> groups = fields.requiredObjects(
                "groups",
                MOST_ROWS,
                group -> new ScoredGroup(
                        group.requiredReal("score", -LARGEST_SCORE, LARGEST_SCORE), CountFields.proportion(group)));
        return () -> TrendAnalysis.of(groups);
    }

    /** The centre, if given, is a frozen baseline or a target. */
    static Supplier<Record> pChart(Fields fields) {
        List<Proportion> subgroups = CountFields.proportions(fields, "subgroups");
        double tail = tail(fields);
        Double centre = fields.probability("centre");
        return () -> centre == null ? PChartAnalysis.of(subgroups, tail) : PChartAnalysis.of(subgroups, centre, tail);
    }

    /** The centre, if given, is a frozen baseline or a target. */
    static Supplier<Record> uChart(Fields fields) {
        List<Rate> subgroups = fields.requiredObjects("subgroups", MOST_ROWS, RiskCalculations::rateOf);
        double tail = tail(fields);
        boolean fixed = fields.has("centre");
        double centre = fields.real("centre", 1 / MOST_PER_EXPOSURE, MOST_PER_EXPOSURE, 1);
        return () -> fixed ? UChartAnalysis.of(subgroups, centre, tail) : UChartAnalysis.of(subgroups, tail);
    }

    static Supplier<Record> gChart(Fields fields) {
        List<Long> gaps = fields.list("gaps", MOST_ROWS, gap -> gap.whole(0, MOST));
        double tail = tail(fields);
        return () -> GChartAnalysis.of(gaps, tail);
    }

    static Supplier<Record> tChart(Fields fields) {
        List<Double> times = fields.list("times", MOST_ROWS, time -> time.real(0, LONGEST_TIME));
        double tail = tail(fields);
        return () -> TChartAnalysis.of(times, tail);
    }

    /** One risk for all uses, or one for each of them. */
    static Supplier<Record> cusum(Fields fields) {
        List<Boolean> outcomes = fields.list("outcomes", MOST_OUTCOMES, use -> use.whole(0, 1) == 1);
        double ratio = fields.requiredReal("oddsRatioAlternative", 1 / LARGEST_RATIO, LARGEST_RATIO);
        if (ratio == 1) {
            fields.refuse("oddsRatioAlternative", "out-of-range", "oddsRatioAlternative must not be 1");
        }
        double threshold = fields.requiredReal("threshold", LEAST_RISK, LARGEST_THRESHOLD);
        boolean reset = fields.flag("resetAfterSignal", true);
        if (!fields.hasArray("risk")) {
            double risk = fields.requiredProbability("risk");
            return () -> CusumAnalysis.of(outcomes, risk, new CusumRule(ratio, threshold, reset));
        }
        List<Double> risks = fields.list("risk", MOST_OUTCOMES, risk -> risk.probability());
        if (risks.size() != outcomes.size() && fields.sound("/risk") && fields.sound("/outcomes")) {
            fields.refuse("risk", "wrong-length", "risk must have as many entries as outcomes, or be one number");
        }
        return () -> CusumAnalysis.of(outcomes, risks, new CusumRule(ratio, threshold, reset));
    }

    static Supplier<Record> cusumDesign(Fields fields) {
        double p0 = fields.requiredReal("p0", LEAST_RISK, 0.499);
        int m = (int) fields.requiredWhole("m", 2, MOST_RISE);
        if (m * p0 >= 1 && fields.sound("/m") && fields.sound("/p0")) {
            fields.refuse("m", "out-of-range", "m must be below 1/p0");
        }
        int threshold = (int) fields.requiredWhole("threshold", 1, MOST_POINTS);
        List<Double> pTrue = fields.has("pTrue")
                ? fields.list("pTrue", MOST_RUNS, p -> p.real(LEAST_RISK, 1 - LEAST_RISK))
                : List.of();
        Double target = fields.has("targetArl0") ? fields.requiredReal("targetArl0", 1, LONGEST_RUN) : null;
        return () -> CusumDesignAnalysis.of(new CusumDesign(p0, m, threshold), pTrue, target);
    }

    private static double tail(Fields fields) {
        return fields.real("tailProbability", 1e-9, 0.25, CUSTOMARY_TAIL);
    }
}
