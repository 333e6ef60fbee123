/** Which way out works, and how well as the first try? */
@NullMarked
@NamedInterface("retrieval")
package entrapment.registry.reports.retrieval;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
