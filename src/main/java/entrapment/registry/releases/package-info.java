/** What leaves the network: the archive. */
@NullMarked
@ApplicationModule(allowedDependencies = {"intake", "access"})
package entrapment.registry.releases;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
