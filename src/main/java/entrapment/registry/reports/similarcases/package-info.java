/** What was done, and with what result, in cases like this? */
@NullMarked
@NamedInterface("similarcases")
package entrapment.registry.reports.similarcases;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
