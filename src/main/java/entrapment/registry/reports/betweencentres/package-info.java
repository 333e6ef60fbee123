/** Are we different, beyond chance? */
@NullMarked
@NamedInterface("betweencentres")
package entrapment.registry.reports.betweencentres;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
