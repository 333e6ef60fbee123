package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * The one rule by which small counts are hidden, whoever reads and whatever else is printed.
 *
 * <p>Small are counts from 1 to k−1; a zero is shown. A small count is protected if a reader of all that is shown must reckon
 * with k or more, and with values k−1 or more apart [1]. What is small is hidden (primary). As long as a small count is not
 * protected, more is hidden beside it (complementary); what turns out not to be needed is shown again.
 *
 * <p>[1] Hundepool A et al., Statistical Disclosure Control, Wiley 2012.
 */
public final class SmallCounts {

    private static final int LEAST_THRESHOLD = 2;
    private static final int MOST_THRESHOLD = 100;

    private SmallCounts() {}

    /** Whether a count is one of 1 to k-1. */
    public static boolean isSmall(long count, int threshold) {
        return count >= 1 && count < threshold;
    }

    /**
     * Whether a range of possible values protects a small count.
     *
     * @param maximum infinite if nothing that is shown bounds it
     * @param threshold k
     */
    public static boolean protects(double minimum, double maximum, int threshold) {
        return maximum >= threshold && maximum - minimum >= threshold - 1;
    }

    /** @throws IllegalArgumentException unless k is in [2, 100] */
    static void requireThreshold(int threshold) {
        Counts.require("threshold", threshold, LEAST_THRESHOLD, MOST_THRESHOLD);
    }

    /**
     * Figures of which some are shown and some hidden, and what a reader can work out from those that are shown. Small figures
     * are hidden from the start.
     *
     * @param <F> a figure
     */
    public interface Disclosure<F> {

        /** Whether a small figure is protected by what is hidden now. */
        boolean protects(F small);

        /** Whether all of them are; a quicker look, if there is one, that may say no too often. */
        boolean protectsAll(Collection<F> small);

        /** What is to be hidden next for a small figure that is not protected, as cheap as may be; empty if nothing can help. */
        Collection<F> further(F small);

        /** Hides a figure that was shown. */
        void hide(F figure);

        /** Shows a figure again. */
        void show(F figure);

        /** Which figures readers want most. */
        Comparator<F> dearestFirst();
    }

    /**
     * What was hidden beside the small figures.
     *
     * @param complementary in the order in which it was hidden
     * @param unprotected small figures that are given away whatever is hidden; then nothing was shown again
     */
    public record Protection<F>(Set<F> complementary, List<F> unprotected) {}

    /** Hides what must be hidden beside small figures, one after the other, then shows again what need not be. */
    public static <F> Protection<F> protect(Collection<F> small, Disclosure<F> disclosure) {
        Set<F> complementary = new LinkedHashSet<>();
        List<F> unprotected = new ArrayList<>();
        for (F figure : small) {
            while (!disclosure.protects(figure)) {
                Collection<F> further = disclosure.further(figure);
                if (further.isEmpty()) {
                    unprotected.add(figure);
                    break;
                }
                further.forEach(disclosure::hide);
                complementary.addAll(further);
            }
        }
        if (unprotected.isEmpty()) {
            for (F figure :
                    complementary.stream().sorted(disclosure.dearestFirst()).toList()) {
                disclosure.show(figure);
                if (disclosure.protectsAll(small)) {
                    complementary.remove(figure);
                } else {
                    disclosure.hide(figure);
                }
            }
        }
        return new Protection<>(complementary, unprotected);
    }
}
