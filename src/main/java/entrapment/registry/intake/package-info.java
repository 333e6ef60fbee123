/** From what a caller sent to a checked value, or to all that is wrong with it, each at its JSON pointer. */
@NullMarked
@ApplicationModule(allowedDependencies = {"vocabulary"})
package entrapment.registry.intake;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
