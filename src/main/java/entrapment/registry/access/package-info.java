/** Who asks, for which centre, what they may see, and the revisions that order every accepted change. */
@NullMarked
@ApplicationModule(allowedDependencies = {"vocabulary", "intake"})
package entrapment.registry.access;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
