/** Statistics of rare device events: counts in, estimates with intervals out. Plain Java and Commons Math only. */
@NullMarked
package entrapment.registry.stats;

import org.jspecify.annotations.NullMarked;
