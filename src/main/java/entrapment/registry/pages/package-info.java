/** Pages that belong to no one module: the frame around all of them, home, sending data, methods. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "stats",
            "reports",
            "reports :: question",
            "cases",
            "activity",
            "access",
            "exports",
            "vocabulary",
            "intake"
        })
package entrapment.registry.pages;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
