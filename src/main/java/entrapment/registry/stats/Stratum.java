package entrapment.registry.stats;

/**
 * One 2×2 table of several, such as a centre's.
 *
 * @param name as the caller wrote it
 * @param exposed events and uses with the factor
 * @param reference events and uses without it
 */
public record Stratum(String name, Proportion exposed, Proportion reference) {

    TwoByTwo table() {
        return TwoByTwo.of(exposed, reference);
    }
}
