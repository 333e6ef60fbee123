/** Declares that it asks nobody, and asks. */
@ApplicationModule(allowedDependencies = {})
package planted.asking;

import org.springframework.modulith.ApplicationModule;
