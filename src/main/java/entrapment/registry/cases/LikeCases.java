package entrapment.registry.cases;

/**
 * How many cases are like a partial one.
 *
 * @param own cases of the centre that asks, or all of them where whoever asks may see every centre
 * @param others cases of other centres
 */
public record LikeCases(long own, long others) {

    public long all() {
        return own + others;
    }
}
