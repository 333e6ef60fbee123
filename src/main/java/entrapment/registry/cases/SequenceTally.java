package entrapment.registry.cases;

import java.util.List;

/**
 * Cases in which the same techniques were tried in the same order, with the same result.
 *
 * @param techniques in the order tried
 * @param result of the last attempt
 * @param own cases of the centre that asks, or all of them where whoever asks may see every centre
 * @param others cases of other centres
 */
public record SequenceTally(List<String> techniques, String result, long own, long others) {

    /** How many sequences that were seen once, at the own centre and at others, are told apart. */
    public static final int MOST_SEEN_ONCE = 50;
}
