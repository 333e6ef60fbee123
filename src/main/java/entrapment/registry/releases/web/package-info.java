/** Releases over HTTP, and the reports as the outside may see them. */
@NullMarked
package entrapment.registry.releases.web;

import org.jspecify.annotations.NullMarked;
