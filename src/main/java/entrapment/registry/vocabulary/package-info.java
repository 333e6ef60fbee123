/** The words of the registry: code lists, periods, and the factors that cases and uses share. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package entrapment.registry.vocabulary;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
