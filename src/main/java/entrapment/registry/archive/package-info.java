/** The archive of everything, and putting it back into an empty registry. */
@NullMarked
@ApplicationModule(allowedDependencies = {"access"})
package entrapment.registry.archive;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
