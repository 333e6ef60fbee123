package entrapment.registry.reports;

import entrapment.registry.exports.NumberText;
import entrapment.registry.stats.CusumDesign;
import entrapment.registry.stats.CusumDesignAnalysis;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What a CUSUM can and cannot tell at this network's volume, in words: false alarms, and how long a change stays unseen. */
final class WatchWords {

    private final OverTimeQuery query;
    private final double usesPerYear;
    private final @Nullable Double falseAlarm;
    private final @Nullable Double detection;
    private final double rate;

    /**
     * Run lengths of the chart's own rule, moved to the nearest lattice on which they are exact (Reynolds MR, Stoumbos ZG,
     * J Qual Technol 1999;31:87).
     */
    WatchWords(OverTimeQuery query, double p0, double usesPerYear) {
        this.query = query;
        this.usesPerYear = usesPerYear;
        this.rate = p0;
        double p1 = query.oddsRatio() * p0 / (1 - p0 + query.oddsRatio() * p0);
        double step = StrictMath.log((1 - p0) / (1 - p1));
        int m = (int) StrictMath.rint(StrictMath.log(p1 * (1 - p0) / (p0 * (1 - p1))) / step);
        int threshold = (int) StrictMath.rint(query.threshold() / step);
        List<CusumDesignAnalysis.RunLength> runs = m >= 2 && m < 1 / p0 && threshold >= 1 && threshold <= 1_000_000
                ? CusumDesignAnalysis.of(new CusumDesign(p0, m, threshold), List.of(p0, p1), null)
                        .arl()
                : List.of();
        falseAlarm = runs.isEmpty() ? null : runs.get(0).arl();
        detection = runs.isEmpty() ? null : runs.get(1).arl();
    }

    String signal(List<String> signals) {
        return "Signal in " + String.join("; ", signals) + ": the run of cases fits odds of " + change()
                + " the baseline's better than the baseline. " + alarms()
                + " Check data and case mix before anything else.";
    }

    String noSignal() {
        return "No signal. " + alarms() + noticing();
    }

    private String alarms() {
        return falseAlarm == null
                ? ""
                : "By chance alone such a signal comes about once in %s events, %s at this volume."
                        .formatted(NumberText.count(Math.round(falseAlarm * rate)), years(falseAlarm));
    }

    private String noticing() {
        return detection == null
                ? ""
                : " If the odds rose to %s the baseline's, the chart would notice after %s on average; a smaller change"
                                .formatted(change(), years(detection))
                        + " stays unseen for longer.";
    }

    private String change() {
        return NumberText.ratio(query.oddsRatio()) + " times";
    }

    private String years(double uses) {
        double years = usesPerYear == 0 ? Double.POSITIVE_INFINITY : uses / usesPerYear;
        return Double.isInfinite(years) ? "an unknown time" : "about " + NumberText.oneDecimal(years) + " years";
    }
}
