package entrapment.registry.activity;

import entrapment.registry.vocabulary.Period;

/**
 * What the registry holds of one return, without its counts.
 *
 * @param version 1 for the first return of this period, then 2, 3, …
 * @param revision the place of this version in the order of all accepted changes of the registry
 * @param patterns how many patterns it counts
 * @param uses uses of every pattern together
 */
public record StoredReturn(String centre, Period period, int version, long revision, long patterns, long uses) {}
