package entrapment.registry.cases;

import entrapment.registry.vocabulary.Tally;

/**
 * Cases of one cell and combination of levels that had an outcome.
 *
 * @param tally where, and how many
 * @param field {@code harm}, {@code complications}, {@code perforation}, {@code fragment} or {@code release}
 * @param code what was recorded there; every case has one code of each field, and any number of complications
 */
public record OutcomeTally(Tally tally, String field, String code) {}
