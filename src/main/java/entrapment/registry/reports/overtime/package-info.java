/** Is it changing? */
@NullMarked
@NamedInterface("overtime")
package entrapment.registry.reports.overtime;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
