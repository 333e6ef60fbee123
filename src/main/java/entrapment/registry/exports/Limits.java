package entrapment.registry.exports;

import org.jspecify.annotations.Nullable;

/**
 * Both ends of an interval, as one cell of a table.
 *
 * @param lower null where there is none
 * @param upper null where there is none, infinite where it is open
 */
public record Limits(@Nullable Double lower, @Nullable Double upper) {}
