package entrapment.registry.access;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * The state of the registry that an answer was taken from.
 *
 * @param revision the last revision that counts, 0 for an empty registry
 * @param at when that revision was accepted (UTC); null for an empty registry
 */
public record DataCut(long revision, @Nullable Instant at) {}
