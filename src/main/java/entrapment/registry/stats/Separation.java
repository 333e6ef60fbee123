package entrapment.registry.stats;

import java.util.Locale;

/** Whether factors foretell the event so well that maximum likelihood has no finite estimate. */
public enum Separation {
    /** Every coefficient has a finite estimate. */
    NONE,
    /** Some combination of factors tells all events from all non-events. */
    COMPLETE,
    /** Some combination does so for part of the patterns and says nothing about the rest. */
    QUASI_COMPLETE;

    /** The words of an answer. */
    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
