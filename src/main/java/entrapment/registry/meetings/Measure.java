package entrapment.registry.meetings;

import com.fasterxml.jackson.annotation.JsonValue;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.intake.Entry;
import entrapment.registry.intake.Fields;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Filters;
import entrapment.registry.vocabulary.Harm;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What will show whether an action helped: a proportion of a report, over the same periods' lengths or others before and
 * after.
 *
 * @param harm the least degree that counts, of the report harm alone
 * @param filters levels by factor, as the report takes them
 */
public record Measure(
        Reported report,
        @Nullable Harm harm,
        Map<String, List<String>> filters,
        PeriodRange before,
        PeriodRange after) {

    private static final int MOST_LEVELS = 20;

    /** A report of which one proportion is looked at. */
    public enum Reported {
        INCIDENCE("incidence", "entrapment", "entrapments", "use", Unit.PER_THOUSAND, false),
        RETRIEVAL("retrieval", "freed at the first attempt", "freed at the first attempt", "case", Unit.PERCENT, true),
        HARM("harm", "with that harm or worse", "with that harm or worse", "case", Unit.PERCENT, false),
        COMPLETENESS(
                "completeness", "without an unknown field", "without an unknown field", "case", Unit.PERCENT, true);

        private final String code;
        private final String one;
        private final String many;
        private final String of;
        final Unit unit;
        /** Whether a rise is what one hopes for. */
        final boolean moreIsBetter;

        Reported(String code, String one, String many, String of, Unit unit, boolean moreIsBetter) {
            this.code = code;
            this.one = one;
            this.many = many;
            this.of = of;
            this.unit = unit;
            this.moreIsBetter = moreIsBetter;
        }

        /** {@code 2 entrapments in 104 uses}. */
        String counted(long events, long of) {
            return NumberText.count(events) + " " + (events == 1 ? one : many) + " in " + outOf(of);
        }

        /** {@code 104 uses}. */
        String outOf(long count) {
            return NumberText.count(count) + " " + of + (count == 1 ? "" : "s");
        }

        /** The name of the report, as in its path. */
        @JsonValue
        public String code() {
            return code;
        }
    }

    /**
     * Reads a measure; without periods of its own it looks at those of the meeting, and at those after them up to the day
     * when the action is due.
     */
    static Measure read(Fields fields, PeriodRange meeting, @Nullable LocalDate dueOn) {
        String name = fields.requiredText("report");
        Reported report = Stream.of(Reported.values())
                .filter(each -> each.code.equals(name))
                .findFirst()
                .orElse(null);
        if (report == null && fields.sound("/report")) {
            fields.refuse("report", "not-a-code", "report must be one of incidence, retrieval, harm, completeness");
        }
        Harm harm = fields.has("harm") ? fields.requiredCode("harm", Harm.class) : null;
        if (report != null && (harm != null) != (report == Reported.HARM)) {
            fields.refuse("harm", "measure-harm", "harm is the least degree that counts, of the report harm alone");
        }
        Map<String, List<String>> filters = fields.object("filters", Measure::filters);
        Period last =
                dueOn == null ? meeting.to() : Period.of(dueOn, meeting.to().resolution());
        PeriodRange usual = new PeriodRange(meeting.to().next(), last);
        PeriodRange before = fields.has("before") ? fields.object("before", Measure::span) : meeting;
        PeriodRange after = fields.has("after") ? fields.object("after", Measure::span) : usual;
        if (before.from().compareTo(before.to()) > 0
                || after.from().compareTo(after.to()) > 0
                || before.to().compareTo(after.from()) >= 0
                || before.from().resolution() != after.from().resolution()) {
            fields.refuse(
                    "after",
                    "measure-period-order",
                    "before must end before after begins, and each from must not be after its to; without them the"
                            + " action must be due in a period after those of the meeting");
        }
        return new Measure(report == null ? Reported.INCIDENCE : report, harm, filters, before, after);
    }

    /** Of either end; periods to come are allowed, since an effect is seen later. */
    private static PeriodRange span(Fields fields) {
        return new PeriodRange(period(fields, "from"), period(fields, "to"));
    }

    private static Period period(Fields fields, String name) {
        String text = fields.requiredText(name);
        return Period.parse(text).orElseGet(() -> {
            if (!text.isEmpty()) {
                fields.refuse(
                        name, "not-a-period", name + " must be a period, YYYY-Qn or YYYY as the network has them");
            }
            return new Period(1990, 1);
        });
    }

    private static Map<String, List<String>> filters(Fields fields) {
        Map<String, List<String>> filters = new LinkedHashMap<>();
        for (Factor factor : Factor.values()) {
            if (fields.has(factor.code())) {
                List<String> levels = fields.list(factor.code(), MOST_LEVELS, Entry::text);
                if (!levels.stream().allMatch(level -> isLevel(factor, level))) {
                    fields.refuse(factor.code(), "not-a-code", factor.code() + " must be levels of this factor");
                }
                filters.put(factor.code(), levels);
            }
        }
        return filters;
    }

    private static boolean isLevel(Factor factor, String level) {
        return factor == Factor.DEVICE_SIZE_MM
                ? level.equals(Factor.UNKNOWN) || level.matches("[0-9](\\.[0-9]{1,2})?")
                : factor.levels().contains(level);
    }

    /** The filters by the factors that they are about. */
    Map<Factor, List<String>> levels() {
        Map<Factor, List<String>> levels = new LinkedHashMap<>();
        filters.forEach((name, codes) -> Factor.of(name)
                .ifPresent(factor -> levels.put(
                        factor,
                        codes.stream()
                                .map(code -> Level.of(factor, code).code())
                                .toList())));
        return levels;
    }

    /** What it counts, in words. */
    public String words() {
        String narrowed = Filters.of(new Selection(List.of(), null, null, levels()), Map.of())
                .words();
        return report.code
                + (harm == null ? "" : " " + harm.code())
                + (narrowed.isEmpty() ? "" : " (" + narrowed + ")");
    }
}
