/** What happens when the service starts: PostgreSQL from the jar, checks, restoring, the first key, the demo network. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "reports",
            "reports :: incidence",
            "reports :: question",
            "archive",
            "cases",
            "activity",
            "access",
            "intake",
            "vocabulary"
        })
package entrapment.registry.startup;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
