package entrapment.registry.stats;

/** Where maximum likelihood takes a coefficient. */
public enum Direction {
    FINITE("finite"),
    PLUS_INFINITY("+Inf"),
    MINUS_INFINITY("-Inf"),
    /** To either side, as one likes: no data speak about it once the others have gone to infinity. */
    UNDETERMINED("undetermined");

    private final String words;

    Direction(String words) {
        this.words = words;
    }

    /** The words of an answer. */
    @Override
    public String toString() {
        return words;
    }

    static Direction of(boolean up, boolean down) {
        return up ? (down ? UNDETERMINED : PLUS_INFINITY) : down ? MINUS_INFINITY : FINITE;
    }
}
