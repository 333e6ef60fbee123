package entrapment.registry.cases;

import entrapment.registry.vocabulary.Period;

/**
 * What became of the cases that a centre sent of one period.
 *
 * @param stored that count
 * @param corrected those of them that were changed after they were first sent
 * @param withdrawn that were taken back
 */
public record CasesOfPeriod(Period period, long stored, long corrected, long withdrawn) {}
