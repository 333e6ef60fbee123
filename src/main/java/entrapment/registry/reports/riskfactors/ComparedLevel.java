package entrapment.registry.reports.riskfactors;

import entrapment.registry.exports.NumberText;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Labels;
import entrapment.registry.vocabulary.Level;
import org.jspecify.annotations.Nullable;

/** What the crude, stratified and adjusted comparisons of a level with its reference have in common. */
public interface ComparedLevel {

    Factor factor();

    Level level();

    /** The level it is compared with. */
    Level reference();

    long events();

    long uses();

    /** Events of uses at the reference level; null in a model, which has no such two numbers. */
    default @Nullable Proportion referenceCounts() {
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

    /** Whether the whole interval lies on one side of 1. */
    default boolean standsOut() {
        Double least = lower();
        Double most = upper();
        return least != null && most != null && (least > 1 || most < 1);
    }

    /** {@code calcification severe against none 2.81 (1.20 to 6.63)}. */
    default String words() {
        Double ratio = oddsRatio();
        return Words.small(Labels.field(factor().code())) + " " + Words.small(level().label()) + " against "
                + Words.small(reference().label()) + " "
                + (ratio == null
                        ? "not estimable"
                        : NumberText.ratio(ratio) + " (" + end(lower()) + " to " + end(upper()) + ")");
    }

    private static String end(@Nullable Double limit) {
        return limit == null ? "–" : NumberText.ratio(limit);
    }
}
