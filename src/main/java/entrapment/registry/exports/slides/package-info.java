/** Slides with charts that can be edited, and the CSV of a deck; Apache POI is used here alone. */
@NullMarked
@NamedInterface("slides")
package entrapment.registry.exports.slides;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
