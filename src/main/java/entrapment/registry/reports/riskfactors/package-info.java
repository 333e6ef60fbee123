/** What raises the odds? */
@NullMarked
@NamedInterface("riskfactors")
package entrapment.registry.reports.riskfactors;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
