/** How often is a device entrapped? */
@NullMarked
@NamedInterface("incidence")
package entrapment.registry.reports.incidence;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
