/**
 * What leaves the network: figures whose small counts are hidden, audited together with all that was
 * released before; and the archive of everything. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {"stats", "reports", "cases", "activity", "access", "exports", "vocabulary", "intake"})
package entrapment.registry.releases;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
