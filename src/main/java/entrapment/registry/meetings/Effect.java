package entrapment.registry.meetings;

import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.Reports;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.DifferenceAnalysis;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Method;
import entrapment.registry.stats.PlanDetectableChangeAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionEstimate;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A measure before and after an action, and whether the data could show a change at all. Proportions are in [0, 1].
 *
 * @param due whether the action's day has come; before it the figures are not complete
 * @param difference after less before
 * @param detectableRise what the rate would have to rise to, to be noticed with this many uses; null if none would be
 * @param detectableFall what it would have to fall to; null if none would be
 * @param couldShow whether a change for the better could show at all; null where nothing can be planned
 * @param sentence all of it in plain words
 */
public record Effect(
        DataCut dataCut,
        Measure measure,
        boolean due,
        ProportionEstimate before,
        ProportionEstimate after,
        @Nullable Double difference,
        @Nullable Double differenceLower,
        @Nullable Double differenceUpper,
        @Nullable Double detectableRise,
        @Nullable Double detectableFall,
        @Nullable Boolean couldShow,
        String sentence,
        Method method,
        Method planning,
        List<String> notes,
        List<String> cautions) {

    /** Two-sided 5 %, each way half of it. */
    private static final double ONE_SIDED = 0.025;

    private static final double POWER = 0.8;

    private static final String CONTRADICTION =
            "More cases than uses were reported before or after: these contradict each other, so none of them counts.";

    private static final List<String> NOTES = List.of(
            "Before and after is no experiment: whatever else changed in these periods is in the difference too.",
            "What could show is planned from the rate before, taken as known, and the number after; it is not computed"
                    + " from the result.");

    static Effect of(
            Measure measure, DataCut cut, boolean due, Comparison.Line countedBefore, Comparison.Line countedAfter) {
        Proportion before = proportion(countedBefore);
        Proportion after = proportion(countedAfter);
        DifferenceAnalysis difference = DifferenceAnalysis.of(after, before, Confidence.DEFAULT);
        Double rate = before.estimate();
        PlanDetectableChangeAnalysis plan = rate == null || rate <= 0 || rate >= 1 || after.of() == 0
                ? null
                : PlanDetectableChangeAnalysis.of(after.of(), rate, ONE_SIDED, POWER);
        Double rise = plan == null ? null : plan.detectableProportion();
        Double fall = plan == null ? null : plan.decreaseDetectableProportion();
        boolean upwards = measure.report().moreIsBetter;
        boolean roomForBetter = rate != null && after.of() > 0 && (upwards ? rate < 1 : rate > 0);
        Double better = upwards ? rise : fall;
        Boolean couldShow = (plan == null && roomForBetter) ? null : Boolean.valueOf(better != null);
        Interval limits = difference.newcombe();
        return new Effect(
                cut,
                measure,
                due,
                wilson(before),
                wilson(after),
                difference.difference(),
                limits.lower(),
                limits.upper(),
                rise,
                fall,
                couldShow,
                (due ? "" : "Not due yet, so these figures are not complete. ")
                        + compared(measure, before, after, difference)
                        + couldShow(measure, before, after, rise, fall),
                Calculation.DIFFERENCE.method(),
                Calculation.PLAN_DETECTABLE_CHANGE.method(),
                countedBefore.proportion() == null || countedAfter.proportion() == null
                        ? Stream.concat(Stream.of(CONTRADICTION), NOTES.stream())
                                .toList()
                        : NOTES,
                Reports.CAUTIONS);
    }

    static ProportionEstimate wilson(Proportion proportion) {
        return ProportionEstimate.of(proportion, IntervalMethod.WILSON, Confidence.DEFAULT);
    }

    private static Proportion proportion(Comparison.Line counted) {
        Proportion proportion = counted.proportion();
        return proportion == null ? new Proportion(0, 0) : proportion;
    }

    private static String compared(
            Measure measure, Proportion before, Proportion after, DifferenceAnalysis difference) {
        Double change = difference.difference();
        Double lower = difference.newcombe().lower();
        Double upper = difference.newcombe().upper();
        if (change == null || lower == null || upper == null) {
            return "Nothing to compare: %s before and %s after. "
                    .formatted(counted(measure, before), counted(measure, after));
        }
        Unit unit = measure.report().unit;
        String verdict = lower > 0
                ? "The rate has risen by more than chance alone explains."
                : upper < 0
                        ? "The rate has fallen by more than chance alone explains."
                        : "The data fit a rise, a fall or no change.";
        return "Before: %s; after: %s; difference %s %s (95 %% CI %s to %s). %s "
                .formatted(
                        withRate(measure, before),
                        withRate(measure, after),
                        signed(unit, change),
                        unit.sign(),
                        signed(unit, lower),
                        signed(unit, upper),
                        verdict);
    }

    private static String couldShow(
            Measure measure, Proportion before, Proportion after, @Nullable Double rise, @Nullable Double fall) {
        Double rate = before.estimate();
        boolean upwards = measure.report().moreIsBetter;
        if (rate == null || after.of() == 0) {
            return "No change could show.";
        }
        if (rate <= 0 || rate >= 1) {
            boolean better = upwards == rate <= 0;
            return better
                    ? "From a rate of %s nothing can be planned, so what change could show is not known."
                            .formatted(rate <= 0 ? "0" : "all")
                    : "Nothing better than before could show.";
        }
        Unit unit = measure.report().unit;
        String wanted = upwards ? "rise" : "fall";
        Double better = upwards ? rise : fall;
        Double worse = upwards ? fall : rise;
        String number = measure.report().outOf(after.of());
        return (better == null
                        ? "With %s no %s could show: the numbers are too small. ".formatted(number, wanted)
                        : "With %s a %s to %s %s or beyond would probably show (4 in 5); a smaller one stays unseen. "
                                .formatted(number, wanted, unit.text(better), unit.sign()))
                + (worse == null
                        ? "Nor could a change for the worse."
                        : "A change for the worse would probably show from %s %s on."
                                .formatted(unit.text(worse), unit.sign()));
    }

    private static String counted(Measure measure, Proportion proportion) {
        return measure.report().counted(proportion.events(), proportion.of());
    }

    private static String withRate(Measure measure, Proportion proportion) {
        Unit unit = measure.report().unit;
        Interval interval = proportion.interval(IntervalMethod.WILSON, Confidence.DEFAULT);
        Double estimate = proportion.estimate();
        Double lower = interval.lower();
        Double upper = interval.upper();
        return counted(measure, proportion)
                + (estimate == null || lower == null || upper == null
                        ? ""
                        : ", %s %s (95 %% CI %s to %s)"
                                .formatted(unit.text(estimate), unit.sign(), unit.text(lower), unit.text(upper)));
    }

    /** With its sign in words' place: a minus that reads as one, a plus for a rise. */
    static String signed(Unit unit, double value) {
        return (value < 0 ? "−" : value > 0 ? "+" : "") + unit.text(Math.abs(value));
    }
}
