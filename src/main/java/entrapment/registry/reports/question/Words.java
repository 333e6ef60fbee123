package entrapment.registry.reports.question;

import entrapment.registry.exports.NumberText;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionAnalysis;
import entrapment.registry.stats.ProportionEstimate;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Phrases that several reports share, so that the same thing is said alike. */
public final class Words {

    private Words() {}

    public static String entrapments(long count) {
        return counted(count, "entrapment");
    }

    public static String uses(long count) {
        return counted(count, "use");
    }

    public static String cases(long count) {
        return counted(count, "case");
    }

    /** {@code 1 cell}, {@code 1,042 cells}. */
    public static String counted(long count, String one) {
        return count == 1 ? "1 " + one : NumberText.count(count) + " " + one + "s";
    }

    /** {@code 3 of 1,041}. */
    public static String of(long events, long of) {
        return NumberText.count(events) + " of " + NumberText.count(of);
    }

    /** {@code 3 of 41 cases (7.3 %, 95 % CI 2.5 to 19.4)}; without an event the bound that is asked for then. */
    public static String share(ProportionEstimate share, Confidence confidence) {
        String percent = percent(share, confidence);
        if (percent == null) {
            return "no case to look at";
        }
        Double bound = ProportionAnalysis.of(new Proportion(share.events(), share.of()), confidence)
                .zeroEventUpperOneSided();
        return "%s of %s (%s)"
                .formatted(
                        NumberText.count(share.events()),
                        cases(share.of()),
                        bound == null ? percent : "the data still fit up to " + NumberText.percent(bound) + " %");
    }

    /** {@code 12.5 %, 95 % CI 4.4 to 28.1}; null where there is no case to look at. */
    public static @Nullable String percent(ProportionEstimate share, Confidence confidence) {
        Double estimate = share.estimate();
        Double lower = share.lower();
        Double upper = share.upper();
        return estimate == null || lower == null || upper == null
                ? null
                : "%s %%, %s %% CI %s to %s"
                        .formatted(
                                NumberText.percent(estimate),
                                NumberText.level(confidence.level()),
                                NumberText.percent(lower),
                                NumberText.percent(upper));
    }

    /** {@code 1.25 per 1,000 (95 % CI 0.44 to 2.8)}; null where nothing can be estimated. */
    public static @Nullable String perThousand(
            @Nullable Double estimate, @Nullable Double lower, @Nullable Double upper, Confidence confidence) {
        return estimate == null || lower == null || upper == null
                ? null
                : "%s per 1,000 (%s %% CI %s to %s)"
                        .formatted(
                                NumberText.perThousand(estimate),
                                NumberText.level(confidence.level()),
                                NumberText.perThousand(lower),
                                NumberText.perThousand(upper));
    }

    /** With a small first letter, for the middle of a sentence; abbreviations keep theirs. */
    public static String small(String text) {
        return text.length() > 1 && Character.isUpperCase(text.charAt(1))
                ? text
                : text.substring(0, 1).toLowerCase(Locale.ROOT) + text.substring(1);
    }

    /** With a capital at its beginning. */
    public static String sentence(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    /** A proportion per 1,000, for the columns of a table. */
    public static @Nullable Double thousandfold(@Nullable Double proportion) {
        return proportion == null ? null : proportion * 1000;
    }
}
