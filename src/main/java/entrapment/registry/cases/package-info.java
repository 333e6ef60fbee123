/** Entrapment cases: what got stuck, where, each retrieval step in order, what came out, how the patient did. */
@NullMarked
@ApplicationModule(allowedDependencies = {"vocabulary", "intake", "access"})
package entrapment.registry.cases;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
