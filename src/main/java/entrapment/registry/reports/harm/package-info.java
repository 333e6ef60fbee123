/** What does it cost the patient? */
@NullMarked
@NamedInterface("harm")
package entrapment.registry.reports.harm;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
