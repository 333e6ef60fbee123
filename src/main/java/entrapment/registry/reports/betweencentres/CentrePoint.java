package entrapment.registry.reports.betweencentres;

import entrapment.registry.exports.NumberText;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Estimate;
import entrapment.registry.stats.FunnelAnalysis;
import entrapment.registry.stats.FunnelAnalysis.Position;
import entrapment.registry.stats.Group;
import entrapment.registry.stats.IndirectStandardisationAnalysis;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ShrinkageAnalysis;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Levels;
import org.jspecify.annotations.Nullable;

/**
 * One centre.
 *
 * @param events null, as all that would give it away, where it is another centre's small count or protects one
 * @param limits the funnel's lines at the centre's size, for drawing
 * @param flag from the exact tail, the only flag to act on
 * @param expected events at the registry's rates for the centre's mix of the factors in {@code adjustFor}
 * @param observedOverExpected with its exact interval; not comparable between centres whose mixes differ
 * @param shrunken the best estimate allowing for chance, with its interval; null where centres do not differ beyond it
 */
public record CentrePoint(
        Levels level,
        @Nullable Long events,
        long uses,
        @Nullable Double estimate,
        @Nullable Double lower,
        @Nullable Double upper,
        FunnelAnalysis.Limits limits,
        @Nullable Position flag,
        boolean tooSmallToFlagLow,
        boolean perhapsNotReporting,
        @Nullable Double expected,
        Estimate observedOverExpected,
        Estimate shrunken,
        boolean suppressed,
        String sentence) {

    CentrePoint hidden() {
        return new CentrePoint(
                level,
                null,
                uses,
                null,
                null,
                null,
                limits,
                null,
                tooSmallToFlagLow,
                false,
                expected,
                NO_RATIO,
                NO_RATIO,
                true,
                level.codes() + ": hidden, as its count of entrapments is small or protects a small one.");
    }

    private static final Estimate NO_RATIO = new Estimate(null, null, null);

    static CentrePoint of(
            Group group,
            FunnelAnalysis.Centre place,
            IndirectStandardisationAnalysis standardised,
            ShrinkageAnalysis.@Nullable Centre shrunken,
            @Nullable Double target,
            Confidence confidence) {
        Proportion own = group.proportion();
        Interval interval = own.interval(IntervalMethod.WILSON, confidence);
        return new CentrePoint(
                Levels.of(GroupBy.CENTRE.code(), new Level.OfCentre(group.name())),
                own.events(),
                own.of(),
                own.estimate(),
                interval.lower(),
                interval.upper(),
                place.limits(),
                place.flag(),
                place.tooSmallToFlagLow(),
                place.perhapsNotReporting(),
                standardised.expected(),
                new Estimate(
                        standardised.oOverE(),
                        standardised.exact().lower(),
                        standardised.exact().upper()),
                shrunken == null ? NO_RATIO : new Estimate(shrunken.shrunken(), shrunken.lower(), shrunken.upper()),
                false,
                sentence(group, place, standardised, shrunken, target, confidence));
    }

    private static String sentence(
            Group group,
            FunnelAnalysis.Centre place,
            IndirectStandardisationAnalysis standardised,
            ShrinkageAnalysis.@Nullable Centre shrunken,
            @Nullable Double target,
            Confidence confidence) {
        Double estimate = group.proportion().estimate();
        if (estimate == null || target == null) {
            return group.name() + ": no use was reported.";
        }
        StringBuilder sentence = new StringBuilder("%s: %s in %s (%s per 1,000), %s for the registry's %s per 1,000."
                .formatted(
                        group.name(),
                        Words.entrapments(group.proportion().events()),
                        Words.uses(group.proportion().of()),
                        NumberText.perThousand(estimate),
                        where(place.flag()),
                        NumberText.perThousand(target)));
        Double ratio = standardised.oOverE();
        Double expected = standardised.expected();
        Double lower = standardised.exact().lower();
        Double upper = standardised.exact().upper();
        if (ratio != null && expected != null && lower != null && upper != null) {
            sentence.append(" For its own mix %s were expected: %s times as many as that (%s %% CI %s to %s)."
                    .formatted(
                            NumberText.oneDecimal(expected),
                            NumberText.ratio(ratio),
                            NumberText.level(confidence.level()),
                            NumberText.ratio(lower),
                            NumberText.ratio(upper)));
        }
        Double shrunkenRate = shrunken == null ? null : shrunken.shrunken();
        Double shrunkenLower = shrunken == null ? null : shrunken.lower();
        Double shrunkenUpper = shrunken == null ? null : shrunken.upper();
        if (shrunkenRate != null && shrunkenLower != null && shrunkenUpper != null) {
            sentence.append(" Best estimate allowing for chance: %s per 1,000 (%s to %s)."
                    .formatted(
                            NumberText.perThousand(shrunkenRate),
                            NumberText.perThousand(shrunkenLower),
                            NumberText.perThousand(shrunkenUpper)));
        }
        if (place.flag() == Position.ABOVE_998 || place.flag() == Position.BELOW_998) {
            sentence.append(" Check data and case mix before anything else.");
        }
        if (place.perhapsNotReporting()) {
            sentence.append(
                    " No case in so many uses is unlikely at the registry's rate: is the centre reporting its cases?");
        }
        return sentence.toString();
    }

    private static String where(Position flag) {
        return switch (flag) {
            case ABOVE_998 -> "above the 99.8 % limit";
            case ABOVE_95 -> "above the 95 % limit";
            case BELOW_95 -> "below the 95 % limit";
            case BELOW_998 -> "below the 99.8 % limit";
            default -> "within the limits";
        };
    }
}
