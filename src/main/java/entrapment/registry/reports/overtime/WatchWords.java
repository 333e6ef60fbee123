package entrapment.registry.reports.overtime;

import entrapment.registry.exports.NumberText;
import entrapment.registry.stats.CusumReachAnalysis;
import entrapment.registry.stats.CusumRule;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What a CUSUM can and cannot tell at this network's volume, in words: false alarms, and how long a change stays unseen. */
final class WatchWords {

    private final OverTimeQuery query;
    private final double usesPerYear;
    private final @Nullable Double falseAlarm;
    private final @Nullable Double detection;
    private final double rate;

    WatchWords(OverTimeQuery query, CusumRule rule, double rate, double usesPerYear) {
        this.query = query;
        this.usesPerYear = usesPerYear;
        this.rate = rate;
        CusumReachAnalysis reach = CusumReachAnalysis.of(rule, rate);
        falseAlarm = reach.falseAlarm();
        detection = reach.detection();
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
