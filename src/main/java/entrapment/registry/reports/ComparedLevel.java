package entrapment.registry.reports;

import entrapment.registry.exports.NumberText;
import entrapment.registry.vocabulary.Labels;
import org.jspecify.annotations.Nullable;

/** What the crude, stratified and adjusted comparisons of a level with its reference have in common. */
interface ComparedLevel {

    /** The name of the factor. */
    String factor();

    /** The code of the level. */
    String level();

    /** The code of the level it is compared with. */
    String reference();

    long events();

    long uses();

    /** Events of uses at the reference level; null in a model, which has no such two numbers. */
    default @Nullable String referenceCounts() {
        return null;
    }

    @Nullable
    Double oddsRatio();

    @Nullable
    Double lower();

    @Nullable
    Double upper();

    @Nullable
    Double pValue();

    String sentence();

    /** The level as people read it. */
    default String levelLabel() {
        return Labels.level(factor(), level());
    }

    /** The reference as people read it. */
    default String referenceLabel() {
        return Labels.level(factor(), reference());
    }

    /** Whether the whole interval lies on one side of 1. */
    default boolean standsOut() {
        Double least = lower();
        Double most = upper();
        return least != null && most != null && (least > 1 || most < 1);
    }

    /** {@code calcification severe against none 2.81 (1.20 to 6.63)}. */
    default String words() {
        Double ratio = oddsRatio();
        return Words.small(Labels.field(factor())) + " " + Words.small(levelLabel()) + " against "
                + Words.small(referenceLabel()) + " "
                + (ratio == null
                        ? "not estimable"
                        : NumberText.ratio(ratio) + " (" + end(lower()) + " to " + end(upper()) + ")");
    }

    private static String end(@Nullable Double limit) {
        return limit == null ? "–" : NumberText.ratio(limit);
    }
}
