/** What leaves the network: figures whose small counts are hidden, audited together with all that was released before. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "stats",
            "reports",
            "cases",
            "activity",
            "access",
            "exports",
            "exports :: slides",
            "vocabulary",
            "intake"
        })
package entrapment.registry.releases;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
