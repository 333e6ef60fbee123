/**
 * Departmental meetings: figures and cases as of a data cut, what was said about them, what was agreed, and whether it
 * helped. {@link entrapment.registry.meetings.Meetings} is the door. */
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
package entrapment.registry.meetings;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
