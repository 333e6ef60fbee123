/** Activity returns: how often each device class was used, the denominators of every rate. */
@NullMarked
@ApplicationModule(allowedDependencies = {"vocabulary", "intake", "access"})
package entrapment.registry.activity;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
