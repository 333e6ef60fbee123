/** Methods of the kernel on counts that the caller brings (contract, section 6). */
@NullMarked
@ApplicationModule(allowedDependencies = {"stats", "intake"})
package entrapment.registry.calculations;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
