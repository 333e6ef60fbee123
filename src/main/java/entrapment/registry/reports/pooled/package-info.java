/** What is the rate in a typical centre? */
@NullMarked
@NamedInterface("pooled")
package entrapment.registry.reports.pooled;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
