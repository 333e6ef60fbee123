package entrapment.registry.stats;

/**
 * A statistical method as an answer quotes it.
 *
 * @param code lower-case kebab, stable for ever
 * @param name what a reader of a table sees
 * @param citation the publications that define it
 */
public record Method(String code, String name, String citation) {}
