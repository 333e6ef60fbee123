/**
 * Departmental meetings: {@link entrapment.registry.meetings.Meetings} prepares and freezes them at a data cut,
 * {@link entrapment.registry.meetings.Reviews} keeps what is said of a case,
 * {@link entrapment.registry.meetings.Actions} what was agreed, and whether it helped.
 */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "stats",
            "reports",
            "reports :: *",
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
