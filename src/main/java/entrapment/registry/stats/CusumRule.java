package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;

/**
 * What a CUSUM watches for and when it speaks.
 *
 * @param oddsRatioAlternative R, the change it is tuned to: in [0.001, 1000] and not 1; above 1 for deterioration
 * @param threshold h in (0, 1000]; to be chosen from the run length it implies, see {@link CusumDesignAnalysis}
 * @param resetAfterSignal whether the sum starts again from 0 after a signal
 */
public record CusumRule(double oddsRatioAlternative, double threshold, boolean resetAfterSignal) {

    private static final double LARGEST_RATIO = 1000;
    private static final double LARGEST_THRESHOLD = 1000;

    /** @throws IllegalArgumentException if a value is out of its range or not a number */
    public CusumRule {
        if (!(oddsRatioAlternative >= 1 / LARGEST_RATIO && oddsRatioAlternative <= LARGEST_RATIO)
                || oddsRatioAlternative == 1) {
            throw new IllegalArgumentException("alternative odds ratio must be in [" + 1 / LARGEST_RATIO + ", "
                    + LARGEST_RATIO + "] and not 1, got " + oddsRatioAlternative);
        }
        if (!(threshold > 0 && threshold <= LARGEST_THRESHOLD)) {
            throw new IllegalArgumentException("threshold must be in (0, " + LARGEST_THRESHOLD + "], got " + threshold);
        }
    }

    /** log[R/(1−p+Rp)] after an event, log[1/(1−p+Rp)] after none. */
    double weight(boolean event, double risk) {
        double none = -FastMath.log1p(risk * (oddsRatioAlternative - 1));
        return event ? none + FastMath.log(oddsRatioAlternative) : none;
    }
}
