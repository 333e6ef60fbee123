/** Calculations over HTTP. */
@NullMarked
package entrapment.registry.calculations.web;

import org.jspecify.annotations.NullMarked;
