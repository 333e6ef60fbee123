/** Can we trust the numbers? */
@NullMarked
@NamedInterface("completeness")
package entrapment.registry.reports.completeness;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
