/** Tables and their one number format, and how they are written for other programs. */
@NullMarked
@ApplicationModule(allowedDependencies = {"intake", "vocabulary"})
package entrapment.registry.exports;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
