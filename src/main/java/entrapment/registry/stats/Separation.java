package entrapment.registry.stats;

/** Whether factors foretell the event so well that maximum likelihood has no finite estimate. */
public enum Separation {
    /** Every coefficient has a finite estimate. */
    NONE("none"),
    /** Some combination of factors tells all events from all non-events. */
    COMPLETE("complete"),
    /** Some combination does so for part of the patterns and says nothing about the rest. */
    QUASI_COMPLETE("quasi-complete");

    private final String words;

    Separation(String words) {
        this.words = words;
    }

    /** The words of an answer. */
    @Override
    public String toString() {
        return words;
    }
}
