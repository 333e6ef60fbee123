package entrapment.registry.cases;

import entrapment.registry.access.Role;
import java.time.Instant;

/**
 * One version of a case and its making.
 *
 * @param by the role of the key that sent it; a person is known to nobody here
 * @param at when it was accepted (UTC)
 */
public record CaseChange(StoredCase stored, Role by, Instant at) {}
