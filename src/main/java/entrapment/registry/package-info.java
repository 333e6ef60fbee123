/** The service as a whole: starts the modules and turns what they refuse into answers. Sees every module; none sees it. */
@NullMarked
package entrapment.registry;

import org.jspecify.annotations.NullMarked;
