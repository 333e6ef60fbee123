package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.stats.Confidence;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What every report can be asked: about which cases and uses, how sure, as of when.
 *
 * @param asOf the revision to answer as of; null for the newest
 */
record ReportScope(
        Selection selection,
        Confidence confidence,
        @Nullable Long asOf) {

    private static final double LOWEST_CONFIDENCE = 0.5;
    private static final double HIGHEST_CONFIDENCE = 0.9999;

    /** Reads the common parameters; a submitter's reports are always about the own centre. */
    static ReportScope read(Parameters parameters, Viewer viewer) {
        List<String> centres = parameters.list("centre");
        centres.forEach(viewer::requireOwn);
        Period from = parameters.period("from").orElse(null);
        Period to = parameters.period("to").orElse(null);
        if (from != null && to != null && from.compareTo(to) > 0) {
            parameters.refuse("to", "period-order", "to must not be before from");
        }
        Map<Factor, List<String>> levels = new LinkedHashMap<>();
        for (Factor factor : Factor.values()) {
            List<String> asked = parameters.list(factor.code()).stream()
                    .map(level -> level(factor, level, parameters))
                    .toList();
            if (!asked.isEmpty()) {
                levels.put(factor, asked);
            }
        }
        return new ReportScope(
                new Selection(viewer.sees(centres), from, to, levels),
                new Confidence(parameters
                        .decimal("confidence", LOWEST_CONFIDENCE, HIGHEST_CONFIDENCE)
                        .orElse(Confidence.DEFAULT.level())),
                parameters.whole("asOf", 0, Long.MAX_VALUE).orElse(null));
    }

    /** The bounds in time by the name of their parameter. */
    Map<String, Period> periods() {
        Map<String, Period> periods = new LinkedHashMap<>();
        Period from = selection.from();
        Period to = selection.to();
        if (from != null) {
            periods.put("from", from);
        }
        if (to != null) {
            periods.put("to", to);
        }
        return periods;
    }

    private static String level(Factor factor, String level, Parameters parameters) {
        if (factor == Factor.DEVICE_SIZE_MM) {
            if (level.matches("[0-9](\\.[0-9]{1,2})?")) {
                return new BigDecimal(level).stripTrailingZeros().toPlainString();
            }
            if (!level.equals(Factor.UNKNOWN)) {
                parameters.refuse(
                        factor.code(), "wrong-type", "deviceSizeMm must be millimetres such as 1.25, or unknown");
            }
        } else if (!factor.levels().contains(level)) {
            parameters.refuse(
                    factor.code(),
                    "not-a-code",
                    factor.code() + " must be one of " + String.join(", ", factor.levels()));
        }
        return level;
    }

    /** The filters in force, as the answer repeats them. */
    Map<String, Object> filters() {
        Map<String, Object> filters = new LinkedHashMap<>();
        if (!selection.centres().isEmpty()) {
            filters.put("centre", selection.centres());
        }
        if (selection.from() != null) {
            filters.put("from", selection.from());
        }
        if (selection.to() != null) {
            filters.put("to", selection.to());
        }
        selection.levels().forEach((factor, levels) -> filters.put(factor.code(), levels));
        return filters;
    }
}
