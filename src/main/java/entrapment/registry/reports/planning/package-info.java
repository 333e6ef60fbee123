/** How long until we could tell? */
@NullMarked
@NamedInterface("planning")
package entrapment.registry.reports.planning;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
