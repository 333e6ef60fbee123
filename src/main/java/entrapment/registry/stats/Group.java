package entrapment.registry.stats;

/**
 * A named group with its count: a level of a factor, a centre, a technique.
 *
 * @param name as the caller wrote it
 * @param proportion its events
 */
public record Group(String name, Proportion proportion) {}
