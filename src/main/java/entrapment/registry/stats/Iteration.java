package entrapment.registry.stats;

/**
 * How an iteration ended. Nothing is printed from one that did not converge.
 *
 * @param <T> what it looks for
 */
sealed interface Iteration<T> {

    /**
     * It met its stopping rule.
     *
     * @param value what was found
     * @param steps how many it took
     */
    record Converged<T>(T value, int steps) implements Iteration<T> {}

    /**
     * It did not.
     *
     * @param why in words
     * @param last where it stood
     */
    record NotConverged<T>(String why, T last) implements Iteration<T> {}
}
