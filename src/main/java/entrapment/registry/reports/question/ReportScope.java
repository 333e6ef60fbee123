package entrapment.registry.reports.question;

import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.stats.Confidence;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Filters;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What every report can be asked: by whom, about which cases and uses, how sure, as of when.
 *
 * @param asOf the revision to answer as of; null for the newest
 */
public record ReportScope(
        Viewer viewer,
        Selection selection,
        Confidence confidence,
        @Nullable Long asOf) {

    private static final double LOWEST_CONFIDENCE = 0.5;
    private static final double HIGHEST_CONFIDENCE = 0.9999;

    private static final Parameter<List<String>> CENTRE = Parameter.centres();
    private static final Parameter<@Nullable Period> FROM = Parameter.period("from");
    private static final Parameter<@Nullable Period> TO = Parameter.period("to");
    private static final Map<Factor, Parameter<List<String>>> LEVELS = levels();
    private static final Parameter<Double> CONFIDENCE = Parameter.number(
                    "confidence",
                    LOWEST_CONFIDENCE,
                    HIGHEST_CONFIDENCE,
                    Confidence.DEFAULT.level(),
                    "0.9",
                    "0.95",
                    "0.99")
            .folded();
    private static final Parameter<@Nullable Long> AS_OF =
            Parameter.whole("asOf").folded();

    /** The parameters of every question. */
    static final List<Parameter<?>> PARAMETERS = parameters();

    private static Map<Factor, Parameter<List<String>>> levels() {
        Map<Factor, Parameter<List<String>>> levels = new EnumMap<>(Factor.class);
        for (Factor factor : Factor.values()) {
            levels.put(factor, Parameter.filter(factor.field(), (given, name) -> given.list(name).stream()
                    .map(level -> level(factor, level, given))
                    .toList()));
        }
        return levels;
    }

    private static List<Parameter<?>> parameters() {
        List<Parameter<?>> parameters = new ArrayList<>(List.of(CENTRE, FROM, TO));
        parameters.addAll(LEVELS.values());
        parameters.addAll(List.of(CONFIDENCE, AS_OF));
        return List.copyOf(parameters);
    }

    /** Everything that a viewer may count, at the usual level of confidence, as of now. */
    public static ReportScope of(Viewer viewer) {
        return new ReportScope(
                viewer, new Selection(viewer.sees(List.of()), null, null, Map.of()), Confidence.DEFAULT, null);
    }

    /** Reads the common parameters; a submitter's reports are always about the own centre. */
    static ReportScope read(Parameters given, Viewer viewer) {
        List<String> centres = CENTRE.read(given);
        centres.forEach(viewer::requireOwn);
        Period from = FROM.read(given);
        Period to = TO.read(given);
        if (from != null && to != null && from.compareTo(to) > 0) {
            given.refuse("to", "period-order", "to must not be before from");
        }
        Map<Factor, List<String>> levels = new LinkedHashMap<>();
        LEVELS.forEach((factor, parameter) -> {
            List<String> asked = parameter.read(given);
            if (!asked.isEmpty()) {
                levels.put(factor, asked);
            }
        });
        return new ReportScope(
                viewer,
                new Selection(viewer.sees(centres), from, to, levels),
                new Confidence(CONFIDENCE.read(given)),
                AS_OF.read(given));
    }

    private static String level(Factor factor, String level, Parameters given) {
        if (factor == Factor.DEVICE_SIZE_MM) {
            if (level.matches("[0-9](\\.[0-9]{1,2})?")) {
                return new BigDecimal(level).stripTrailingZeros().toPlainString();
            }
            if (!level.equals(Factor.UNKNOWN)) {
                given.refuse(factor.code(), "wrong-type", "deviceSizeMm must be millimetres such as 1.25, or unknown");
                return Factor.UNKNOWN;
            }
        } else if (!factor.levels().contains(level)) {
            given.refuse(
                    factor.code(),
                    "not-a-code",
                    factor.code() + " must be one of " + String.join(", ", factor.levels()));
        }
        return level;
    }

    /** The same of one centre; of every centre that the viewer may count where none is named. */
    public ReportScope at(@Nullable String centre) {
        return with(new Selection(
                viewer.sees(centre == null ? List.of() : List.of(centre)),
                selection.from(),
                selection.to(),
                selection.levels()));
    }

    /** The same of these periods, both included; without a bound where one is null. */
    public ReportScope between(@Nullable Period from, @Nullable Period to) {
        return with(new Selection(selection.centres(), from, to, selection.levels()));
    }

    /** The same of some levels of factors alone. */
    public ReportScope where(Map<Factor, List<String>> levels) {
        return with(new Selection(selection.centres(), selection.from(), selection.to(), levels));
    }

    /** The same as of a revision. */
    public ReportScope asOf(long revision) {
        return new ReportScope(viewer, selection, confidence, revision);
    }

    private ReportScope with(Selection other) {
        return new ReportScope(viewer, other, confidence, asOf);
    }

    /** The bounds in time by the name of their parameter. */
    public Map<String, Period> periods() {
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

    /** The filters in force, as the answer repeats them. */
    public Filters filters() {
        return Filters.of(selection, Map.of());
    }
}
