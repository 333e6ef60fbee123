/** Questions answered with numbers: reports from the registry, and calculations from the caller's own counts. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "stats",
            "exports",
            "exports :: slides",
            "vocabulary",
            "intake",
            "access",
            "cases",
            "activity"
        })
package entrapment.registry.reports;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
